"""Views in space: solids, lines and named points as a still or as a picture that the reader turns.

    view = View([Solid("box", vertices, faces), Solid("room", v, f, fill="ghost", opacity=0.35)], title="Box")
    view_svg(view, "front", 640, ids="box")           # SVG text; any of STANDARD or a Camera(around, up)
    view_frame(view, title="Box round a room")        # an iframe with buttons, keys and the still as fallback

Millimeters, z up, the front is what one sees looking along +y. Fills and inks are the names of `PAINTS`.
"""

from kit.drawing.space.frame import view_frame
from kit.drawing.space.scene import PAINTS, STANDARD, Camera, Line, Mark, Solid, View
from kit.drawing.space.svg import view_svg

__all__ = ["PAINTS", "STANDARD", "Camera", "Line", "Mark", "Solid", "View", "view_frame", "view_svg"]
