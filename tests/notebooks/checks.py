"""What holds in each notebook on its example, checked after the cell of that id ran."""

CHECKS: dict[str, dict[str, tuple[str, ...]]] = {
    "10_envelope": {
        "10-59": ("assert all(row.agrees for row in rows)",),
    },
    "15_hood": {
        "15-34": ("assert sure.ok",),
        "15-45": ("assert all(row.agrees for row in checks)",),
    },
    "20_bevels": {
        "20-28": ("assert all(row.agrees for row in rows)",),
    },
    "30_folds": {
        "30-25": ("assert all(row.agrees for row in rows)",),
    },
    "34_cloth_hood": {
        "34-44": ("assert all(row.agrees for row in rows)",),
    },
    "36_drop_chute": {
        "36-52": ("assert all(row.agrees for row in rows)",),
    },
    "40_cutting": {
        "40-27": ("assert packed.ok",),
        "40-47": (
            "assert boards.ok",
            "assert best.ok",
        ),
        "40-35": ("assert all(row.agrees for row in rows)",),
    },
    "42_squareness": {
        "42-30": ("assert all(row.agrees for row in rows)",),
    },
    "50_levelling": {
        "50-27": ("assert found.values",),
        "50-28": ("assert not hopeless.values",),
        "50-50": ("assert all(row.agrees for row in rows)",),
        "50-65": ("assert all(row.agrees for row in rows)",),
        "50-78": ('assert abs(mended.base["twist"]) < 1e-12',),
        "50-84": ("assert all(row.agrees for row in rows)",),
        "50-97": ("assert all(row.agrees for row in rows)",),
        "50-107": ("assert all(case.ok for case in cases)",),
        "50-31": ("assert all(row.agrees for row in rows)",),
    },
    "60_grooves": {
        "60-31": ("assert not hopeless.values",),
        "60-51": ("assert all(row.agrees for row in rows)",),
        "60-61": ("assert all(row.agrees for row in rows)",),
        "60-72": ("assert all(row.agrees for row in rows)",),
        "60-81": ("assert all(row.agrees for row in rows)",),
        "60-89": ("assert all(case.ok for case in cases)",),
        "60-33": ("assert all(row.agrees for row in rows)",),
    },
    "70_scales_and_stop": {
        "70-26": ("assert all(row.agrees for row in rows)",),
    },
    "80_long_stop": {
        "80-28": ("assert not hopeless.values",),
        "80-30": ("assert all(row.agrees for row in rows)",),
    },
    "85_shelves": {
        "85-28": ("assert all(row.agrees for row in rows)",),
    },
    "86_bench_and_people": {
        "86-30": ("assert all(row.agrees for row in rows)",),
    },
    "87_air": {
        "87-25": ("assert all(row.agrees for row in rows)",),
    },
    "88_fastening": {
        "88-26": ("assert all(row.agrees for row in rows)",),
    },
    "89_finish": {
        "89-19": ("assert all(row.agrees for row in rows)",),
    },
    "90_knob": {
        "90-26": ("assert not hopeless.values",),
        "90-29": ("assert all(row.agrees for row in rows)",),
    },
    "95_accuracy": {
        "95-36": ("assert all(row.agrees for row in rows)",),
        "95-38": ('assert lone.base["expanded"] > lone.base["worst"] > sample.interval()[1]',),
        "95-61": ('assert measured.base["bias"] > 2 * measured.base["bias_expanded"]',),
        "95-63": ('assert corrected.base["expanded"] < chain.base["expanded"]',),
    },
}
