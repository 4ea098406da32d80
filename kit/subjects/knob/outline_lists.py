"""What a knob's outline brings to the lists: the knob's mass, blanks of the plies that it is laid on, their glue."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Piece, glue
from kit.geometry.mesh import prism
from kit.subjects.bodies import solid_body

ROUGH = 0.5  # mm, by which the outline is seen off its arcs


def lists(inputs: BuildInput, built: Built) -> Lists:
    """Return the knob as a body, its holes taken off, squares round the outline as blanks, and the glue between them.

    The axes begin at the middle of the face that presses, z into the knob.

    Raises:
        KitError: no outline closes with these sizes, or the plies are taken from another model.
    """
    made = built()
    if "plies" not in inputs.takes:
        return Lists()
    v, plies = inputs.base, inputs.takes["plies"].data
    side, thick = 2 * v["outer_radius"], plies[0].top - plies[0].bottom
    masses = [v["height_mass"] * thick * (1 - pi / 4 * ply.hole**2 / v["area"]) for ply in plies]
    middle = sum(mass * (ply.bottom + thick / 2) for mass, ply in zip(masses, plies, strict=True)) / sum(masses)
    ring = np.asarray(made.data.points(ROUGH))
    low, high = (np.column_stack([ring, np.full(len(ring), z)]) for z in (0.0, len(plies) * thick))
    solid = prism(low, high)
    star = solid_body("knob", solid.vertices, solid.faces, None, "dark wood")
    return Lists(
        (replace(star, mass=sum(masses), center=(0.0, 0.0, middle)),),
        (Piece("ply of the knob, blank", len(plies), (side, side, thick)),),
        glue((len(plies) - 1) * v["area"]),
    )
