"""A hood that answers while a control moves: boards, gaps at about 150 positions, bevels, tables, the still picture."""

from dataclasses import replace
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

import pytest

from kit.drawing.space import view_svg
from kit.geometry.clearance import Obstacle, sampled
from kit.job import Job
from kit.job.build import build_input
from kit.subjects.hood.geometry.gaps import gaps
from kit.subjects.hood.geometry.openings import pierced
from kit.subjects.hood.hood_boards import built, form_of
from kit.subjects.hood.machine import machine
from kit.subjects.hood.shape_build import build as build_shape
from tests import DATA

pytestmark = pytest.mark.bench

MOVES = 15
TARGET = 0.100  # s, median of a change at the demo's size, of this process alone: the machine is shared


@pytest.fixture(scope="module")
def demo() -> Job:
    return Job.open(Path(DATA) / "boatshed.toml")


def test_how_soon_a_change_is_answered(demo: Job) -> None:
    asked = build_input(demo, "hood")
    build_shape(asked)
    made_in, shown_in = [], []
    for number in range(MOVES):
        moved = asked.case.with_(back=f"{345 + number} mm", slope_left=f"{82 + 0.1 * number} deg")
        begin = process_time()
        made = build_shape(replace(asked, case=moved))
        middle = process_time()
        view_svg(made.pictures[0].draw(asked.display), "corner", 600, ids="hood")  # type: ignore[arg-type]
        made_in.append(middle - begin)
        shown_in.append(process_time() - middle)
    total = median(a + b for a, b in zip(made_in, shown_in, strict=True))
    print(
        f"\na change of the hood: {1e3 * median(made_in):.0f} ms made, {1e3 * median(shown_in):.0f} ms drawn, "
        f"{1e3 * total:.0f} ms in all (median of {MOVES}), {total / TARGET:.2f} of the target"
    )


def test_the_live_gaps_against_the_plain_search(demo: Job) -> None:
    """The same answers, and how many times faster than the search over the triangles of all boards."""
    asked = build_input(demo, "hood")
    under, hood = machine(asked), built(form_of(asked.base))
    assert under is not None
    live, plain = [], []
    for _ in range(5):
        begin = perf_counter()
        found = gaps(under.moving[:1], hood.boards, hood.openings)
        live.append(perf_counter() - begin)
    parts = [(board.name, *pierced(board, hood.openings.get(board.name, {}))) for board in hood.boards]
    for _ in range(3):
        begin = perf_counter()
        answers = sampled(under.moving[0].body, Obstacle.of(parts), under.moving[0].poses, by_board=True)
        plain.append(perf_counter() - begin)
    for gap, answer in zip(found, answers, strict=True):
        assert gap.gap == pytest.approx(answer.found, abs=1e-5)
    print(
        f"\ngaps of {len(parts)} boards: {1e3 * min(live):.0f} ms, {min(plain) / min(live):.1f} times faster than plain"
    )
