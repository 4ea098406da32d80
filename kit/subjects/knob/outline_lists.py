"""What a knob's outline brings to the lists: blanks of the plies that it is laid on, and the area that is glued."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need, Piece


def lists(inputs: BuildInput, built: Built) -> Lists:
    """Return squares round the outline as blanks, and as glue the faces between them, holes not taken off.

    Raises:
        KitError: no outline closes with these sizes, or the plies are taken from another model.
    """
    built()
    if "plies" not in inputs.takes:
        return Lists()
    plies, side = inputs.takes["plies"].data, 2 * inputs.base["outer_radius"]
    thick = plies[0].top - plies[0].bottom
    glued = (len(plies) - 1) * inputs.base["area"]
    return Lists(
        pieces=(Piece("ply of the knob, blank", len(plies), (side, side, thick)),),
        needs=(Need("wood glue, for faces of", glued, "m²"),),
    )
