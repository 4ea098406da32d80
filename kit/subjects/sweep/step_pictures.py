"""Pictures and files of a swept scan: before and after its recipe, the machine in its swept envelope, its views."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from kit.core.build import Output, Picture
from kit.core.files import write_atomic
from kit.core.quantity import Display
from kit.drawing.layers import Layer
from kit.geometry.envelope.surface import surface
from kit.geometry.mesh import Prepared, Scan, thin
from kit.geometry.solids.closed import Mesh
from kit.subjects.sweep import scan_inputs as scanned
from kit.subjects.sweep.envelope_drawing import Rings, draw_heights, draw_outlines, draw_section, silhouettes
from kit.subjects.sweep.second_scan import Second
from kit.subjects.sweep.swept import Sweep

if TYPE_CHECKING:
    from kit.drawing.scene import Scene
    from kit.drawing.space import Line, Solid, View

Array = NDArray[np.float64]
GHOST = 24.0  # mm, width of the blocks of which the swept envelope is shown
SHOWN = 26.0  # mm, to which a scan is thinned to be looked at
AXIS = 60.0  # mm, by which a drawn axis stands out of what rides on it


def pictures(
    plane: scanned.Stated | None, raw: Scan | None, prepared: Prepared, sweep: Sweep, check: Second | None
) -> tuple[Picture, ...]:
    """Return the pictures, first those that are quickly drawn; `plane` is that of the section, if one is wanted."""

    def outlines(d: Display) -> Scene:
        return draw_outlines(sweep.envelope, _standing(sweep.standing), d)

    def heights(d: Display) -> Scene:
        return draw_heights(sweep.envelope, d)

    def machine(_d: Display) -> View:
        from kit.drawing.space import View

        solids = [_solid("moving parts", sweep.moving, "machine"), _ghost(sweep)]
        if sweep.standing:
            solids.append(_solid("base and fence", sweep.standing, "metal"))
        return View(solids, _axes(sweep), title="The machine in its swept envelope")

    def as_read(raw: Scan) -> View:
        from kit.drawing.space import View

        factor = float(np.cbrt(np.linalg.det(prepared.move[:3, :3])))
        scan = Scan(raw.vertices * factor, raw.faces)
        return View([_solid("scan as read", scan, "light")], title="The scan as read: any position, bits in the air")

    def cleaned(_d: Display) -> View:
        from kit.drawing.space import Mark, View

        solids = [_solid("moving parts", sweep.moving, "machine")]
        if sweep.standing:
            solids.append(_solid("what stands still", sweep.standing, "metal"))
        axes = _axes(sweep)
        marks = [Mark(line.name, np.asarray(line.points)[-1]) for line in axes]
        return View(solids, axes, marks, title="The scan upright and clean, with its joints")

    shown = [
        Picture(
            "outlines",
            "Outlines of the swept envelope",
            "the swept envelope from above, from the front and from the left, with its sizes",
            outlines,
        ),
    ]
    if plane is not None:
        point, normal = np.array(scanned.millimeters(plane["point"])), np.array(plane["normal"])

        def section(d: Display) -> Scene:
            plane = tuple(point.tolist()), tuple(normal.tolist())
            cuts = [(_cut(sweep.moving, *plane), Layer.CONSTRUCTION)]
            if sweep.standing:
                cuts.append((_cut(sweep.standing, *plane), Layer.PHANTOM))
            return draw_section(sweep.envelope, point, normal, cuts, d)

        words = "the swept envelope cut at the plane that the job states, with the machine as scanned"
        shown.append(Picture("section", "Section through the swept envelope", words, section))
    shown += [  # views in space of whole scans take too long for the place where pictures follow a control
        Picture(
            "heights",
            "Heights of the swept envelope",
            "from above, areas that the machine sweeps above round heights",
            heights,
        ),
        Picture(
            "machine",
            "The machine in its swept envelope",
            "the scanned machine inside its pale swept envelope",
            machine,
        ),
        Picture(
            "cleaned",
            "The scan upright and clean",
            "the machine upright on its bed, with the axes of its joints",
            cleaned,
        ),
    ]
    if raw is not None:
        scan = raw
        words = "the scan in its own axes, with all that floats in the air"
        shown.append(Picture("scan", "The scan as read", words, lambda _d: as_read(scan)))
    if check:
        shown.append(_two_scans(check))
    return tuple(shown)


def outputs(sweep: Sweep) -> tuple[Output, ...]:
    """Return the files that can be written: outlines to print, and the swept envelope as a solid to look at."""

    def outlines(folder: Path, stem: str, d: Display) -> list[Path]:
        from kit.drawing.export import PaperPlan, save
        from kit.drawing.paper import SCALES
        from kit.drawing.pdf import fitted

        scene = draw_outlines(sweep.envelope, _standing(sweep.standing), d)
        return save(scene, folder, f"{stem}_outlines", paper=fitted(scene, PaperPlan(), SCALES))

    def room(folder: Path, stem: str, _d: Display) -> list[Path]:
        from kit.drawing.mesh_files import stl

        path = folder / f"{stem}_room.stl"
        content = stl(Mesh(*surface(sweep.envelope, sweep.envelope.size)))
        folder.mkdir(parents=True, exist_ok=True)
        write_atomic(path, content)
        return [path]

    return (
        Output(
            "outlines", "outlines of the swept envelope, PDF and SVG to scale on one page, DXF at full size", outlines
        ),
        Output("room", "the swept envelope as STL in millimeters, to look at beside other parts", room),
    )


def _two_scans(check: Second) -> Picture:
    def both(_d: Display) -> View:
        from kit.drawing.space import Line, View

        along = (check.first.vertices - check.axis.point) @ check.axis.direction
        ends = check.axis.point + np.array([[along.min() - AXIS], [along.max() + AXIS]]) * check.axis.direction
        solids = [
            _solid("first scan", check.first, "machine"),
            _solid("second scan", check.then, "accent", 0.5),
        ]
        return View(
            solids,
            [Line(f"{check.joint.name} axis as scanned", ends, "red")],
            title="What moved, twice scanned",
        )

    words = "what moved between the scans, in both positions, and the axis that takes one into the other"
    return Picture("second", "Two scans and the axis between them", words, both)


def _solid(name: str, scan: Scan, fill: str, opacity: float = 1.0) -> Solid:
    from kit.drawing.space import Solid

    less = _shown(scan)
    return Solid(name, less.vertices, less.faces, fill, opacity, crease=60.0)


@lru_cache(maxsize=16)
def _shown(scan: Scan) -> Scan:
    return thin(scan, SHOWN)[0]


def _ghost(sweep: Sweep) -> Solid:
    from kit.drawing.space import Solid

    return Solid("swept envelope", *surface(sweep.envelope, GHOST), "ghost", 0.3, crease=60.0)


def _axes(sweep: Sweep) -> list[Line]:
    """Return the axis of each joint, where it is when all stand at 0, as long as what is scanned."""
    from kit.drawing.space import Line

    lines = []
    for joint in sweep.chain.joints:
        way = np.array(joint.direction) / np.linalg.norm(joint.direction)
        along = (sweep.moving.vertices - joint.point) @ way
        ends = np.array(joint.point) + np.array([[along.min() - AXIS], [along.max() + AXIS]]) * way
        lines.append(Line(joint.name, ends, "red", dashed=True))
    return lines


@lru_cache(maxsize=4)
def _standing(scan: Scan | None) -> tuple[Rings, Rings, Rings]:
    return silhouettes(scan.vertices) if scan else ([], [], [])


@lru_cache(maxsize=8)
def _cut(scan: Scan, point: tuple[float, ...], normal: tuple[float, ...]) -> Array:
    """Return the segments (n, 2, 3) in which a plane cuts the faces of a scan."""
    side = (scan.vertices - point) @ (np.array(normal) / np.linalg.norm(normal))
    corners, height = scan.vertices[scan.faces], side[scan.faces]
    crossed = (height.min(axis=1) < 0.0) & (height.max(axis=1) >= 0.0)
    corners, height = corners[crossed], height[crossed]
    after, below = np.roll(corners, -1, axis=1), np.roll(height, -1, axis=1)
    over = (height < 0.0) != (below < 0.0)  # two of the three edges
    share = np.where(over, height / np.where(over, height - below, 1.0), 0.0)
    places = corners + share[..., None] * (after - corners)
    segments: Array = places[over].reshape(-1, 2, 3)
    return segments
