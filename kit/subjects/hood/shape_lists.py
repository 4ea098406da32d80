"""What a hood brings to the lists: its boards' masses, their blanks, the settings of the saw, the glue."""

from __future__ import annotations

from itertools import groupby
from math import sin

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Piece, Setting, glue
from kit.subjects.bodies import solid_body
from kit.subjects.hood.geometry.cut_order import OVERSIZE, SAME, Step, cutting_order
from kit.subjects.hood.hood_boards import built, form_of

PALE = 0.45
"""How much of a board hides what stands under the hood, where the station is seen."""


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return boards as bodies with their openings cut out, as oversize blanks, and every cut by its setting."""
    made = built(form_of(inputs.base, inputs.stated))
    thickness, density = inputs.base["thickness"], inputs.base["density"]
    bodies = tuple(solid_body(f"{name} board", *mesh, density, opacity=PALE) for name, mesh in made.meshes.items())
    pieces = tuple(
        Piece(f"{board.name} board, blank", 1, (*(size + OVERSIZE for size in board.size), thickness))
        for board in made.boards
    )
    joints = [
        (edge.outside + edge.inside) / 2 * thickness / sin(edge.dihedral / 2)
        for board in made.boards
        for edge in board.edges
        if edge.dihedral is not None
    ]
    steps = [step for step in cutting_order(made.boards, made.openings) if step.what in ("long cut", "end cut")]
    return Lists(bodies, pieces, glue(sum(joints) / 2), tuple(_settings(steps)))


def _settings(steps: list[Step]) -> list[Setting]:
    """Return the steps gathered by their setting."""

    def key(step: Step) -> tuple[bool, float, float]:
        return step.what == "end cut", round(step.tilt / SAME) * SAME, round(step.miter / SAME) * SAME

    found = []
    for (ends, _, _), group in groupby(sorted(steps, key=key), key):
        same = list(group)
        cuts = tuple(f"{step.board}: {step.edge}{', on a carrier' if step.carrier else ''}" for step in same)
        values = [("blade tilt from vertical", same[0].tilt, "deg")]
        if ends:
            values.append(("miter from a square cut", same[0].miter, "deg"))
        found.append(Setting("saw, across the board" if ends else "saw, along the board", tuple(values), cuts))
    return found
