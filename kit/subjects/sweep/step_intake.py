"""How a scan of a machine is taken in by hand: what is seen of it so far, and its named spots.

All that a reader does ends in the inputs that the page states: spots, the recipe, joints and parts.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import floor, log10, pi
from typing import Any

import numpy as np
from numpy.typing import NDArray

from kit.core.build import Build, BuildInput
from kit.core.errors import KitError
from kit.core.intake import Change, Found, Intake, Seen, Way
from kit.core.quantity import show
from kit.geometry.envelope.surface import surface
from kit.geometry.mesh import Prepared, Scan, joined
from kit.geometry.motion import Chain
from kit.subjects.sweep import block_inputs as blocks
from kit.subjects.sweep import scan_inputs as scanned
from kit.subjects.sweep import second_intake
from kit.subjects.sweep.formats import SCANS
from kit.subjects.sweep.intake_forms import STEPS
from kit.subjects.sweep.intake_steps import found_joint
from kit.subjects.sweep.step_tables import found_words

Array = NDArray[np.float64]
IN_MILLIMETERS = (".3mf", ".glb")  # these files state their unit
WIDEST = {"turn": pi, "slide": 600.0}  # rad or mm, that is tried either way
BLOCKS = 16.0  # mm, of which the swept envelope is shown
TITLES = {
    "scale": "Scale",
    "upright": "Upright",
    "crop": "Crop",
    "brush": "Brush",
    "drop": "Small pieces",
    "thin": "Thinning",
}


def begin(name: str) -> Change:
    """State a file that is new: nothing is known of it yet."""
    none: dict[str, Any] = {"recipe": [], "picks": {}, "joints": [], "parts": [], "second": None, "blocks": None}
    return Change({"scan": name} | none)


def look(inputs: BuildInput) -> Seen | None:
    """Return the scan after what is stated so far, or the boxes and cylinders; None where neither is stated.

    Raises:
        KitError: the file cannot be read, or a step, a joint, a part or a block fails.
    """
    stated = inputs.stated
    if stated["scan"] is None:
        return _blocks(inputs) if stated["blocks"] else None
    raw, prepared = scanned.prepared(stated["scan"], stated["recipe"], stated["picks"], inputs.folder)
    scan, spots = prepared.scan, scanned.spots_of(stated["picks"], prepared)
    chain, second = second_intake.found(inputs)
    names = tuple(joint.name for joint in chain.joints) if chain else ()
    part = np.full(len(scan.faces), -1)
    rides: list[int] = []
    for number, each in enumerate(stated["parts"]):
        count, faces = scanned.part_faces(each, scan, names, spots)
        part[faces & ((part < 0) | (count > np.array([*rides, 0])[part]))] = number
        rides.append(count)
    done = [step["do"] for step in stated["recipe"]]
    return Seen(
        scan.vertices,
        scan.faces,
        scaled="scale" in done or stated["scan"].lower().endswith(IN_MILLIMETERS),
        upright="upright" in done,
        part=part,
        parts=tuple(each["name"] for each in stated["parts"]),
        spots=spots,
        axes=_axes(chain, scan) if chain else {},
        ways=tuple(_way(joint) for joint in chain.joints) if chain else (),
        found=(*_found(inputs, prepared, chain, part), *second),
        notes=(f"{len(raw.faces):,} faces as read.", *scan.notes),
        moves=lambda values: _moves(chain, rides, values),
    )


def _blocks(inputs: BuildInput) -> Seen:
    """Return the machine of boxes and cylinders, each a part of its own."""
    stated = inputs.stated["blocks"]
    chain = scanned.chain(inputs) if inputs.stated["joints"] else None
    names = [joint.name for joint in chain.joints] if chain else []
    surfaces = [blocks.surface(each) for each in stated]
    counts = [blocks.rides(each, names) for each in stated]
    riding = [number for number, count in enumerate(counts) if count]
    part = [riding.index(n) if n in riding else -1 for n, each in enumerate(surfaces) for _ in each.faces]
    scan = joined(surfaces)
    return Seen(
        scan.vertices,
        scan.faces,
        scaled=True,
        upright=True,
        part=np.array(part),
        parts=tuple(stated[number]["name"] for number in riding),
        spots={},
        axes=_axes(chain, scan) if chain else {},
        ways=tuple(_way(joint) for joint in chain.joints) if chain else (),
        found=(*_joints_found(inputs, chain), *_blocks_found(inputs)),
        notes=(f"As measured, a surface may be off by {show(blocks.error(stated), 'mm', inputs.display)}.",),
        moves=lambda values: _moves(chain, [counts[number] for number in riding], values),
    )


def _moves(chain: Chain | None, rides: list[int], values: Mapping[str, float]) -> list[Array]:
    """Return the motion (4, 4) of what rides on so many of the joints, at their values by name."""
    return [chain.first(count).poses(chain.values(values)[None, :count])[0] for count in rides] if chain else []


def spot(inputs: BuildInput, seen: Seen, name: str, place: Array | None) -> Change:
    """State a spot (3,) of what is seen under a name, or take it out.

    Raises:
        KitError: a name of nothing but blanks.
    """
    if not name.strip():
        raise KitError("The spot has no name; type one, such as bed left.")
    if inputs.stated["scan"] is None:
        raise KitError("Spots belong to a scan; this machine is stated as boxes and cylinders.")
    picks = {key: list(value) for key, value in inputs.stated["picks"].items() if key != name}
    if place is None:
        return Change({"picks": picks})
    raw, prepared = _prepared(inputs)
    move = prepared.move
    own = np.linalg.solve(move[:3, :3], np.asarray(place, dtype=float) - move[:3, 3])
    digits = max(0, 6 - floor(log10(float(raw.extent.max()))))
    kept = {key: list(value) for key, value in inputs.stated["picks"].items()}
    return Change({"picks": kept | {name.strip(): [round(float(each), digits) + 0.0 for each in own]}})


def result(build: Build) -> tuple[Array, NDArray[np.int64]]:
    """Return the surface of the swept envelope: vertices (n, 3) and faces (m, 3), mm."""
    return surface(build.data.envelope, BLOCKS)


def _prepared(inputs: BuildInput) -> tuple[Scan, Prepared]:
    stated = inputs.stated
    return scanned.prepared(stated["scan"], stated["recipe"], stated["picks"], inputs.folder)


def _axes(chain: Chain, scan: Scan) -> dict[str, Array]:
    """Return the ends (2, 3) of each joint's axis, as long as the scan is along it."""
    ends = {}
    for joint in chain.joints:
        way = np.array(joint.direction) / np.linalg.norm(joint.direction)
        along = (scan.vertices - joint.point) @ way
        ends[joint.name] = np.array(joint.point) + np.array([[along.min()], [along.max()]]) * way
    return ends


def _way(joint: Any) -> Way:
    widest = WIDEST[joint.kind]
    return Way(joint.name, scanned.WAY[joint.kind], joint.low, joint.high, (-widest, widest))


def _found(inputs: BuildInput, prepared: Prepared, chain: Chain | None, part: NDArray[np.int64]) -> tuple[Found, ...]:
    stated = inputs.stated
    steps = zip(stated["recipe"], prepared.found, strict=True)
    found = [
        Found(("recipe", number), TITLES[step["do"]], found_words(numbers, inputs.display))
        for number, (step, numbers) in enumerate(steps)
    ]
    found += _joints_found(inputs, chain)
    found += [
        Found(("parts", number), f"Part {each['name']}", f"rides on {each['rides']}; {_share(part == number)}")
        for number, each in enumerate(stated["parts"])
    ]
    return tuple(found)


def _share(faces: NDArray[np.bool_]) -> str:
    """Return how much of the scan a part is: a piece that is connected to what stands takes it along."""
    if not faces.all():
        return f"{faces.sum():,} of {len(faces):,} faces"
    return "all of the scan: nothing stands still; if something should, take this out and choose the part by a box"


def _joints_found(inputs: BuildInput, chain: Chain | None) -> list[Found]:
    rows = zip(inputs.stated["joints"], chain.joints if chain else (), strict=True)
    return [
        Found(("joints", number), f"Joint {joint.name}", found_joint(each, joint, inputs.display))
        for number, (each, joint) in enumerate(rows)
    ]


def _blocks_found(inputs: BuildInput) -> list[Found]:
    found = []
    for number, each in enumerate(inputs.stated["blocks"]):
        kind = "box" if each["low"] else "cylinder"
        goes = f"rides on {each['rides']}" if each["rides"] else "stands still"
        found.append(Found(("blocks", number), f"Block {each['name']}", f"{kind}, {goes}"))
    return found


INTAKE = Intake("scan", SCANS, begin, look, spot, STEPS, result, (second_intake.look, second_intake.spot))
