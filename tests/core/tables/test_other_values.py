"""Papers, threads, bends, cloths and metals against rules and prints from outside the tables."""

from itertools import pairwise
from math import pi, sqrt

import pytest

from kit.core.tables import Row, table

INCH = 25.4


def test_each_a_size_is_half_the_former_rounded_down() -> None:
    # ISO 216: halve the longer side, drop the half millimeter; A0 has 1 m2 and sides as 1 to the root of 2
    sizes = [table("papers").row(f"A{n}") for n in range(7)]
    a0 = sizes[0]["width"], sizes[0]["height"]
    assert a0 == (round(1000 / 2**0.25), round(1000 * 2**0.25))
    for former, size in pairwise(sizes):
        assert size["height"] == former["width"]
        assert size["width"] == former["height"] // 2
        assert size["height"] / size["width"] == pytest.approx(sqrt(2), abs=1 / size["width"])


def test_inch_papers_in_millimeters() -> None:
    # exact by the definition of the inch: 215.9 x 279.4, 215.9 x 355.6, 279.4 x 431.8
    papers = table("papers")
    assert [(papers.row(n)["width"], papers.row(n)["height"]) for n in ("Letter", "legal", "TABLOID")] == [
        pytest.approx((215.9, 279.4)), pytest.approx((215.9, 355.6)), pytest.approx((279.4, 431.8))
    ]  # fmt: skip
    assert papers.row("letter").entry("width").unit.text == "in"


def metric() -> list[Row]:
    return [row for row in table("fasteners") if row.id.startswith("M")]


def unified() -> list[Row]:
    return [row for row in table("fasteners") if not row.id.startswith("M")]


@pytest.mark.parametrize("row", metric(), ids=lambda row: row.id)
def test_metric_threads(row: Row) -> None:
    # ISO 898-1: A = pi/4 (d - 0.938194 p)^2, to three digits; ISO 724: d2 = d - 0.649519 p, to 0.001 mm
    area = pi / 4 * (row["diameter"] - 0.938194 * row["pitch"]) ** 2
    assert float(f"{area:.3g}") == row["stress_area"]
    pitch_diameter = row["diameter"] - 0.649519 * row["pitch"]
    assert pitch_diameter == pytest.approx(row["pitch_diameter"], abs=0.0005 + 1e-9)
    assert row["diameter"] < row["clearance_hole"] < row["across_flats"]


@pytest.mark.parametrize("row", unified(), ids=lambda row: row.id)
def test_unified_threads(row: Row) -> None:
    # ASME B1.1: A = pi/4 (D - 0.9743/n)^2 and E = D - 0.64951905/n, printed to 0.0001 in2 and 0.0001 in.
    # Two areas are printed one unit below the formula: 0.0580 for 0.0581, 0.1599 for 0.1600.
    low = 0.0001 if row.id in ("5/16-24 UNF", "1/2-20 UNF") else 0
    d, p = row["diameter"] / INCH, row["pitch"] / INCH
    assert round(pi / 4 * (d - 0.9743 * p) ** 2, 4) == pytest.approx(row["stress_area"] / INCH**2 + low, abs=1e-9)
    assert d - 0.64951905 * p == pytest.approx(row["pitch_diameter"] / INCH, abs=0.00005 + 1e-9)
    assert row.entry("stress_area").unit.text == "in²"


ULTIMATE = {"M6": 16_100, "M8": 29_200, "M10": 46_400, "M12": 67_400}  # N


@pytest.mark.parametrize(("thread", "ultimate"), ULTIMATE.items())
def test_ultimate_load_of_class_8_8(thread: str, ultimate: float) -> None:
    # ISO 898-1 prints the least ultimate load of class 8.8 (800 MPa) to 100 N: usefastener.com/knowledge/404
    assert 800 * table("fasteners").row(thread)["stress_area"] == pytest.approx(ultimate, abs=100)


NEUTRAL_AXIS = {"soft copper": 0.350, "aluminum": 0.407, "spring steel": 0.452}


@pytest.mark.parametrize(("metal", "factor"), NEUTRAL_AXIS.items())
def test_neutral_axis_from_the_printed_bend_lengths(metal: str, factor: float) -> None:
    # Machinery's Handbook, 31st ed., p. 1421: L = 0.55 T + 1.57 R and so on; 0.55, 0.64, 0.71 over pi/2
    row = table("bend_factors").row(metal)
    assert round(row["neutral_axis_factor"], 3) == factor
    assert round(row["neutral_axis_factor"] * pi / 2, 2) == row["allowance_factor"]
    assert row.entry("neutral_axis_factor").confidence == "read"


def test_aircraft_rule_is_the_quotient_of_its_printed_constants() -> None:
    # FAA form: BA = (0.01743 R + 0.0078 T) A
    row = table("bend_factors").row("aircraft sheet rule")
    assert row["neutral_axis_factor"] == round(0.0078 / 0.01743, 4)


@pytest.mark.parametrize("number", [12, 10, 8, 4])
def test_numbered_duck(number: int) -> None:
    # convention of the trade: (19 - number) ounces per linear yard of cloth 22 inches wide
    mass = table("cloths").row(f"no. {number} duck").entry("mass_per_area")
    assert mass.base / mass.unit.factor == pytest.approx((19 - number) * 36 / 22, abs=0.005)


def test_eighteen_ounce_cloth_in_metric() -> None:
    # 18 oz/yd2 = 610 g/m2 as the trade prints it; base is tonne/mm2
    row = table("cloths").row("PVC-coated polyester, 18 oz")
    assert row["mass_per_area"] * 1e12 == pytest.approx(610, abs=0.5)


@pytest.mark.parametrize(
    ("metal", "modulus_msi", "density_lb_in3"),
    # customary figures of the same metals, from memory: 10.0 and 29 Msi; 0.098 and 0.284 lb/in3
    [("aluminum 6061-T6", 10.0, 0.098), ("structural steel", 29.0, 0.284)],
)
def test_metals_in_inch_pounds(metal: str, modulus_msi: float, density_lb_in3: float) -> None:
    row = table("metals").row(metal)
    assert row["modulus"] / 6894.757 == pytest.approx(modulus_msi, abs=0.05)
    assert row["density"] * INCH**3 / 0.45359237e-3 == pytest.approx(density_lb_in3, abs=0.0006)


def test_oriented_strandboard_spans_the_mills() -> None:
    # GTR-190 Table 12-3: mills from 4.41 to 6.31 GPa along, 1.92 to 3.17 across; issuhub.com, pageIndex=284
    row = table("sheet_goods").row("OSB")
    along, across = row.entry("modulus_along"), row.entry("modulus_across")
    assert along.half is not None
    assert across.half is not None
    assert (along.base - along.half, along.base + along.half) == pytest.approx((4410, 6310))
    assert (across.base - across.half, across.base + across.half) == pytest.approx((1920, 3170))
    assert row.entry("rupture").confidence == "memory"


@pytest.mark.parametrize(
    ("panel", "modulus", "strength"),
    # GTR-190 Table 12-1, from memory: least and greatest, GPa and MPa
    [
        ("plywood", (6.96, 8.55), (33.72, 42.61)),
        ("particleboard", (2.76, 4.14), (15.17, 24.13)),
        ("hardboard", (3.10, 5.52), (31.02, 56.54)),
        ("LVL", (8.96, 19.24), (33.78, 86.18)),
    ],
)
def test_panels_span_the_printed_range(panel: str, modulus: tuple[float, float], strength: tuple[float, float]) -> None:
    for column, (low, high), scale in (("modulus_along", modulus, 1000), ("rupture", strength, 1)):
        entry = table("sheet_goods").row(panel).entry(column)
        assert entry.half is not None
        ends = entry.base - entry.half, entry.base + entry.half
        assert ends == pytest.approx((low * scale, high * scale))


def test_miter_slot_and_track_are_inch_sizes() -> None:
    slot = table("tracks").row("miter slot 3/4 x 3/8 in")
    assert (slot["width"], slot["depth"]) == pytest.approx((19.05, 9.525))
    assert slot.entry("width").confidence == "practice"
