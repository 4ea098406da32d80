"""The recipe of a scan: steps as plain data, done again on a rescan with the same names picked on it.

A step is a mapping with the key `do`; points are named, and the picks say where each name is on this scan:

    {"do": "scale", "lengths": [{"from": "A", "to": "B", "mm": 600.0, "uncertainty": 0.5}]}
    {"do": "upright", "bed": ["C", "D", "E"], "tolerance": 2.0, "up": "top", "front": "front", "axis": "pivot"}
    {"do": "drop", "smaller": 30.0}      {"do": "thin", "tolerance": 0.5}
    {"do": "crop", "low": [-400.0, -300.0, -20.0], "high": [400.0, 500.0, 600.0]}

Picks are in the units and axes of the scan as read. Without `bed` the largest plane is taken, and `up` may then be
left out: it is the side on which the machine stands. `tolerance`, `smaller` and the box are in millimeters.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from kit.core.errors import KitError, near_misses
from kit.geometry.mesh.clean import brush, crop, drop_small, thin
from kit.geometry.mesh.levelling import find_bed, fit_plane, machine_frame
from kit.geometry.mesh.mesh import SMALL, WIDE, Array, Scan
from kit.geometry.mesh.scaling import fit_scale
from kit.geometry.motion.rigid import apply

Step = Mapping[str, Any]
Picks = Mapping[str, Sequence[float]]


@dataclass(frozen=True, eq=False)
class Prepared:
    """The scan after its recipe, the map (4, 4) from the scan as read (scale included), and what was found."""

    scan: Scan
    move: Array
    found: tuple[Mapping[str, float], ...]  # one for each step, plain numbers
    error: float  # [mm] by how much thinning moved the surface


def replay(scan: Scan, steps: Sequence[Step], picks: Picks | None = None) -> Prepared:
    """Return the scan after all steps in order.

    Raises:
        KitError: an unknown step, a key missing or unknown, a name without a pick, or what the step itself says.
    """
    prepared = Prepared(scan, np.eye(4), (), 0.0)
    named = {name: _pick(name, place) for name, place in (picks or {}).items()}
    for number, step in enumerate(steps, 1):
        name = step.get("do")
        if name not in STEPS:
            raise KitError(
                f"Step {number} of the recipe does {name!r}; it can do {', '.join(STEPS)}"
                f"{near_misses(str(name), list(STEPS))}."
            )
        needed, allowed, action = STEPS[name]
        missing = sorted(needed - step.keys())
        unknown = sorted(step.keys() - needed - allowed - {"do"})
        if missing or unknown:
            fault = f"lacks {', '.join(missing)}" if missing else f"has the unknown key {unknown[0]!r}"
            raise KitError(f"Step {number} of the recipe ({name}) {fault}; it needs {', '.join(sorted(needed))}.")
        prepared = action(prepared, step, named)
    return prepared


def names_in(steps: Sequence[Step]) -> set[str]:
    """Return the names of the points that the steps use."""
    lengths = [length for step in steps for length in step.get("lengths") or ()]
    ends = {length[end] for length in lengths for end in ("from", "to")}
    single = {step[key] for step in steps for key in ("up", "front", "axis") if step.get(key)}
    many = {name for step in steps for key in ("bed", "spots") for name in step.get(key) or ()}
    return ends | single | many


def _pick(name: str, place: Sequence[float]) -> Array:
    point = np.asarray(place, dtype=float)
    if point.shape != (3,) or not np.isfinite(point).all():
        raise KitError(f"The pick {name!r} is {place!r}; it needs three finite numbers.")
    return point


def _points(prepared: Prepared, names: Sequence[str], picks: Mapping[str, Array]) -> Array:
    for name in names:
        if name not in picks:
            raise KitError(f"No point called {name!r} is picked on this scan{near_misses(name, list(picks))}.")
    return apply(prepared.move, np.array([picks[name] for name in names]))


def _moved(prepared: Prepared, move: Array, found: Mapping[str, float], *notes: str) -> Prepared:
    scan = Scan(apply(move, prepared.scan.vertices), prepared.scan.faces, prepared.scan.notes + notes)
    return Prepared(scan, move @ prepared.move, (*prepared.found, found), prepared.error)


def _cleaned(prepared: Prepared, scan: Scan, error: float = 0.0) -> Prepared:
    found = {"vertices": float(len(scan.vertices)), "faces": float(len(scan.faces)), "error": error}
    return Prepared(scan, prepared.move, (*prepared.found, found), prepared.error + error)


def _scale(prepared: Prepared, step: Step, picks: Mapping[str, Array]) -> Prepared:
    lengths = step["lengths"]
    ends = [_points(prepared, (length["from"], length["to"]), picks) for length in lengths]
    scale = fit_scale(
        [float(np.linalg.norm(b - a)) for a, b in ends],
        [length["mm"] for length in lengths],
        [length["uncertainty"] for length in lengths],
    )
    longest = scale.factor * float(prepared.scan.extent.max())
    if not SMALL <= longest <= WIDE:
        raise KitError(
            f"Scaled to the measured lengths, the scan's longest side is {longest:.3g} mm; from {SMALL:g} to "
            f"{WIDE:,.0f} mm is allowed: look at the lengths and their picks."
        )
    move = np.diag([scale.factor] * 3 + [1.0])
    off = float(np.abs(scale.residuals).max())
    found = {"factor": scale.factor, "uncertainty": scale.uncertainty, "agree": float(scale.agree), "off": off}
    found |= {"lengths": float(len(lengths))}
    return _moved(prepared, move, found, *([scale.warning] if scale.warning else []))


def _upright(prepared: Prepared, step: Step, picks: Mapping[str, Array]) -> Prepared:
    tolerance = float(step.get("tolerance", 2.0))
    origin = _points(prepared, [step["axis"]], picks)[0]
    front = _points(prepared, [step["front"]], picks)[0] - origin
    if "bed" in step:
        plane = fit_plane(_points(prepared, step["bed"], picks), tolerance)
    else:
        plane = find_bed(prepared.scan, tolerance)
    up = _points(prepared, [step["up"]], picks)[0] - plane.point if "up" in step else None
    if up is None and "bed" in step:
        up = prepared.scan.vertices.mean(axis=0) - plane.point
    move = machine_frame(plane, plane.normal if up is None else up, front, origin)
    found = {"flatness": plane.flatness, "residual": plane.residual, "points": float(plane.used.sum())}
    return _moved(prepared, move, found)


def _brush(prepared: Prepared, step: Step, picks: Mapping[str, Array]) -> Prepared:
    return _cleaned(prepared, brush(prepared.scan, _points(prepared, step["spots"], picks), float(step["radius"])))


def _thin(prepared: Prepared, step: Step, _: Mapping[str, Array]) -> Prepared:
    scan, error = thin(prepared.scan, float(step["tolerance"]))
    return _cleaned(prepared, scan, error)


Action = Callable[[Prepared, Step, Mapping[str, Array]], Prepared]
STEPS: dict[str, tuple[set[str], set[str], Action]] = {
    "scale": ({"lengths"}, set(), _scale),
    "upright": ({"front", "axis"}, {"bed", "tolerance", "up"}, _upright),
    "drop": (
        {"smaller"},
        set(),
        lambda now, step, _: _cleaned(now, drop_small(now.scan, float(step["smaller"]))),
    ),
    "crop": (
        {"low", "high"},
        set(),
        lambda now, step, _: _cleaned(now, crop(now.scan, step["low"], step["high"])),
    ),
    "brush": ({"spots", "radius"}, set(), _brush),
    "thin": ({"tolerance"}, set(), _thin),
}
