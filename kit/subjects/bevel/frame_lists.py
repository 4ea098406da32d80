"""What a splayed frame brings to the lists: its boards, the two settings of the saw, the glue of its corners."""

from __future__ import annotations

from math import cos, pi, sin, tan

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Piece, Setting, glue
from kit.geometry.mesh import prism
from kit.subjects.bodies import solid_body


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return the boards by their longest edge, and how the saw is set for their ends and their long edges.

    Their axes begin in the middle of the frame at its bottom, a board in front.
    """
    v = inputs.base
    count, long = round(v["sides"]), max(v["long_edge"], v["short_edge"])
    ends = (("blade tilt from vertical", v["tilt"], "deg"), ("miter from a square cut", v["miter"], "deg"))
    across = v["thickness"] / sin(v["dihedral"] if v["joint"] else v["dihedral"] / 2)
    edges = (("blade tilt from vertical", v["edge_bevel"], "deg"),)
    return Lists(
        tuple(_board(v["side"], v["slope"], v["width"], v["thickness"], count, k) for k in range(count)),
        pieces=(Piece("board", count, (long, v["width"], v["thickness"])),),
        needs=glue(count * v["seam"] * across),
        settings=(
            Setting("saw, along the board", edges, (f"bottom and top edge of {count} boards",)),
            Setting("saw, across the board", ends, (f"both ends of {count} boards",)),
        ),
    )


def _board(side: float, slope: float, width: float, thickness: float, count: int, number: int) -> Body:
    """Return a board of the frame as if mitered, with level edges; butted ones fill the same room together."""
    half, ahead = pi / count, 2 * pi * number / count - pi / 2
    outer = side / (2 * tan(half))  # the distance of its face from the middle, at the bottom
    run, thick = width * cos(slope), thickness / sin(slope)
    rings = []
    for height, far in ((0.0, outer), (width * sin(slope), outer - run)):
        inner = max(far - thick, 0.0)
        ways = ((far, -half), (far, half), (inner, half), (inner, -half))
        spots = [(away / cos(half), ahead + turn) for away, turn in ways]
        rings.append([(corner * cos(turned), corner * sin(turned), height) for corner, turned in spots])
    solid = prism(*rings)
    return solid_body(f"board {number + 1}", solid.vertices, solid.faces, None)
