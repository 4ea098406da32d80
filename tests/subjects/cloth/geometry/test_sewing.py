"""Thread, staples, order of seams, and as-built fits, against printed values and against measures made by hand."""

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.subjects.cloth.geometry.as_built import as_built
from kit.subjects.cloth.geometry.sewing import (
    RUNS,
    Seam,
    lockstitch_thread,
    sewing_order,
    staple_count,
    stitched_thread,
    thread_to_buy,
)

INCH = 25.4


def test_lockstitch_thread_by_geometry() -> None:
    """C = 2 + 2 T S for each inch: T 0.01 in, S 10 stitches per inch give 2.2 in (textilecalculations.com)."""
    assert lockstitch_thread(INCH, 0.01 * INCH, INCH / 10) / INCH == pytest.approx(2.2)


def test_chainstitch_thread_by_the_trade_formula() -> None:
    # textilecalculations.com, amount of sewing thread, read: type 401 takes C = 4 + 2 T S; seam 0.01 in, 10 per inch
    assert stitched_thread(INCH, 0.01 * INCH, INCH / 10, RUNS["401"]) / INCH == pytest.approx(4.2)


def test_lockstitch_thread_at_the_trade_ratio() -> None:
    """A ratio of 2.5 takes 550 cm for 220 cm of seam (melgeecrafts.com): layers a quarter stitch thick in all."""
    assert lockstitch_thread(2200, 0.25 * 3, 3) == pytest.approx(5500)


def test_waste_allowance() -> None:
    """540 cm and 15 % waste make 621 cm (apparelscience.com)."""
    assert thread_to_buy(5400) == pytest.approx(6210)


def test_thread_is_as_long_as_its_path() -> None:
    """A rectangular stitch path drawn point by point: along the top, down to the lock, up; the bobbin likewise."""
    stitch, thickness, count = 3.0, 1.2, 50
    path = [(0.0, thickness / 2)]
    for k in range(count):
        path += [(k * stitch, thickness), ((k + 1) * stitch, thickness), ((k + 1) * stitch, thickness / 2)]
    needle = float(np.hypot(*np.diff(np.array(path), axis=0).T).sum())
    assert 2 * needle == pytest.approx(lockstitch_thread(count * stitch, thickness, stitch))


@pytest.mark.parametrize(
    ("length", "spacing", "ends", "count"),
    [(300, 50, True, 7), (301, 50, True, 8), (20, 50, True, 2), (300, 50, False, 6)],
)
def test_staples_stand_no_farther_apart_than_asked(length: float, spacing: float, ends: bool, count: int) -> None:
    assert staple_count(length, spacing, ends) == count


def test_a_tube_of_four_panels_is_sewn_flat_closed_and_then_hemmed() -> None:
    names = ["north", "east", "south", "west"]
    ring = [Seam(f"{p}-{q}", p, q, 300.0) for p, q in zip(names, [*names[1:], names[0]], strict=True)]
    hems = [Seam("rim", "north", None, 1600.0), Seam("collar", "north", None, 500.0)]
    steps = sewing_order([*hems, *ring[::-1]])
    assert [step.kind for step in steps] == ["join", "join", "join", "close", "hem", "hem"]
    # Each join brings in exactly one new piece, and the allowance is laid toward it.
    sewn = {steps[0].seam.piece, steps[0].seam.other} - {steps[0].lay}
    for step in steps[:3]:
        assert step.lay not in sewn
        assert {step.seam.piece, step.seam.other} - {step.lay} <= sewn
        sewn.add(step.lay)
    assert sewn == set(names)
    # Sewing on round the ring, the closing seam is crossed from the last piece to the first.
    first = next(iter({steps[0].seam.piece, steps[0].seam.other} - {steps[0].lay}))
    assert steps[3].lay == first


def test_a_row_is_sewn_from_its_free_end_whatever_the_order_of_its_seams() -> None:
    row = [Seam("b-c", "b", "c", 9.0), Seam("c-d", "c", "d", 9.0), Seam("a-b", "a", "b", 9.0)]
    steps = sewing_order(row)
    assert [step.seam.name for step in steps] in (["a-b", "b-c", "c-d"], ["c-d", "b-c", "a-b"])
    # Along the row every allowance is laid the same way.
    assert [step.lay for step in steps] in (["b", "c", "d"], ["c", "b", "a"])


def test_a_tube_of_one_piece_is_only_closed() -> None:
    (step,) = sewing_order([Seam("back", "cone", "cone", 200.0)])
    assert step.kind == "close"
    assert step.lay == "cone"


RECTANGLE = np.array([[0.0, 0], [600, 0], [600, 400], [0, 400]])
CORNERS = ("A", "B", "C", "D")


def distances(points: np.ndarray) -> dict[tuple[str, str], float]:
    return {(CORNERS[i], CORNERS[j]): float(np.linalg.norm(points[i] - points[j])) for i in range(4) for j in range(i)}


def test_all_six_measures_give_the_shape_back() -> None:
    moved = RECTANGLE + np.array([[0, 0], [4, -1], [0, 0], [-2, 3]])
    found = as_built(RECTANGLE, CORNERS, distances(moved))
    fit = np.linalg.norm(found.corners[:, None] - found.corners[None], axis=2)
    assert fit == pytest.approx(np.linalg.norm(moved[:, None] - moved[None], axis=2), abs=1e-3)
    assert max(map(abs, found.misfit.values())) < 1e-3


def test_two_diagonals_show_the_skew_of_a_rectangle() -> None:
    """Edges kept, skewed by a small angle: diagonals change by ± 2 · (600 · 400 sin angle) / (2 · diagonal)."""
    angle = np.radians(0.5)
    skewed = RECTANGLE + np.outer([0, 0, 1, 1], [400 * np.sin(angle), 400 * (np.cos(angle) - 1)])
    measured = {("A", "C"): np.linalg.norm(skewed[2]), ("B", "D"): np.linalg.norm(skewed[1] - skewed[3])}
    found = as_built(RECTANGLE, CORNERS, {k: float(v) for k, v in measured.items()})
    assert max(map(abs, found.misfit.values())) < 0.01
    side = found.corners[3] - found.corners[0]
    base = found.corners[1] - found.corners[0]
    lean = np.pi / 2 - np.arccos(side @ base / np.hypot(*side) / np.hypot(*base))
    assert lean == pytest.approx(angle, rel=0.01)


def test_one_corner_off_is_found_and_said() -> None:
    moved = RECTANGLE + np.array([[0, 0], [0, 0], [6.0, 0], [0, 0]])
    found = as_built(RECTANGLE, CORNERS, distances(moved))
    assert found.worst == "C"
    assert "Corner C is" in found.words()
    assert "Nothing is off" in as_built(RECTANGLE, CORNERS, distances(RECTANGLE)).words()


def test_measures_that_contradict_each_other_leave_a_misfit() -> None:
    measured = {**distances(RECTANGLE), ("C", "A"): 700.0}
    found = as_built(RECTANGLE, CORNERS, measured)
    assert max(map(abs, found.misfit.values())) > 5


REFUSED = {
    "no stitch": (lambda: lockstitch_thread(100, 1, 0), "The stitch is 0 mm long"),
    "no spacing": (lambda: staple_count(100, 0), "The staples are 0 mm apart"),
    "a seam twice": (
        lambda: sewing_order([Seam("s", "a", "b", 1), Seam("s", "b", "c", 1)]),
        "Two seams are named 's'",
    ),
    "an unknown corner": (lambda: as_built(RECTANGLE, CORNERS, {("A", "E"): 5}), "no corner 'E'"),
    "no measure": (lambda: as_built(RECTANGLE, CORNERS, {}), "Nothing was measured"),
    "the wrong corners": (
        lambda: as_built(RECTANGLE, CORNERS, {("A", "C"): 300}),
        "The distance A-C is given as 300 mm but meant to be 721.1 mm",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_with_a_sentence(case: str) -> None:
    ask, words = REFUSED[case]
    with pytest.raises(KitError, match=words):
        ask()
