"""Whether what a path gives is enough: at each hood, in each hose, for each position of the gates."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from kit.core.build import BuildInput
from kit.core.quantity import unit
from kit.core.verdict import Check, Sense, Shown, compare, fact
from kit.subjects.air.network import Air
from kit.subjects.air.path_sure import Sure

FASTEST = 100e3  # mm/s, below a third of the speed of sound: faster air is no longer as if it could not be squeezed
FLOW, PASCAL = unit("m^3/h").factor, unit("Pa").factor
"""To which flows and pulls are rounded when shown."""


@dataclass(frozen=True)
class Position:
    """A position of the gates: its air, filter clean and loaded, the last also without leaks; how sure it is loaded."""

    name: str
    shut: frozenset[str]
    carrying: frozenset[str]
    sure: Sure
    clean: Air
    loaded: Air
    tight: Air


@dataclass(frozen=True)
class Fan:
    """The collector's curve here: flows and pulls (n,), mm³/s and N/mm², the first at the shut inlet."""

    flows: tuple[float, ...]
    pulls: tuple[float, ...]

    def __call__(self, flow: float) -> float:
        """Return its pull at a flow, straight from point to point."""
        return float(np.interp(flow, self.flows, self.pulls))

    @property
    def most(self) -> float:
        """The flow at the last point."""
        return self.flows[-1]


def checks(inputs: BuildInput, positions: Sequence[Position], fan: Fan) -> list[Check]:
    """Return the checks of all positions against what the page wants."""
    v = inputs.base
    wanted = {row["name"]: row["wanted"].base if row["wanted"] else v["wanted"] for row in inputs.stated["branches"]}
    found = [
        compare(
            "stands",
            "with the inlet blocked the suction rises to",
            fan.pulls[0],
            v["stands"],
            unit="Pa",
            resolution=10 * PASCAL,
            mend="take a stiffer hose and bag, or fit a relief flap",
        )
    ]
    for number, position in enumerate(positions, 1):
        found += [*_flows(number, position, wanted), *_speeds(number, position, v["transport"])]
        found.append(
            fact(
                f"curve_{number}",
                position.clean.flow <= fan.most * (1 + 1e-9),
                "the collector runs at {} of the {} at its curve's end",
                "type the curve on: beyond its last point nobody knows what it gives",
                Shown(position.clean.flow, "m^3/h", FLOW),
                Shown(fan.most, "m^3/h", FLOW),
                where=f"position {position.name!r}, filter clean",
            )
        )
    return found


def _flows(number: int, position: Position, wanted: Mapping[str, float]) -> list[Check]:
    return [
        compare(
            f"flow_{number}_{place}",
            f"into the hood of {hood!r} comes",
            flow,
            wanted[hood],
            unit="m^3/h",
            sense=">=",
            resolution=FLOW,
            where=at_loaded(position),
            mend="shorten or widen what costs most in the table of losses, seal leaks, or take a stronger collector",
            u=position.sure.u_flow(hood),
        )
        for place, (hood, flow) in enumerate(position.loaded.hoods.items(), 1)
    ]


def _speeds(number: int, position: Position, transport: float) -> list[Check]:
    """Return whether the slowest air still carries, and whether the fastest is slow enough for all this to hold."""
    every = position.loaded.pieces
    through = [n for n, at in enumerate(every) if at.piece.carries and at.branch in position.carrying]
    if not through:
        return []
    slow, fast = (which(through, key=lambda n: every[n].speed) for which in (min, max))

    def check(name: str, which: str, place: int, allowed: float, sense: Sense, mend: str) -> Check:
        at = every[place]
        subject = f"{which}, in the {at.piece.words} of {at.branch!r}, the air runs at"
        where = at_loaded(position)
        fine = 0.1 * unit("m/s").factor
        return compare(
            f"{name}_{number}",
            subject,
            at.speed,
            allowed,
            mend=mend,
            unit="m/s",
            sense=sense,
            resolution=fine,
            where=where,
            u=position.sure.u_speed(place),
        )

    slower = "take a narrower hose or duct there, or open one more gate while it runs"
    faster = "look at diameters and curve again: above a third of the speed of sound nothing on this page holds"
    return [
        check("carries", "slowest", slow, transport, ">=", slower),
        check("fastest", "fastest", fast, FASTEST, "<=", faster),
    ]


def at_loaded(position: Position) -> str:
    """Return the words for a position of the gates with a loaded filter."""
    return f"position {position.name!r}, filter loaded"
