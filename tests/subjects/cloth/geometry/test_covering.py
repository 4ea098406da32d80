"""Skins with ruled and doubly bent panels: outside stays outside, seams meet, strain as on a ball, darts."""

import numpy as np
import pytest
from shapely import Polygon

from kit.core.errors import KitError
from kit.geometry.development.curves import Curve
from kit.geometry.development.primitives import arc, line
from kit.subjects.cloth.geometry.assembly import Making, skin_pattern
from kit.subjects.cloth.geometry.covering import Asked, CoveredPanel, CoverSettings, cover
from kit.subjects.cloth.geometry.pattern import Finish


def hood() -> dict[str, Curve]:
    curves = [
        arc((-260, -60, 0), (0, -110, 0), (260, -60, 0), "sill"),
        arc((-260, 0, 300), (0, -25, 318), (260, 0, 300), "rail"),
        arc((-200, 340, 330), (0, 360, 345), (200, 340, 330), "ridge"),
        arc((-260, 0, 300), (-238, 170, 332), (-200, 340, 330), "left rib"),
        arc((260, 0, 300), (238, 170, 332), (200, 340, 330), "right rib"),
    ]
    return {curve.name: curve for curve in curves}


PANELS = (Asked("front", ("sill", "rail")), Asked("crown", ("rail", "ridge", "left rib", "right rib")))


def covered(names: tuple[Asked, ...] = PANELS, settings: CoverSettings | None = None) -> tuple[CoveredPanel, ...]:
    return cover(hood(), names, settings or CoverSettings())


def ball(radius: float, side: float) -> tuple[CoveredPanel, ...]:
    """A square patch of a ball whose sides are great circles."""
    at = [
        radius * np.array([s * side / radius / 2, t * side / radius / 2, 1.0])
        for s, t in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    ]
    corners = [radius * each / np.linalg.norm(each) for each in at]

    def great(p: np.ndarray, q: np.ndarray, name: str) -> Curve:
        middle = (p + q) / np.linalg.norm(p + q) * radius
        return arc(p, middle, q, name)

    low_left, low_right, high_right, high_left = corners
    curves = {
        "below": great(low_left, low_right, "below"),
        "above": great(high_left, high_right, "above"),
        "left": great(low_left, high_left, "left"),
        "right": great(low_right, high_right, "right"),
        "center": line((0, 0, 0), (0, 0, 1.0), "center"),
    }
    return cover(curves, (Asked("cap", ("below", "above", "left", "right")),), CoverSettings(limit=(0.2, 0.2)))


@pytest.mark.parametrize("names", [PANELS, (PANELS[0], Asked("crown", ("ridge", "rail", "left rib", "right rib")))])
def test_pieces_are_seen_from_outside_however_edges_are_named(names: tuple[Asked, ...]) -> None:
    if names is not PANELS:  # ribs run the other way then
        curves = {name: curve.reversed() if "rib" in name else curve for name, curve in hood().items()}
        front, crown = cover(curves, names, CoverSettings())
    else:
        front, crown = covered(names)
    for panel, outward in ((front, (0, -1, 0)), (crown, (0, 0, 1))):
        p, q, r = (panel.vertices[panel.triangles[:, k]] for k in range(3))
        assert (np.cross(q - p, r - p).sum(axis=0) @ outward) > 0
        for piece in panel.pieces:
            corners = piece.flat[piece.triangles]
            u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
            assert (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]).min() > 0
            assert Polygon(np.vstack([edge.line[:-1] for edge in piece.edges])).exterior.is_ccw


def test_a_ruled_panel_keeps_its_area_and_edges() -> None:
    front, _ = covered()
    p, q, r = (front.vertices[front.triangles[:, k]] for k in range(3))
    area = np.linalg.norm(np.cross(q - p, r - p), axis=1).sum() / 2
    piece = front.pieces[0]
    assert Polygon(np.vstack([edge.line[:-1] for edge in piece.edges])).area == pytest.approx(area, rel=1e-9)
    for edge in piece.edges:
        assert edge.length == pytest.approx(np.linalg.norm(np.diff(front.lines[edge.name], axis=0), axis=1).sum())


def test_the_seam_between_a_ruled_and_a_doubly_bent_panel_meets() -> None:
    made = skin_pattern("skin", covered(), Making({"sill": Finish("hem", 20.0)}))
    (seam,) = made.seams
    assert (seam.name, seam.piece, seam.other) == ("rail", "front", "crown")
    lengths = [piece.edge("rail").length for piece in made.pattern.pieces]
    assert lengths[0] == pytest.approx(lengths[1], rel=5e-3)
    assert [len(piece.marks) for piece in made.pattern.pieces] == [3, 3]


def test_strain_on_a_ball_grows_with_the_square_of_the_side() -> None:
    """Series for small patches of a ball (Gauss): strain goes by (side / radius)², and a cap's edges must give."""
    small, large = (max(ball(1000.0, side)[0].largest) for side in (100.0, 200.0))
    assert large / small == pytest.approx(4.0, rel=0.05)
    # Half of 1 - cos(w / 2R), shared between middle and edge, bounds what the best flattening needs.
    assert 0.2 * (1 - np.cos(0.1)) < large < 1.0 * (1 - np.cos(0.1))


def test_darts_are_put_in_where_threads_cannot_take_it_and_are_sewn_to_themselves() -> None:
    gentle = covered()
    assert max(gentle[1].largest) < 0.006
    _, crown = covered(settings=CoverSettings(limit=(0.0035, 0.0035)))
    assert {cut.kind for cut in crown.cuts} == {"dart"}
    assert max(crown.largest) < 0.0035


def test_a_seam_parts_the_edge_of_the_neighbor_where_it_ends() -> None:
    panels = covered(settings=CoverSettings(limit=(0.003, 0.003), warp_along=False))
    crown = panels[1]
    assert "seam" in {cut.kind for cut in crown.cuts}
    made = skin_pattern("skin", panels, Making({}))
    whole = float(np.linalg.norm(np.diff(panels[0].lines["rail"], axis=0), axis=1).sum())
    parts = [seam for seam in made.seams if seam.name.startswith("rail")]
    assert sum(seam.length for seam in parts) == pytest.approx(whole, abs=0.5)
    front = next(piece for piece in made.pattern.pieces if piece.name == "front")
    assert len([edge for edge in front.edges if edge.name.startswith("rail")]) == len(parts)


def test_the_middle_of_the_cloth_lies_off_the_frame() -> None:
    bare, thick = covered(), covered(settings=CoverSettings(offset=2.0))
    for one, other in zip(bare, thick, strict=True):
        shift = other.vertices[: len(one.vertices)] - one.vertices
        assert np.linalg.norm(shift, axis=1) == pytest.approx(np.full(len(shift), 2.0), rel=0.02)
    outward = thick[1].vertices.mean(axis=0) - bare[1].vertices.mean(axis=0)
    assert outward[2] > 1.5


def test_grain_follows_the_thread_that_runs_along() -> None:
    along, across = covered(), covered(settings=CoverSettings(warp_along=False))
    for one, other in zip(along, across, strict=True):
        assert other.pieces[0].grain - one.pieces[0].grain == pytest.approx(np.pi / 2)


@pytest.mark.parametrize(
    ("panels", "words"),
    [
        ((Asked("front", ("sill", "rial")),), "The panel front has no edge 'rial'; did you mean 'rail'"),
        ((Asked("front", ("sill",)),), "The panel front has 1 edges; a ruled one has two"),
        ((PANELS[0], PANELS[0]), "Two panels are named 'front'"),
        ((), "The skin has no panels"),
    ],
)
def test_what_cannot_be_covered_is_refused(panels: tuple[Asked, ...], words: str) -> None:
    with pytest.raises(KitError, match=words):
        covered(panels)


def test_an_edge_of_three_pieces_is_refused() -> None:
    flap = Asked("flap", ("rail", "ridge"))
    with pytest.raises(KitError, match="The edge rail belongs to front, crown, flap; a seam joins two"):
        skin_pattern("skin", covered((*PANELS, flap)), Making({}))
