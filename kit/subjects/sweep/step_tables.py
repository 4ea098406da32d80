"""Tables of a swept scan: what was done to it, what moves, and how many positions a bound needs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from kit.core.build import BuildInput, Table
from kit.core.quantity import Display, show
from kit.geometry.mesh import Prepared, Scan
from kit.geometry.motion import Chain
from kit.subjects.sweep.scan_inputs import MovingPart

JOINTS = ("swing", "tilt", "slide")
BOUNDS = (0.5, 1.0, 2.0, 4.0)  # of the required one


def recipe_table(steps: Sequence[Mapping[str, Any]], prepared: Prepared, d: Display) -> Table:
    """Return what each step of the recipe found, and what there is to note."""
    rows = [(str(step["do"]), found_words(found, d)) for step, found in zip(steps, prepared.found, strict=True)]
    rows += [("note", note) for note in prepared.scan.notes]
    return Table("What was done to the scan", ("step", "found"), tuple(rows))


def found_words(found: Mapping[str, float], d: Display) -> str:
    """Return what a step of the recipe found, as a reader wants it."""
    if "factor" in found:
        scale = show(found["factor"], "mm", d, half=2.0 * found["uncertainty"])
        if found["lengths"] < 2:
            return f"{scale} in one unit of the scan; one length says nothing of its own error, measure a second"
        off = show(found["off"], "mm", d, resolution=0.1)
        agree = "agree" if found["agree"] else "disagree"
        return f"{scale} in one unit of the scan; the lengths {agree}, once scaled they are off by {off} at most"
    if "flatness" in found:
        noise = show(found["residual"], "mm", d, resolution=0.01)
        high = show(found["flatness"], "mm", d, resolution=0.1)
        return f"{found['points']:,.0f} points of the bed, {high} from lowest to highest, {noise} from their plane"
    moved = f", moved by at most {show(found['error'], 'mm', d, resolution=0.01)}" if found["error"] else ""
    return f"{found['vertices']:,.0f} points and {found['faces']:,.0f} faces left{moved}"


def moving_table(parts: Sequence[MovingPart], standing: Scan | None, chain: Chain, d: Display) -> Table:
    """Return which part rides on which joints, and how far these go."""
    rows = []
    for part in parts:
        rides = [
            f"{joint.name} {show(joint.low, 'deg' if joint.kind == 'turn' else 'mm', d)} to "
            f"{show(joint.high, 'deg' if joint.kind == 'turn' else 'mm', d)}"
            for joint in chain.joints[: part.joints]
        ]
        rows.append((part.name, f"{len(part.scan.faces):,}", ", ".join(rides)))
    if standing:
        rows.append(("the rest", f"{len(standing.faces):,}", "stands still"))
    return Table("What moves", ("part", "faces", "rides on"), tuple(rows))


def bounds_table(inputs: BuildInput) -> Table:
    """Return how many positions some bounds need; none where thinning and scan take up all of them."""
    rows = []
    for times in BOUNDS:
        case = inputs.case.with_(beyond=frozenset({"wish"}), wish=inputs.case["wish"].value * times)
        bound = show(case.base["wish"], "mm", inputs.display, resolution=0.01)
        enough = case.base["left"] >= case.base["wish"] / 10.0
        counts = [f"{case.base[f'needed_{joint}']:,.0f}" if enough else "–" for joint in JOINTS]
        rows.append((bound, *counts, f"{case.base['needed']:,.0f}" if enough else "thin less first"))
    return Table("Positions that a bound needs", ("required bound", *JOINTS, "in all"), tuple(rows))
