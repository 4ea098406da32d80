"""Whole patterns: the marks of all seams meet in space, seams go into the sewing order, twist strain on a helicoid."""

import numpy as np
import pytest
from shapely import Polygon

from kit.core.errors import KitError
from kit.geometry.development.develop import develop
from kit.geometry.development.primitives import circle, line, rectangle, sampled
from kit.subjects.cloth.geometry.assembly import Assembly, Making, pattern_of_parts, pattern_of_skin
from kit.subjects.cloth.geometry.pattern import Finish
from kit.subjects.cloth.geometry.seams import part_at
from kit.subjects.cloth.geometry.sewing import sewing_order
from kit.subjects.cloth.geometry.skin_panels import SkinPanel, skin


@pytest.fixture(scope="module")
def panels() -> tuple[SkinPanel, ...]:
    x = np.linspace(0, 400, 9)
    sill = line((0, 0, 0), (400, 0, 0), "sill")
    rail = sampled(np.column_stack([x, 60 + 0 * x, 150 + 20 * np.sin(x / 130)]), name="rail")
    ridge = sampled(np.column_stack([x, 200 + 0 * x, 220 + 30 * np.sin(x / 130)]), name="ridge")
    return skin([sill, rail, ridge])


@pytest.mark.parametrize("count", [1, 2, 3])
def test_the_marks_of_a_drop_chute_meet_on_the_rulings_of_its_seams(count: int) -> None:
    d = develop(rectangle(300, 220, name="frame"), circle(60, (30, 10, 260), name="hose"))
    parted = part_at(d.strip, [5, 25, 50][:count])
    made = pattern_of_parts(
        "chute", parted, Making({"frame": Finish("staple", 25.0, line=12.0), "hose": Finish("hem", 8.0)})
    )
    assert [piece.name for piece in made.pattern.pieces] == [f"chute {k + 1}" for k in range(count)]
    marks = [mark for piece in made.pattern.pieces for mark in piece.marks]
    assert len(marks) == count * 3 * 2
    for seam in made.seams:
        number = int(seam.name.split()[1]) - 1
        length = float(np.linalg.norm(d.strip.b[parted.seams[number]] - d.strip.a[parted.seams[number]]))
        assert seam.length == pytest.approx(length, abs=1e-9)
        labels = sorted(mark.label for mark in marks if mark.edge.rstrip("'") == seam.name)
        assert labels[::2] == labels[1::2]
        for one in marks:
            for other in marks:
                if one is not other and one.label == other.label:
                    # The edges run against each other: the places add up to the seam's length.
                    both = made.seams[int(one.label.split(".")[0]) - 1].length
                    assert one.along + other.along == pytest.approx(both)
    whole = sum(Polygon(piece.outline).area for piece in made.pattern.pieces)
    assert whole == pytest.approx(d.flat.area, rel=1e-9)
    kinds = [step.kind for step in sewing_order(made.seams)]
    assert kinds == ["join"] * (count - 1) + ["close"]


def test_a_skin_is_marked_on_its_rail(panels: tuple[SkinPanel, ...]) -> None:
    made = pattern_of_skin("hood", panels, Making({"sill": Finish("hem", 15.0), "ridge": Finish("staple", 20.0)}))
    (seam,) = made.seams
    assert (seam.name, seam.piece, seam.other) == ("rail", "panel 1", "panel 2")
    below, above = made.pattern.pieces
    assert len(below.marks) == len(above.marks) == 3
    for one, other in zip(below.marks, above.marks, strict=True):
        assert one.along + other.along == pytest.approx(below.edge("rail").length, abs=0.3)
        # 10 mm of allowance beside each mark, square to the sew line.
        assert np.linalg.norm(one.cut - one.sew) == pytest.approx(10.0, abs=0.01)


def assembled(made: Assembly) -> int:
    return len(made.pattern.pieces)


def test_wrong_names_are_refused(panels: tuple[SkinPanel, ...]) -> None:
    with pytest.raises(KitError, match="The hood has no edge 'sil'; did you mean 'sill'"):
        assembled(pattern_of_skin("hood", panels, Making({"sil": Finish()})))
    third = SkinPanel("flap", ("rail", "flap edge"), panels[1].development)
    with pytest.raises(KitError, match="The edge rail belongs to more than two panels"):
        assembled(pattern_of_skin("hood", [*panels, third], Making({})))


def test_twist_is_the_strain_of_a_helicoid() -> None:
    """Edges at ± w/2 of a helicoid that turns τ for each mm: its axis is 1/sqrt(1 + τ² w²/4) as long as its edges."""
    width, turn = 100.0, 0.01
    z = np.linspace(0, 200, 81)
    spin = np.column_stack([np.cos(turn * z), np.sin(turn * z), 0 * z])
    axis = np.column_stack([0 * z, 0 * z, z])
    edges = [sampled(axis + side * width / 2 * spin) for side in (-1, 1)]
    d = develop(edges[0], edges[1], method="equal", chord=1.0)
    strain = 1 - 1 / np.sqrt(1 + (turn * width / 2) ** 2)
    inner = d.strip.strain[3:-3]
    assert inner == pytest.approx(np.full(len(inner), strain), rel=1e-3)
