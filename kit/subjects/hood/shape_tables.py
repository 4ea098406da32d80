"""The hood's tables: clearances, boards, bevels, cutting order, rails."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from kit.core.build import LateTable, Table
from kit.core.quantity import Display, show
from kit.geometry.ties import rough
from kit.subjects.hood.geometry.boards import Board, Edge
from kit.subjects.hood.geometry.cut_order import OVERSIZE, Step, cutting_order
from kit.subjects.hood.geometry.gaps import Gap
from kit.subjects.hood.geometry.rails import Rail
from kit.subjects.hood.hood_boards import HoodBoards
from kit.subjects.hood.machine import Machine

CLEARANCES, BOARDS, BEVELS, ORDER, RAILS = (
    "Clearance of each board",
    "Boards",
    "Bevels",
    "Cutting order",
    "Rails and posts",
)
HELD = "on a carrier, clamped; hands never nearer than the carrier's rim"


def mm(value: float, display: Display, resolution: float = 0.1) -> str:
    """Return a length as printed."""
    return show(value, "mm", display, resolution=resolution)


def degrees(value: float, display: Display) -> str:
    """Return an angle as printed."""
    return show(value, "deg", display)


def lengths(edge: Edge, display: Display) -> str:
    """Return the length of a cut outside and inside."""
    return f"{mm(edge.outside, display)} / {mm(edge.inside, display)}"


def clearances(found: Sequence[Gap], machine: Machine, display: Display) -> Table:
    """Return how near each board is, tightest first, with the machine's position and its nearest point."""

    def rows() -> Iterator[tuple[str, ...]]:
        for gap in sorted(found, key=lambda gap: rough(gap.gap)):
            point = ", ".join(mm(float(part), display, 1.0) for part in gap.here)
            yield gap.board, mm(gap.gap, display), machine.words(gap.part, gap.pose), point

    heads = ("Board", "Clearance, sampled", "Position of the machine", "Its nearest point: x, y, z")
    return LateTable(CLEARANCES, heads, rows)


def board_rows(made: HoodBoards, display: Display) -> Table:
    """Return the boards' sizes: blank, lower and upper edge, slope, openings."""
    heads = (
        "Board",
        "Blank, along × across the grain",
        "Lower edge, outside / inside",
        "Upper edge, outside / inside",
        "Slope",
        "Openings",
    )

    def rows() -> Iterator[tuple[str, ...]]:
        for board in made.boards:
            along, across = (mm(size + OVERSIZE, display, 1.0) for size in board.size)
            level = sorted((edge for edge in board.edges if edge.along), key=lambda edge: _height(board, edge))
            ends = [lengths(level[0], display), lengths(level[-1], display)] if level else ["", ""]
            cut = ", ".join(made.openings.get(board.name, {})) or "none"
            yield board.name, f"{along} × {across}", *ends, degrees(board.face.slope, display), cut

    return LateTable(BOARDS, heads, rows)


def _height(board: Board, edge: Edge) -> float:
    return float(board.face.flat(edge.line)[:, 1].mean())


def bevel_rows(made: HoodBoards, display: Display) -> Table:
    """Return every cut of every board: lengths, miter, blade tilt, inside angle."""
    heads = (
        "Board",
        "Where it meets",
        "Length outside / inside",
        "Miter from a square cut",
        "Blade tilt from vertical",
        "Inside angle",
    )

    def rows() -> Iterator[tuple[str, ...]]:
        for board in made.boards:
            for edge in board.edges:
                yield (
                    board.name,
                    edge.meets,
                    lengths(edge, display),
                    miter_words(edge.along, edge.miter, display),
                    degrees(edge.tilt, display),
                    "" if edge.dihedral is None else degrees(edge.dihedral, display),
                )

    return LateTable(BEVELS, heads, rows)


def miter_words(along: bool, miter: float, display: Display) -> str:
    """Return a cut's miter, or that it runs along the board."""
    return "along the board" if along else degrees(miter, display)


def order_rows(made: HoodBoards, display: Display) -> Table:
    """Return the cutting order, one row for each step."""
    heads = ("No.", "Board", "Cut", "Miter from a square cut", "Blade tilt from vertical", "How it is held")

    def rows() -> Iterator[tuple[str, ...]]:
        for number, step in enumerate(cutting_order(made.boards, made.openings), 1):
            yield str(number), step.board, _what(step), *_settings(step, display), _held(step)

    return LateTable(ORDER, heads, rows)


def _what(step: Step) -> str:
    match step.what:
        case "blank":
            return "saw oversize from the sheet"
        case "opening":
            return f"saw the {step.edge}, square to the board"
        case _:
            return f"{step.what} at the {step.edge}"


def _settings(step: Step, display: Display) -> tuple[str, str]:
    if step.what in ("blank", "opening"):
        return "", ""
    return miter_words(step.what == "long cut", step.miter, display), degrees(step.tilt, display)


def _held(step: Step) -> str:
    match step.what:
        case "blank":
            return "as a whole sheet on trestles"
        case "opening":
            return "clamped to the bench while the blank is still large"
        case _:
            return HELD if step.carrier else "against the fence, outside on the table"


def rail_rows(found: Sequence[Rail], display: Display) -> Table:
    """Return rails and posts: where, length, section, end miters on the face, bevel of the long outer edge."""
    heads = ("Face", "Along", "Length", "Section", "Miters of its ends, on the face")

    def rows() -> Iterator[tuple[str, ...]]:
        for rail in found:
            section = f"{mm(rail.width, display)} × {mm(rail.part.face.thickness, display)}"
            miters = " and ".join(degrees(float(angle), display) for angle in np.asarray(rail.miters))
            yield rail.face, rail.along, mm(rail.length, display), section, miters

    return LateTable(RAILS, heads, rows)
