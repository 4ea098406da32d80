"""The room that a scanned machine sweeps: from the scan over its recipe and joints to the envelope and its views.

A second scan, in another position of one joint, is laid on the first: it shows where the axis of the joint truly is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from kit.core.build import Build, BuildInput, Number, Progress
from kit.core.model import Case
from kit.core.verdict import Check, Shown, compare, fact
from kit.geometry.envelope.envelope import Envelope, Unswung, swings, unswung
from kit.geometry.motion import Chain, apply
from kit.subjects.sweep.board_distance import near, table
from kit.subjects.sweep.second_scan import Second, joints
from kit.subjects.sweep.step_machine import Machine, is_stated
from kit.subjects.sweep.step_machine import machine as taken_apart
from kit.subjects.sweep.step_pictures import outputs, pictures
from kit.subjects.sweep.step_tables import JOINTS, bounds_table, moving_table, recipe_table
from kit.subjects.sweep.swept import Sweep

Array = NDArray[np.float64]
CAUTIONS = (
    "Only what was scanned is in the swept envelope: look for cords, hoses and handles that the scan does not have, "
    "and for holes where the phone did not see.",
    "The envelope is that of the joints as entered: a stop that is set otherwise, or a head that was not at its zero "
    "when it was scanned, sweeps another envelope.",
)


QUICK = 4.0  # times as wide are the cells while a control moves
MOST_KEPT = 8
_KEPT: dict[tuple[object, tuple[Chain, ...], float], Unswung] = {}


@dataclass(frozen=True)
class Reached:
    """How far from the swing axis and how high the parts were seen, and each joint's farthest point from its axis."""

    out: float
    up: float
    arms: tuple[float, ...]


def build(inputs: BuildInput) -> Build:
    """Return the swept envelope of the machine that the job states; else only how many positions a bound needs."""
    if not is_stated(inputs):
        return Build(tables=(bounds_table(inputs),))
    chain, check = joints(inputs)
    machine = taken_apart(inputs, chain)
    chains = tuple(chain.first(part.joints) for part in machine.parts)
    cell = inputs.base["cell"]
    coarse = inputs.quick and not _is_kept(machine, chains, cell)
    sweep = _sweep(machine, chains, QUICK * cell if coarse else cell)
    reached = _reached(inputs, machine, chain)
    return Build(
        _numbers(inputs, machine, sweep, reached, check),
        _limits(inputs, machine, chain, reached, check),
        cautions=CAUTIONS,
        pictures=pictures(inputs.stated["section"], machine.raw, machine.prepared, sweep, check),
        tables=(
            *([recipe_table(machine.steps, machine.prepared, inputs.display)] if machine.raw else []),
            moving_table(machine.parts, machine.standing, chain, inputs.display),
            bounds_table(inputs),
        ),
        outputs=outputs(sweep),
        data=sweep,
        coarse=coarse,
    )


def certify(inputs: BuildInput, progress: Progress) -> Build:
    """Return what is made, and how near a flat board may stand on each side, certified over all positions."""
    made = build(inputs)
    if made.data is None:
        return made
    answers = near(made.data, progress)
    return replace(made, tables=(table(answers, made.data.error, inputs.display), *made.tables))


TASKS = {"Certify how near a board may stand": certify}


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return the arms and the scan's error as the scan has them, and as many positions as the bound then needs."""
    if not is_stated(inputs):
        return _needed(inputs.case)
    chain, _ = joints(inputs)
    machine = taken_apart(inputs, chain)
    proposed: dict[str, Any] = {"scan_error": _rounded(machine.scan_error)}
    spare = 2.0 * inputs.case.with_(**proposed).base["share"]  # what fewer positions may hide of tilt and slide
    arms = _farthest(chain, _reached(inputs, machine, chain), inputs.base)
    least = {name: inputs.case.model.givens[name].span[0] for name in arms}  # mm; shorter where nothing rides
    proposed |= {name: _rounded(max(arm + spare, least[name])) for name, arm in arms.items()}
    case = inputs.case.with_(**proposed)
    return proposed | _needed(case)


def _needed(case: Case) -> dict[str, str]:
    return {f"poses_{joint}": f"{round(case.base[f'needed_{joint}'])}" for joint in JOINTS}


def _rounded(base: float) -> str:
    return f"{np.ceil(10.0 * base) / 10.0:g} mm"


def _sweep(machine: Machine, chains: tuple[Chain, ...], cell: float) -> Sweep:
    rides = list(zip(machine.bodies, chains, strict=True))
    return Sweep(
        *rides[0],
        tuple(rides[1:]),
        machine.still,
        _envelope(machine, chains, cell),
        machine.scan_error + machine.thinned,
        machine.moving,
        machine.standing,
    )


@lru_cache(maxsize=4)
def _envelope(machine: Machine, chains: tuple[Chain, ...], cell: float) -> Envelope:
    """Return the envelope; what the joints but a vertical swing sweep is kept, so that other ends come at once."""
    key = _key(machine, chains, cell)
    if key not in _KEPT:
        ready = unswung(list(zip(machine.bodies, key[1], strict=True)), cell)
        while len(_KEPT) >= MOST_KEPT:
            _KEPT.pop(next(iter(_KEPT)))
        _KEPT[key] = ready
    first = chains[0].joints[0]
    return _KEPT[key].swung(first.low, first.high)


def _key(machine: Machine, chains: tuple[Chain, ...], cell: float) -> tuple[Machine, tuple[Chain, ...], float]:
    """Return what an envelope depends on before it is swung."""
    first = chains[0].joints[0]
    still = replace(first, low=0.0, high=0.0) if swings(first) else first
    return machine, tuple(Chain((still, *chain.joints[1:])) for chain in chains), cell


def _is_kept(machine: Machine, chains: tuple[Chain, ...], cell: float) -> bool:
    return _key(machine, chains, cell) in _KEPT


def _reached(inputs: BuildInput, machine: Machine, chain: Chain) -> Reached:
    """Look at the hulls in the positions of the model: nothing of a part is farther out or higher than its hull."""
    counts = [round(inputs.base[f"poses_{'tilt' if joint.kind == 'turn' else 'slide'}"]) for joint in chain.joints]
    return _looked(machine, chain, (1, *counts[1:]))


@lru_cache(maxsize=16)
def _looked(machine: Machine, chain: Chain, counts: tuple[int, ...]) -> Reached:
    axis = np.array(chain.joints[0].point[:2]) if chain.joints[0].kind == "turn" else np.zeros(2)
    out, up, arms = 0.0, -np.inf, [0.0] * len(chain.joints)
    for part, hull in zip(machine.parts, machine.hulls, strict=True):
        places = apply(chain.first(part.joints).poses(_middles(chain, counts, 0, part.joints)), hull)
        up = max(up, float(places[..., 2].max()))
        out = max(out, float(np.hypot(*np.moveaxis(places[..., :2] - axis, -1, 0)).max()))
        for number in range(part.joints):
            joint, beyond = chain.joints[number], chain.joints[number + 1 : part.joints]
            values = _middles(chain, counts, number + 1, part.joints)
            points = apply(Chain(beyond).poses(values), hull) if beyond else hull
            away = np.cross(points - joint.point, np.array(joint.direction) / np.linalg.norm(joint.direction))
            arms[number] = max(arms[number], float(np.linalg.norm(away, axis=-1).max()))
    return Reached(out, up, tuple(arms))


def _middles(chain: Chain, counts: tuple[int, ...], first: int, last: int) -> Array:
    """Return the values of the joints from `first` on, in the middle of equal parts of their ranges."""
    ticks = [
        joint.low + (joint.high - joint.low) * (np.arange(count) + 0.5) / count
        for joint, count in zip(chain.joints[first:last], counts[first:last], strict=True)
    ]
    return np.stack(np.meshgrid(*ticks, indexing="ij"), axis=-1).reshape(-1, len(ticks)) if ticks else np.zeros((1, 0))


def _farthest(chain: Chain, reached: Reached, v: Mapping[str, float]) -> dict[str, float]:
    """Return the arms that the model must have at least: as seen, and what the other joints may add in between."""
    arms = {"arm_swing": reached.arms[0] + v["chord_tilt"] + v["way_slide"]}
    turns = [arm for arm, joint in zip(reached.arms, chain.joints, strict=True) if joint.kind == "turn"][1:]
    return {**arms, "arm_tilt": max(turns) + v["way_slide"]} if turns else arms


def _numbers(
    inputs: BuildInput, machine: Machine, sweep: Sweep, reached: Reached, check: Second | None
) -> tuple[Number, ...]:
    v = inputs.base
    found = {str(step["do"]): numbers for step, numbers in zip(machine.steps, machine.prepared.found, strict=True)}
    scale, bed = found.get("scale"), found.get("upright")
    numbers = []
    if scale:
        half = 2.0 * scale["uncertainty"]
        numbers += [
            Number("scale", "millimeters in one unit of the scan", scale["factor"], half=half, resolution=0.1),
            Number(
                "scale_error",
                "of each length, by the scale, at most",
                half / scale["factor"],
                "%",
                resolution=1e-5,
            ),
        ]
    if bed:
        numbers += [
            Number("flatness", "from the lowest to the highest point of the bed", bed["flatness"], resolution=0.1),
            Number(
                "noise",
                "root mean square distance of the bed from its plane",
                bed["residual"],
                resolution=0.01,
            ),
        ]
    numbers += [
        Number(
            "vertices",
            "points of the scan that are left",
            len(machine.prepared.scan.vertices),
            "",
            resolution=1,
        ),
        Number("thinned", "by how much thinning moved the surface, at most", machine.thinned, resolution=0.01),
        Number(
            "scan_error",
            "by how much the scan may be off at its farthest point",
            machine.scan_error,
            resolution=0.01,
        ),
        Number("reach", "greatest reach from the swing axis, seen at the positions", reached.out, resolution=0.1),
        Number("reach_sure", "nothing reaches farther than", reached.out + v["bound"], resolution=0.1),
        Number("height", "greatest height over the bed, seen at the positions", reached.up, resolution=0.1),
        Number("height_sure", "nothing comes higher than", reached.up + v["bound"], resolution=0.1),
        Number(
            "slack",
            "excess that the envelope may show beyond the reach",
            sweep.envelope.slack,
            resolution=1,
        ),
    ]
    return (*numbers, *check.numbers) if check else tuple(numbers)


def _limits(
    inputs: BuildInput, machine: Machine, chain: Chain, reached: Reached, check: Second | None
) -> tuple[Check, ...]:
    v = inputs.base
    notes = machine.prepared.scan.notes
    agree = all(step.get("agree", 1.0) for step in machine.prepared.found)
    spare = max((step["off"] for step in machine.prepared.found if "off" in step), default=0.0)
    words = next((note.rstrip(".") for note in notes if "disagree" in note), "")
    lengths = (
        fact("lengths", agree, words, "measure or pick them again")
        if words
        else fact(
            "lengths",
            agree,
            "once scaled, the measured lengths are off by {} at most, within their uncertainty",
            "measure or pick them again",
            Shown(spare, resolution=0.1),
        )
    )
    checks = [
        *([lengths] if machine.raw else []),
        compare(
            "scan",
            "against what is stated, the scan may be off by",
            machine.scan_error,
            v["scan_error"],
            resolution=0.1,
            mend="state more for the scan's error, or measure longer lengths",
        ),
    ]
    for name, arm in _farthest(chain, reached, v).items():
        meaning = {"arm_swing": "swing", "arm_tilt": "tilt"}[name]
        checks.append(
            compare(
                name,
                f"against the arm that is stated, the farthest point is from the {meaning} axis",
                arm,
                v[name],
                resolution=0.1,
                mend="state a longer arm",
            )
        )
    if check and not inputs.stated["second"]["take"]:
        checks.append(
            compare(
                "axis",
                f"the {check.joint.name}'s axis as scanned is off the stated one by",
                check.off,
                v["scan_error"],
                resolution=0.1,
                mend="pick the axis again, or take it from the scans",
            )
        )
    return tuple(checks)
