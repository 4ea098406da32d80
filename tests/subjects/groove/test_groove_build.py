"""Passes and templates: by hand, the pieces adding up to the groove, and the template's file read back."""

from pathlib import Path

import pytest

from kit.core.build import Build
from kit.core.quantity import Display, parse
from kit.core.resources import data_dir
from kit.drawing.svg import svg
from kit.job import Job
from kit.job.build import build, standalone
from kit.subjects import model, subject


def worked(name: str, **givens: str) -> Build:
    work = subject(name)
    assert work is not None
    return work.build(standalone(model(name).at(**givens), Display(decimals=4)))


def columns(found: Build, *heads: str) -> list[tuple[float, ...]]:
    table = found.rows("Passes")
    places = [table.heads.index(head) for head in heads]
    return [tuple(parse(row[place], "mm").base for place in places) for row in table.rows]


GUIDE = {"width": "30 mm", "base": "150 mm", "bit": "12 mm", "overlap_least": "20 %", "eccentricity": "0 mm"}


def test_three_passes_between_two_guides_by_hand() -> None:
    """A bit of 12 mm in 30 mm: cuts from 0, 9 and 18 mm, the guides (150 - 12)/2 = 69 mm off, a spacer of 9 mm."""
    found = worked("groove.guide", **GUIDE)
    assert columns(found, "Cut from", "Cut to") == [(0, 12), (18, 30), (9, 21)]
    assert [row[3] for row in found.rows("Passes").rows] == ["none", "none", "9.00 mm"]
    assert found.number("first").base == pytest.approx(69)
    assert found.number("second").base == pytest.approx(69)


def test_along_one_guide_the_farthest_is_cut_first() -> None:
    found = worked("groove.guide", guides="one, moved for each pass", **GUIDE)
    assert columns(found, "Guide from the near edge", "Cut from", "Cut to") == [
        (51, 18, 30),
        (60, 9, 21),
        (69, 0, 12),
    ]


def test_one_pass_needs_no_spacer() -> None:
    found = worked("groove.guide", **GUIDE | {"width": "12 mm"})
    assert columns(found, "Cut from", "Cut to") == [(0, 12)]


def test_an_off_center_bit_shifts_the_guides_and_not_the_groove() -> None:
    """The bit lies 0.5 mm off, square to the travel and away from the first guide: both guides move back by it."""
    off = {"eccentricity": "0.5 mm", "direction": "90 deg", "turned": "0 deg"}
    found = worked("groove.guide", **GUIDE | off)
    assert found.number("first").base == pytest.approx(69.5)
    assert found.number("second").base == pytest.approx(68.5)


def test_the_demo_s_guides_stand_as_far_apart_as_the_model_says() -> None:
    job = Job.open(data_dir() / "boatshed.toml")
    found, v = build(job, "track_guides"), job.case("track_guides").base
    assert found is not None
    apart = found.number("first").base + v["width"] + found.number("second").base
    assert apart == pytest.approx(v["spacing"], rel=1e-12)


def test_depths_by_hand() -> None:
    """12 mm of blocks, half of a bit of 8 mm a pass: 4, 8 and 12 mm, with 8, 4 and no spacer, in a board of 24 mm."""
    plain = {"pile_light": "0 mm", "pile_firm": "0 mm", "paper": "0 mm", "push": "0 N", "pass_share": "50 %"}
    found = worked("groove.depth", blocks="12 mm", bit="8 mm", board="24 mm", wanted="12 mm", **plain)
    heads = ("Depth", "Spacer under the rod", "Wood left under it")
    assert columns(found, *heads) == [(4, 8, 20), (8, 4, 16), (12, 0, 12)]


def test_too_many_passes_are_no_table() -> None:
    for name, givens in (
        ("groove.guide", {"width": "120 mm", "bit": "2 mm"}),
        ("groove.depth", {"blocks": "60 mm", "bit": "2 mm", "pass_share": "10 %"}),
    ):
        found = worked(name, **givens)
        assert not found.tables
        assert "take a larger bit" in found.cautions[0]


@pytest.mark.parametrize("name", ["groove.guide", "groove.depth"])
def test_the_card_is_written(tmp_path: Path, name: str) -> None:
    written = worked(name).output("passes").write(tmp_path, "card", Display())
    assert all(path.stat().st_size > 500 for path in written)


def test_the_template_s_file_has_its_size(tmp_path: Path) -> None:
    import ezdxf
    from ezdxf import bbox

    found = worked("groove.template", width="60 mm", length="120 mm", running="24 mm", bit="12 mm", corner="8 mm")
    (path,) = (path for path in found.output("template").write(tmp_path, "t", Display()) if path.suffix == ".dxf")
    drawn = ezdxf.readfile(path).modelspace()
    edge = [entity for entity in drawn if entity.dxf.layer == "OUTLINE"]
    box = bbox.extents(edge)
    assert (box.size.x, box.size.y) == pytest.approx((132, 72), abs=1e-3)
    assert {round(arc.dxf.radius, 6) for arc in edge if arc.dxftype() == "ARC"} == {14.0}


@pytest.mark.parametrize("corner", ["0 mm", "3 mm", "30 mm"])
def test_a_template_is_drawn_even_where_its_corner_cannot_be(corner: str) -> None:
    scene = worked("groove.template", corner=corner, work="outline").pictures[0].draw(Display())
    assert "<svg" in svg(scene, 600, ids="t")
