"""Seams: the parting with the least cloth against trying all of them, width of the cloth, wear, panels of a skin."""

import itertools

import numpy as np
import pytest

from kit.core.errors import KitError
from kit.geometry.development.develop import Development, develop
from kit.geometry.development.primitives import circle, line, polyline, rectangle, sampled
from kit.geometry.development.unroll import unroll
from kit.subjects.cloth.geometry.consumption import rectangle_round
from kit.subjects.cloth.geometry.seams import part_at, propose_seams
from kit.subjects.cloth.geometry.skin_panels import shared_edges, skin


@pytest.fixture(scope="module")
def chute() -> Development:
    """Rectangle to circle with offset, coarse enough to try every ruling."""
    return develop(rectangle(300, 220, name="frame"), circle(60, (30, 10, 260), name="hose"), chord=6.0)


def cost(d: Development, seams: tuple[int, ...], margin: float) -> float:
    """Cloth of a closed strip parted at some rulings, written apart from the code under test."""
    total = 0.0
    for k, first in enumerate(seams):
        last = seams[(k + 1) % len(seams)]
        box = rectangle_round(unroll(d.strip.part(first, last)).outline, np.inf, margin)
        assert box is not None
        total += box.area
    return total


@pytest.mark.parametrize("panels", [1, 2, 3])
def test_the_proposed_seams_take_the_least_cloth_of_all(chute: Development, panels: int) -> None:
    last = len(chute.strip.a) - 1
    assert last < 36, "every ruling is a candidate"
    found = propose_seams(chute.strip, panels=panels, margin=10.0)
    best = min(cost(chute, seams, 10.0) for seams in itertools.combinations(range(last), panels))
    assert cost(chute, found.seams, 10.0) == pytest.approx(best)
    assert len(found.panels) == panels


def test_panels_have_the_area_and_the_edges_of_the_whole(chute: Development) -> None:
    found = part_at(chute.strip, [2, 9, 15])
    assert sum(flat.area for flat in found.flats) == pytest.approx(chute.flat.area)
    for panel, after in zip(found.panels, [*found.panels[1:], found.panels[0]], strict=True):
        assert panel.a[-1] == pytest.approx(after.a[0])
        assert panel.b[-1] == pytest.approx(after.b[0])


def test_seams_keep_off_the_rulings_that_wear(chute: Development) -> None:
    free = propose_seams(chute.strip, panels=2)
    avoid = np.zeros(len(chute.strip.a))
    avoid[list(free.seams)] = 1e9
    shy = propose_seams(chute.strip, panels=2, avoid=avoid)
    assert not set(shy.seams) & set(free.seams)
    assert shy.cloth >= free.cloth


def test_a_narrow_cloth_gets_more_panels_or_a_refusal(chute: Development) -> None:
    whole = propose_seams(chute.strip)
    narrow = propose_seams(chute.strip, width=280.0)
    assert len(narrow.panels) > len(whole.panels)
    for flat in narrow.flats:
        box = rectangle_round(flat.outline, 280.0)
        assert box is not None
        assert box.across <= 280.0
    with pytest.raises(KitError, match="fits a cloth 40 mm wide; allow more panels, or take wider cloth"):
        propose_seams(chute.strip, panels=1, width=40.0)


def test_an_open_strip_is_parted_between_its_ends() -> None:
    d = develop(line((0, 0, 0), (1000, 0, 0)), polyline([(0, 0, 200), (500, 80, 200), (1000, 0, 200)]))
    found = propose_seams(d.strip, panels=2, width=600.0)
    assert len(found.flats) == 2
    assert sum(flat.area for flat in found.flats) == pytest.approx(d.flat.area)


def test_a_skin_over_a_frame_has_one_panel_between_neighboring_edges() -> None:
    x = np.linspace(0, 400, 9)
    sill = line((0, 0, 0), (400, 0, 0), "sill")
    rail = sampled(np.column_stack([x, 60 + 0 * x, 150 + 20 * np.sin(x / 130)]), name="rail")
    ridge = sampled(np.column_stack([x, 200 + 0 * x, 220 + 30 * np.sin(x / 130)]), name="ridge")
    panels = skin([sill, rail, ridge])
    assert [panel.edges for panel in panels] == [("sill", "rail"), ("rail", "ridge")]
    assert shared_edges(panels) == {"rail": ("panel 1", "panel 2")}
    # The shared edge is as long on both panels as the curve itself.
    above = np.linalg.norm(np.diff(panels[0].development.flat.b, axis=0), axis=1).sum()
    below = np.linalg.norm(np.diff(panels[1].development.flat.a, axis=0), axis=1).sum()
    assert above == pytest.approx(rail.lengths.sum(), abs=0.3)
    assert below == pytest.approx(above, abs=0.3)


REFUSED = {
    "no seam": (lambda d: part_at(d.strip, []), "needs a seam"),
    "a seam twice": (lambda d: part_at(d.strip, [3, 3]), "at most once"),
    "a seam that is not there": (lambda d: part_at(d.strip, [999]), "name each of the rulings 0 to"),
    "a wrong avoid": (lambda d: propose_seams(d.strip, avoid=np.zeros(2)), "given for 2 rulings"),
    "two edges of one name": (
        lambda d: skin([line((0, 0, 0), (9, 0, 0), "rail"), line((0, 5, 0), (9, 5, 0), "rail")]),
        "two edges named 'rail'",
    ),
    "an unknown edge": (
        lambda d: skin([line((0, 0, 0), (9, 0, 0), "rail")], [("roof", "rail", "raill")]),
        "has no edge 'raill' in the frame; did you mean 'rail'",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_is_refused_with_a_sentence(case: str, chute: Development) -> None:
    ask, words = REFUSED[case]
    with pytest.raises(KitError, match=words):
        ask(chute)
