"""Pictures of the hood: in space, whole and taken apart, and each board on its face with its cuts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from string import ascii_uppercase

import numpy as np
import shapely

from kit.core.quantity import Display
from kit.drawing.arc_outlines import draw_points
from kit.drawing.primitives import Place
from kit.drawing.scene import Layer, Scene
from kit.drawing.space import Line, Mark, Solid, View
from kit.geometry.solids.convex import Array
from kit.subjects.hood.geometry.boards import INSIDE, OUTSIDE, Board, Edge
from kit.subjects.hood.geometry.gaps import Gap
from kit.subjects.hood.geometry.openings import region
from kit.subjects.hood.geometry.rails import Rail
from kit.subjects.hood.hood_boards import HoodBoards
from kit.subjects.hood.machine import Machine
from kit.subjects.hood.shape_tables import degrees, lengths, miter_words, mm

APART = 0.28  # of the hood's height, by which boards are moved out when it is taken apart


def in_space(made: HoodBoards, machine: Machine | None, gap: Gap | None, display: Display) -> View:
    """Return the hood, pale, over the swept envelope of the machine, with the tightest place marked."""
    solids = [Solid(board.name, *made.meshes[board.name], "wood", opacity=0.45) for board in made.boards]
    lines, marks = [], []
    if machine is not None:
        solids.append(Solid("swept envelope", *machine.ghost, "ghost", opacity=0.5, crease=180.0))
    if gap is not None and gap.gap > 0.0:
        lines.append(Line("tightest place", np.array([gap.here, gap.there]), "red", 0.7))
        marks.append(Mark(f"{mm(gap.gap, display)}, {gap.board}", gap.there))
    elif gap is not None:
        marks.append(Mark(f"hit: {gap.board}", gap.here))
    return View(solids, lines, marks, "Hood over the swept envelope")


def apart(made: HoodBoards) -> View:
    """Return the boards, each moved out along its face's normal, with their names."""
    far = APART * made.form.height
    solids, marks = [], []
    for board in made.boards:
        points, faces = made.meshes[board.name]
        moved = points + far * board.face.plane.normal
        solids.append(Solid(board.name, moved, faces, "wood"))
        marks.append(Mark(board.name, moved.mean(axis=0)))
    return View(solids, (), marks, "Boards taken apart")


def frame(found: Sequence[Rail], made: HoodBoards) -> View:
    """Return rails and posts as they stand."""
    solids = [Solid(f"{rail.face} at {rail.along}", *rail.mesh, "wood") for rail in found]
    return View(solids, (), (), f"Frame of {len(found)} rails and posts, {made.form.height:.0f} mm high")


def board_scene(board: Board, openings: Mapping[str, Array], display: Display) -> Scene:
    """Return a board seen on its outside: outline, inside hidden, openings, a letter at each cut, and what it needs."""
    letters = dict(zip((edge.meets for edge in board.edges), ascii_uppercase, strict=False))
    label = "; ".join(f"{letters[edge.meets]} {_cut(edge, display)}" for edge in board.edges)
    scene = Scene(
        f"{board.name.capitalize()} board, outside up",
        f"The {board.name} board seen on its outside, {len(openings)} openings, cuts by letter: {label}.",
    )
    for ring in _rings(region(board, openings, OUTSIDE)):
        draw_points(scene, ring, closed=True)
    for ring in _rings(region(board, openings, INSIDE)):
        draw_points(scene, ring, Layer.HIDDEN, closed=True)
    scene.explain(Layer.HIDDEN, "inside of the board")
    scene.explain(Layer.FORCE, "grain")
    outline = board.outline(OUTSIDE)
    low, high = outline.min(axis=0), outline.max(axis=0)
    for edge in board.edges:
        _letter(scene, board, edge, letters[edge.meets])
    _sizes(scene, outline, display)
    middle = float(outline[:, 0].mean())
    scene.arrow((middle, float(low[1] + 0.9 * (high[1] - low[1]))), 0.0, "", length=14.0, grip="middle", both=True)
    words = [f"{letters[edge.meets]}  {_cut(edge, display)}" for edge in board.edges]
    words += [_hole(name, opening, outline, display) for name, opening in openings.items()]
    for number, text in enumerate(words):
        scene.text(((float(low[0]) + float(high[0])) / 2, float(low[1])), text, "below", gap=16.0 + 4.5 * number)
    return scene


def _letter(scene: Scene, board: Board, edge: Edge, letter: str) -> None:
    """Write an edge's letter outside of the outline, along the foot near its end, free of the openings."""
    left, right = sorted(board.face.flat(edge.line)[:, :2].tolist())
    share = 0.06 if edge.along else 0.5
    at = (left[0] + share * (right[0] - left[0]), left[1] + share * (right[1] - left[1]))
    cut = board.solid.side(edge.meets)
    out = np.zeros(3) if cut is None else board.face.axes @ cut.plane.normal
    place: Place = ("above" if out[1] > 0.0 else "below") if edge.along else ("right" if out[0] > 0.0 else "left")
    scene.text(at, letter, place, gap=1.5)


def _cut(edge: Edge, display: Display) -> str:
    where = "on the bench" if edge.meets == "bench" else f"at the {edge.meets}"
    miter = miter_words(edge.along, edge.miter, display)
    kind = miter if edge.along else f"miter {miter}"
    return f"{where}: {lengths(edge, display)}, {kind}, tilt {degrees(edge.tilt, display)}"


def _sizes(scene: Scene, outline: Array, display: Display) -> None:
    """Dimension the board's length along its lowest line and its width."""
    low, high = outline.min(axis=0), outline.max(axis=0)
    on_foot = outline[np.abs(outline[:, 1] - low[1]) < 1e-3]
    left, right = float(on_foot[:, 0].min()), float(on_foot[:, 0].max())
    if right > left:
        scene.dim((left, float(low[1])), (right, float(low[1])), -9, mm(right - left, display), along="horizontal")
    edge = float(high[0])
    scene.dim(
        (edge, float(low[1])),
        (edge, float(high[1])),
        9,
        mm(float(high[1] - low[1]), display),
        along="vertical",
    )


def _hole(name: str, opening: Array, outline: Array, display: Display) -> str:
    """Say where an opening is, from the left end of the board's foot."""
    foot = outline[np.abs(outline[:, 1] - outline[:, 1].min()) < 1e-3]
    (left, low), (right, high) = (
        opening.min(axis=0) - [foot[:, 0].min(), 0.0],
        opening.max(axis=0) - [foot[:, 0].min(), 0.0],
    )
    along = f"from {mm(left, display)} to {mm(right, display)} along the foot"
    up = f"{mm(low, display)} to {mm(high, display)}" if low > 0.0 else f"up to {mm(high, display)}"
    return f"{name}: {along}, {up} up the board"


def _rings(shape: shapely.Geometry) -> list[Array]:
    return [
        shapely.get_coordinates(ring)[:-1]
        for part in shapely.get_parts(shape)
        if part.area > 0.0
        for ring in (part.exterior, *part.interiors)
    ]
