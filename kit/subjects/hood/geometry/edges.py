"""The edge curves of a hood's frame, by name, as `kit.subjects.cloth.geometry.skin_panels.skin` takes them.

    curves = edge_curves(form)                          # name -> Curve, outside corner lines, mm
    skin(list(curves.values()), wall_panels(form))      # one cloth panel for each wall between its two posts

Names: ``front-right corner`` and so on for the posts, from the bench up, counterclockwise seen from above;
``foot`` and ``top rim`` for the open lines from the front's left end round the back to its right end, with one piece
for each wall, so that they run alike; ``top`` for the whole top outline, closed; ``front top`` from left to right; and
``brow``, the lower edge of the brow from left to right: an arc, or a line if it is straight.
"""

from itertools import pairwise
from math import sin

import numpy as np

from kit.core.errors import KitError
from kit.geometry.development.curves import Curve
from kit.geometry.development.primitives import arc, line, polyline
from kit.geometry.solids.convex import Array, Solid
from kit.subjects.hood.geometry.boards import room
from kit.subjects.hood.geometry.form import FLOOR, TOP, HoodDimensions


def corner(first: str, second: str) -> str:
    """Return the name of the post between two walls."""
    return f"{first}-{second} corner"


def wall_panels(form: HoodDimensions) -> list[tuple[str, str, str]]:
    """Return (name, edge, edge) for each wall but the front: a panel of cloth between its two posts."""
    names = _walls(form)
    around = [*names, names[0]]
    posts = {second: corner(first, second) for first, second in pairwise(around)}
    return [(name, posts[name], corner(name, after)) for name, after in pairwise(around[1:])]


def edge_curves(form: HoodDimensions) -> dict[str, Curve]:
    """Return the outside corner lines of the hood's frame by name, as the module says.

    Raises:
        KitError: faces that do not close, or a chamfer that ends below the top (two posts would cross).
    """
    names = _walls(form)
    whole = room(form.faces(), FLOOR)
    curves: dict[str, Curve] = {}
    feet, tops = [], []
    for first, second in pairwise([*names, names[0]]):
        foot, top = _shared(whole, first, second, form.height)
        name = corner(first, second)
        curves[name] = line(foot, top, name)
        feet.append(foot)
        tops.append(top)
    # The post before the front is the last one: from there the lines run back along the left, round to the right.
    back = [feet[-1], *feet[-2::-1]]
    rim = [tops[-1], *tops[-2::-1]]
    curves["foot"] = polyline(np.array(back), name="foot")
    curves["top rim"] = polyline(np.array(rim), name="top rim")
    curves["top"] = polyline(np.array(tops), closed=True, name="top")
    curves["front top"] = line(tops[-1], tops[0], "front top")
    if form.brow is not None:
        curves["brow"] = _brow(form)
    return curves


def _brow(form: HoodDimensions) -> Curve:
    assert form.brow is not None
    front = form.faces()[0]
    up, half = form.brow.height / sin(form.slope_front), form.brow.width / 2.0
    left, middle, right = front.raised([[-half, up], [0.0, up + form.brow.rise], [half, up]])
    return arc(left, middle, right, "brow") if form.brow.rise > 0.0 else line(left, right, "brow")


def _walls(form: HoodDimensions) -> list[str]:
    return [face.name for face in form.faces() if face.name != TOP]


def _shared(whole: Solid, first: str, second: str, height: float) -> tuple[Array, Array]:
    """Return the end on the bench and the one at the top of the line in which two sides meet."""
    one, two = whole.side(first), whole.side(second)
    if one is not None and two is not None:
        on = one.corners[np.abs(two.plane.depth(one.corners)) < 1e-6]
        if len(on) == 2 and np.allclose(np.sort(on[:, 2]), [0.0, height], rtol=0.0, atol=1e-6):
            low, high = on[np.argsort(on[:, 2], kind="stable")]
            return low, high
    raise KitError(
        f"The {first} and the {second} face do not meet from the bench up to the top; make the hood lower, its slopes "
        "steeper, or the chamfer of the rear corners larger or 0."
    )
