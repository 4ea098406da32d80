"""Nuts, bearing strength of woods and torques of hands against prints that the tables were not made from."""

import pytest

from kit.core.tables import table

# ISO 4032, height at most and width across corners at least, mm: trojansf.co.uk/standards/iso-4032 (read).
NUTS = {"M3": (2.4, 6.01), "M4": (3.2, 7.66), "M5": (4.7, 8.79), "M6": (5.2, 11.05), "M8": (6.8, 14.38),
        "M10": (8.4, 17.77), "M12": (10.8, 20.03), "M16": (14.8, 26.75), "M20": (18, 32.95)}  # fmt: skip
# ANSI/ASME B18.2.2, finished hex nuts, basic height, in: fdocuments.in, "nutsspec.pdf" (read).
BASIC = {"1/4-20": 7 / 32, "5/16-18": 17 / 64, "3/8-16": 21 / 64, "1/2-13": 7 / 16}


@pytest.mark.parametrize("thread", NUTS)
def test_metric_nuts_of_another_print(thread: str) -> None:
    row = table("fasteners").row(thread)
    height, corners = NUTS[thread]
    assert row["nut_height"] == pytest.approx(height)
    # a true hexagon has 2/sqrt(3) = 1.155 across flats over its corners; the standard lets the corners lose 5 %
    assert 1.09 < corners / row["across_flats"] < 1.155


@pytest.mark.parametrize("thread", BASIC)
def test_inch_nuts_are_at_most_a_little_over_basic(thread: str) -> None:
    row = table("fasteners").row(thread)
    assert 0 < row["nut_height"] / 25.4 - BASIC[thread] < 0.012


def test_fine_and_coarse_threads_have_the_same_nut() -> None:
    threads = table("fasteners")
    for size in ("1/4", "5/16", "3/8", "1/2"):
        rows = [row for row in threads if row.id.startswith(size)]
        assert len(rows) == 2
        assert len({(row["across_flats"], row["nut_height"]) for row in rows}) == 1
    assert threads.row("#10-32").entry("nut_height").confidence == "read"
    assert threads.row("#10-32").entry("stress_area").confidence == "memory"


# Wood Handbook, Table 5-3a (metric print), 12 %: compression across the grain and shear along it, kPa, from memory.
@pytest.mark.parametrize(
    ("wood", "across", "along"),
    [("hard maple", 10_100, 16_100), ("douglas-fir", 5_500, 7_800), ("white oak", 7_400, 13_800)],
)
def test_bearing_and_shear_of_the_metric_print(wood: str, across: float, along: float) -> None:
    row = table("woods").row(wood)
    assert row["compression_across"] * 1000 == pytest.approx(across, abs=50)
    assert row["shear_along"] * 1000 == pytest.approx(along, abs=50)


def test_women_over_men_as_the_studies_say() -> None:
    # Replogle 1983, abstract: female torque is "about 40 percent of that of males"; Shih 1997: 7.9 of 12.0 N m, 66 %
    row = table("hand_torques").row("product knob")
    assert row["men"] == pytest.approx(4.07e3, abs=5)  # 36 in-lbf in N·mm
    women = row.entry("women")
    assert women.confidence == "practice"
    assert women.half is not None
    assert [(women.base + end * women.half) / row["men"] for end in (-1, 1)] == pytest.approx([0.40, 0.66], abs=0.02)
    assert all("wheel" not in each.id for each in table("hand_torques"))  # some 210 mm across, so no knobs


def test_what_is_waxed_or_varnished_holds_less_than_bare_wood() -> None:
    rows = table("friction")
    bare = rows.row("wood on wood, dry")["static"]
    for name in ("wood on wood, soaped or waxed", "wood on wood, varnished", "wood on steel, waxed"):
        entry = rows.row(name).entry("static")
        assert entry.half
        assert entry.base + entry.half < bare
        assert entry.confidence == "practice"
    # A. F. Collins, Inventing for Boys (1916): oak on oak, fibers parallel, rubbed with soap 0.16 (read, bitlit.ru)
    assert rows.row("wood on wood, soaped or waxed").entry("kinetic").confidence == "read"
    # Engineering handbooks, from memory: wood on clean, dry metals 0.2 to 0.6
    aluminum = rows.row("wood on aluminum, dry").entry("static")
    assert (aluminum.base, aluminum.half) == pytest.approx((0.4, 0.2))


def test_holding_takes_the_low_end_of_friction() -> None:
    """The Engineer's Handbook, via mech.subwiki.org: wood on wood 0.25 to 0.5, wood on metal 0.2 to 0.6, wet 0.2."""
    rows = table("friction")
    for name, low in (("wood on wood, dry", 0.25), ("wood on steel, dry", 0.2), ("wood on aluminum, dry", 0.2)):
        entry = rows.row(name).entry("low")
        assert (entry.base, entry.confidence) == (low, "read")
        assert entry.base < rows.row(name)["static"]
    for name in ("wood on wood, soaped or waxed", "wood on steel, waxed", "wood on wood, varnished"):
        row = rows.row(name)
        assert row.entry("low").confidence == "practice"
        assert row.entry("low").base == pytest.approx(row["static"] - row.entry("static").half)
