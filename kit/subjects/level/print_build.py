"""The printed pad: its outline from a rubbing or typed corners, the solid to print, and the same pad from wood.

With neither a rubbing nor corners the foot is the rectangle of the model.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from kit.core.build import Build, BuildInput, Number, Output, Picture, Table
from kit.core.errors import KitError
from kit.core.files import MOST_BYTES, beside, content_digest
from kit.core.quantity import Display, show, unit
from kit.core.verdict import Check, compare
from kit.drawing.paper import paper_plan
from kit.drawing.raster import draw_rubbing, read_rubbing
from kit.geometry.outline.rounded import rounded, straightened
from kit.geometry.outline.trace import Traced, trace
from kit.subjects.level.pad_solid import ORIENTATION, Pad, Process, bodies, make_pad, model

if TYPE_CHECKING:
    from kit.drawing.paper import PaperPlan
    from kit.drawing.plots import Figure
    from kit.drawing.scene import Scene
    from kit.drawing.space import View

SIDES = {"right": (1.0, 0.0), "far": (0.0, 1.0), "left": (-1.0, 0.0), "near": (0.0, -1.0)}
SMOOTH = 0.05  # mm, how far a traced outline may be simplified


@dataclass(frozen=True)
class Foot:
    """A foot's outline : (n, 2), mm, how far it may be off, mm, how it was found, and the picture it was traced in."""

    outline: tuple[tuple[float, float], ...]
    error: float
    how: str
    traced: Traced | None = None
    picture: Path | None = None

    @property
    def size(self) -> tuple[float, float]:
        """Its length along x and its width along y, mm."""
        x, y = np.ptp(np.array(self.outline), axis=0)
        return float(x), float(y)


def build(inputs: BuildInput) -> Build:
    """Return the pad for a foot's outline: sizes, mass, views, the drawing for wood, and files to print.

    Raises:
        KitError: a lip or an outline that cannot be read.
    """
    v, d = inputs.base, inputs.display
    foot, lip, plan = foot_of(inputs), _lip(inputs), paper_plan(inputs.stated, inputs.printer)
    process = Process(v["shrink"], v["shrink_up"], inputs.stated["layer"].base, v["spread"])
    pad = _pad(foot.outline, v["height"], v["lip_width"], v["lip_height"], v["clearance"], lip)
    grams = pad.mass(unit("g/cm^3").from_base(v["density"]), v["solid"])
    long, wide, high = _drawn(pad, process)
    numbers = (
        Number("area", "area of the foot's outline", pad.foot.area, "mm^2", resolution=1),
        Number("error", "how far the outline may be off", foot.error, resolution=0.01),
        Number("volume", "volume of the pad, as it should come out", pad.volume, "cm^3", resolution=10.0),
        Number("mass", "mass of the print", unit("g").to_base(grams), "g", resolution=unit("g").to_base(0.1)),
        Number("model_x", "length of the model to print", long, resolution=0.01),
        Number("model_y", "width of the model to print", wide, resolution=0.01),
        Number("model_z", "height of the model to print", high, resolution=0.01),
    )
    return Build(
        numbers,
        checks=_limits(inputs, foot) if inputs.stated["rubbing"] or inputs.stated["corners"] else (),
        pictures=_pictures(pad, foot),
        tables=(_printing(numbers, process, foot, d), _wood(pad, d)),
        outputs=_outputs(pad, process, plan),
        data=pad,
    )


def foot_of(inputs: BuildInput) -> Foot:
    """Return the foot's outline as the job states it.

    Raises:
        KitError: corners and rubbing both, a rubbing without its bar, corners that are no pairs of lengths, or an
            outline that cannot be one.
    """
    stated, v = inputs.stated, inputs.base
    if stated["rubbing"] and stated["corners"]:
        raise KitError("a rubbing and corners are stated as well; leave out one of them")
    if stated["rubbing"]:
        if stated["bar"] is None:
            raise KitError('the rubbing has no bar; write the length of the one drawn beside it, bar = "50 mm"')
        path = beside(inputs.folder, stated["rubbing"])
        traced = _traced(path, content_digest(path, MOST_BYTES), stated["bar"].base)
        how = f"traced from {path.name}, {show(traced.scale, 'mm', inputs.display, resolution=1e-4)} to a pixel"
        return Foot(_points(straightened(traced.outline)), traced.error, how, traced, path)
    radii = [radius.base for radius in stated["radii"]] or [0.0]
    if stated["corners"]:
        corners = [(x.base, y.base) for x, y in stated["corners"]]
        error = max((each.half_base or 0.0 for corner in stated["corners"] for each in corner), default=0.0)
        if len(radii) not in (1, len(corners)):
            raise KitError(f"there are {len(corners)} corners and {len(radii)} radii; give one radius, or one each")
        outline = rounded(corners, radii if len(radii) > 1 else radii[0])
        return Foot(_points(outline), error, f"{len(corners)} typed corners with their radii")
    if stated["radii"]:
        raise KitError("radii are stated without corners; type the corners, or set the page's own radius")
    P, Q = v["length"], v["width"]
    outline = rounded([(0, 0), (P, 0), (P, Q), (0, Q)], v["radius"])
    return Foot(_points(outline), 0.0, "the model's rectangle with its radius")


def _lip(inputs: BuildInput) -> tuple[tuple[float, float], ...]:
    sides = inputs.stated["lip"] or ("right", "far")
    first, second = ways = tuple(SIDES[side] for side in sides)
    if np.dot(first, second) != 0:
        raise KitError(f"the lip stands on {' and '.join(sides)}; name two sides that meet in a corner")
    return ways


def _points(outline: object) -> tuple[tuple[float, float], ...]:
    return tuple((float(x), float(y)) for x, y in np.asarray(outline))


@lru_cache(maxsize=8)
def _traced(path: Path, _content: str, bar: float) -> Traced:
    return trace(read_rubbing(path), bar, tolerance=SMOOTH)


@lru_cache(maxsize=32)
def _pad(
    outline: tuple[tuple[float, float], ...],
    height: float,
    lip_width: float,
    lip_height: float,
    clearance: float,
    sides: tuple[tuple[float, float], ...],
) -> Pad:
    return make_pad(
        outline, height=height, lip_width=lip_width, lip_height=lip_height, clearance=clearance, sides=sides
    )


def _drawn(pad: Pad, process: Process) -> tuple[float, float, float]:
    """Return the sizes of the solid to print: larger by what the print will shrink."""
    left, low, right, top = pad.plate.bounds
    flat, up = 1 - process.shrink, 1 - process.shrink_up
    return (right - left) / flat, (top - low) / flat, (pad.height + pad.lip_height) / up


def _limits(inputs: BuildInput, foot: Foot) -> tuple[Check, ...]:
    v = inputs.base
    off = max(abs(foot.size[0] - v["length"]), abs(foot.size[1] - v["width"]))
    return (
        compare(
            "measured",
            "the outline is off the measured length and width by",
            off,
            v["clearance"],
            resolution=0.01,
            mend="measure the foot and the drawn bar again, or give more clearance",
        ),
        compare(
            "sure",
            "the outline may be off by",
            foot.error,
            v["clearance"],
            resolution=0.01,
            mend="scan with more dots per inch, draw a longer bar, or give more clearance",
        ),
    )


def _pictures(pad: Pad, foot: Foot) -> tuple[Picture, ...]:
    from kit.subjects.level.pad_drawing import draw_pad

    def solid(_d: Display) -> View:
        from kit.drawing.space import Solid, View

        plate, lips = bodies(pad)
        parts = [Solid("plate", plate.vertices, plate.faces, "wood")]
        parts += [Solid("lip", lip.vertices, lip.faces, "accent") for lip in lips]
        return View(parts, title="Pad as it is printed, plate down")

    def wood(d: Display) -> Scene:
        return draw_pad(pad, d)

    shown = [
        Picture("solid", "The pad, plate down", "a plate under the foot, and a lip along two sides of it", solid),
        Picture("wood", "Drawing to make it from wood", "from above with the foot, and cut through its lip", wood),
    ]
    if foot.traced and foot.picture:
        traced, path = foot.traced, foot.picture

        def rubbing(_d: Display) -> Figure:
            return draw_rubbing(read_rubbing(path), traced)

        words = "the scanned rubbing, the bar beside it, and the traced outline over the foot's edge"
        shown.append(Picture("rubbing", "The rubbing and its outline", words, rubbing))
    return tuple(shown)


def _printing(numbers: tuple[Number, ...], process: Process, foot: Foot, d: Display) -> Table:
    spread = show(process.spread, "mm", d, resolution=0.01)
    rows_shown = [(number.meaning, number.show(d)) for number in numbers if number.name not in ("area", "error")]
    rows_shown += [
        ("outline", foot.how),
        ("orientation", ORIENTATION),
        (
            "shrinks by",
            f"{show(process.shrink, '%', d)} in plan, {show(process.shrink_up, '%', d)} in height",
        ),
        (
            "first layer",
            f"{show(process.layer, 'mm', d, resolution=0.01)} high, drawn smaller by {spread} on each side",
        ),
    ]
    return Table("To print", ("What", "Value"), tuple(rows_shown))


def _wood(pad: Pad, d: Display) -> Table:
    left, low, right, top = pad.plate.bounds
    rows = [("plate, sawn to its outline", right - left, top - low, pad.height)]
    for part in pad.lip.geoms:
        x_0, y_0, x_1, y_1 = part.bounds
        rows.append(("lip, sawn to its outline and glued on", x_1 - x_0, y_1 - y_0, pad.lip_height))
    rows_shown = tuple((what, *(show(size, "mm", d, resolution=0.1) for size in sizes)) for what, *sizes in rows)
    return Table("To make from wood", ("Piece", "Length", "Width", "Thickness"), rows_shown)


def _outputs(pad: Pad, process: Process, plan: PaperPlan) -> tuple[Output, ...]:
    def solids(folder: Path, stem: str, _d: Display) -> list[Path]:
        from kit.drawing.mesh_files import KINDS, write_solid

        solid = model(pad, process)
        folder.mkdir(parents=True, exist_ok=True)
        paths = [folder / f"{stem}{kind}" for kind in KINDS]
        for path in paths:
            write_solid(solid, path)
        return paths

    def drawing(folder: Path, stem: str, d: Display) -> list[Path]:
        from kit.drawing.export import save
        from kit.subjects.level.pad_drawing import draw_pad

        return save(draw_pad(pad, d), folder, stem, paper=plan)

    return (
        Output("solid", "the pad to print, as STL and 3MF in millimeters", solids),
        Output("wood", "the drawing to make it from wood, full size", drawing),
    )
