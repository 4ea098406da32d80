"""What a knob's outline brings to the lists: blanks of the plies that it is laid on, and the area that is glued."""

from __future__ import annotations

import numpy as np

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need, Piece
from kit.subjects.bodies import solid_body, upright

ROUGH = 0.5  # mm, by which the outline is seen off its arcs


def lists(inputs: BuildInput, built: Built) -> Lists:
    """Return squares round the outline as blanks, and as glue the faces between them, holes not taken off.

    Raises:
        KitError: no outline closes with these sizes, or the plies are taken from another model.
    """
    made = built()
    if "plies" not in inputs.takes:
        return Lists()
    plies, side = inputs.takes["plies"].data, 2 * inputs.base["outer_radius"]
    thick = plies[0].top - plies[0].bottom
    glued = (len(plies) - 1) * inputs.base["area"]
    tall = len(plies) * thick
    ring = np.asarray(made.data.points(ROUGH))
    star = solid_body("knob", *upright(ring, tall), None, "dark wood")
    return Lists(
        (star,),
        pieces=(Piece("ply of the knob, blank", len(plies), (side, side, thick)),),
        needs=(Need("wood glue, for faces of", glued, "m²"),),
    )
