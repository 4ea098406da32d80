"""A path worked through: where the collector runs for each position of the gates, and what comes to each hood."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from math import sqrt
from typing import Any

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, show, unit
from kit.drawing.table_files import csv_output
from kit.subjects.air.network import Branch, Network
from kit.subjects.air.path_checks import FLOW, PASCAL, Fan, Position, at_loaded, checks
from kit.subjects.air.path_drawing import Curve, Point, operating_scene
from kit.subjects.air.path_pieces import branches
from kit.subjects.air.path_sure import sure, sure_table

OPEN = "No path is worked through: state its branches and pieces, and the collector's curve."
SAMPLES = 25  # points of a curve that the path asks for
ROOM = 0.101325  # N/mm²: standard atmosphere
THIN = ROOM / 20
STATES = {
    "clean": (False, False),
    "loaded": (True, False),
    "tight": (True, True),
}
"""Of each reckoning: whether the filter is loaded, and whether nothing leaks."""


def build(inputs: BuildInput) -> Build:
    """Return the operating points with their picture and tables.

    Raises:
        KitError: a curve that rises or has one point, branches that do not join, a piece that cannot be.
    """
    stated = inputs.stated
    if not (stated["branches"] and stated["pieces"] and stated["curve"]):
        return Build(open=(OPEN,))
    _look_at_curve(inputs)
    fan = _fan(inputs, stated)
    networks = {key: _network(inputs, stated, *state) for key, state in STATES.items()}

    def worked(changed: Mapping[str, Any]) -> tuple[Network, Fan]:
        return _network(inputs, changed, *STATES["loaded"]), _fan(inputs, changed)

    positions = []
    for name, shut in _positions(inputs, networks["loaded"]):
        airs = {key: network.run(fan, shut, fan.most) for key, network in networks.items()}
        known = sure(stated, worked, airs["loaded"], shut, fan.most)
        positions.append(Position(name, shut, networks["loaded"].carrying(shut), known, **airs))
    return Build(
        numbers=tuple(_numbers(positions)),
        checks=tuple(checks(inputs, positions, fan)),
        cautions=tuple(_cautions(fan, inputs.display)),
        pictures=(
            Picture(
                "operating",
                "Where the collector runs",
                "the fan's curve falls, what the path asks for rises, in long dashes with a loaded filter and in short "
                "ones with a clean one; the collector runs where they cross, named is the point with the loaded filter",
                partial(_picture, fan, positions, networks),
            ),
        ),
        tables=(
            table := _points(positions, inputs.display),
            sure_table([(each.name, each.loaded, each.sure) for each in positions], inputs, FLOW),
            _losses(positions, inputs.display),
        ),
        outputs=(csv_output("points", "operating points, for a spreadsheet", table),),
        data=tuple(positions),
    )


def _fan(inputs: BuildInput, stated: Mapping[str, Any]) -> Fan:
    """Return the curve as stated, at this speed and in this air."""
    v = inputs.base
    return Fan(
        tuple(v["flow_factor"] * row["flow"].base for row in stated["curve"]),
        tuple(v["pressure_factor"] * row["pressure"].base for row in stated["curve"]),
    )


def _look_at_curve(inputs: BuildInput) -> None:
    """Raise KitError where the curve as typed is none of a fan."""
    flows = [row["flow"].base for row in inputs.stated["curve"]]
    pulls = [row["pressure"].base for row in inputs.stated["curve"]]

    def words(number: int) -> str:
        flow, pull = (
            show(value[number], in_unit, inputs.display) for value, in_unit in ((flows, "m^3/h"), (pulls, "Pa"))
        )
        return f"{pull} at {flow}"

    if len(flows) < 2:
        raise KitError(
            f"the collector's curve has one point, {words(0)}; type two or more, the first with the inlet shut"
        )
    if flows[0] != 0:
        raise KitError(f"the collector's curve begins with {words(0)}; begin with the inlet shut, at no flow")
    for number in range(1, len(flows)):
        if flows[number] <= flows[number - 1] or pulls[number] > pulls[number - 1]:
            raise KitError(
                f"the collector's curve goes from {words(number - 1)} to {words(number)}; with more flow it gives less "
                "suction, so type its points in the order of the flow, from where it falls"
            )


def _network(inputs: BuildInput, stated: Mapping[str, Any], loaded: bool, tight: bool) -> Network:
    v = inputs.base
    found: Sequence[Branch] = branches(stated, v["viscosity"], v["density"], loaded, inputs.display)
    if tight:
        found = [replace(each, pieces=tuple(replace(piece, leak=0.0) for piece in each.pieces)) for each in found]
    return Network(found, v["density"], lambda pull: v["leak_speed"] * sqrt(pull / v["stands"]))


def _positions(inputs: BuildInput, network: Network) -> list[tuple[str, frozenset[str]]]:
    """Return the positions of the gates by name, each with the branches whose gates are shut."""
    leaves = network.leaves()
    found = []
    for row in inputs.stated["positions"]:
        for name in row["open"]:
            if name not in leaves:
                raise KitError(
                    f"the position {row['name']!r} opens {name!r}, which begins at no hood; open a branch that does"
                )
        shut = frozenset(leaves) - frozenset(row["open"])
        for name in sorted(shut):
            if not any(piece.gate for piece in network.branches[name].pieces):
                raise KitError(f"the position {row['name']!r} shuts {name!r}, which has no gate; add one to its pieces")
        found.append((row["name"], shut))
    return found or [("all open", frozenset())]


def _numbers(positions: Sequence[Position]) -> list[Number]:
    found = []
    for number, position in enumerate(positions, 1):
        said = at_loaded(position)
        found += [
            Number(
                f"flow_{number}", f"{said}: flow through the collector", position.loaded.flow, "m^3/h", resolution=FLOW
            ),
            Number(
                f"pull_{number}", f"{said}: suction at its inlet", position.loaded.wall, "Pa", resolution=10 * PASCAL
            ),
            Number(
                f"leak_{number}",
                f"{said}: flow that leaks take from the hoods",
                max(0.0, sum(position.tight.hoods.values()) - sum(position.loaded.hoods.values())),
                "m^3/h",
                resolution=FLOW,
            ),
        ]
    return found


def _cautions(fan: Fan, d: Display) -> list[str]:
    if fan.pulls[0] <= THIN:
        return []
    return [
        f"The suction rises to {_pull(fan.pulls[0], d)}: the air behind is thinner by up to "
        f"{100 * fan.pulls[0] / ROOM:.0f} %, runs faster, and costs more than shown. Count such a vacuum's path as a "
        "rough estimate."
    ]


def _points(positions: Sequence[Position], d: Display) -> Table:
    rows = []
    for number, position in enumerate(positions, 1):
        for words, air in (("clean", position.clean), ("loaded", position.loaded)):
            hoods = ", ".join(f"{name} {_flow(flow, d)}" for name, flow in air.hoods.items())
            leaks = air.flow - sum(air.hoods.values())
            rows.append(
                (str(number), position.name, words, _flow(air.flow, d), _pull(air.wall, d), hoods, _flow(leaks, d))
            )
    heads = ("No.", "Position", "Filter", "Flow", "Suction at inlet", "Into the hoods", "Through leaks")
    return Table("Operating points", heads, tuple(rows))


def _losses(positions: Sequence[Position], d: Display) -> Table:
    rows = tuple(
        (
            position.name,
            at.branch,
            at.piece.words,
            _flow(at.flow, d),
            show(at.speed, "m/s", d, resolution=0.1 * unit("m/s").factor) if at.speed else "–",
            _pull(at.loss, d),
            _pull(at.wall, d),
        )
        for position in positions
        for at in position.loaded.pieces
    )
    heads = ("Position", "Branch", "Piece", "Flow", "Speed", "Costs", "Suction behind")
    return Table("Losses piece by piece, filter loaded", heads, rows)


def _flow(value: float, d: Display) -> str:
    return show(value, "m^3/h", d, resolution=FLOW)


def _pull(value: float, d: Display) -> str:
    return show(value, "Pa", d, resolution=PASCAL)


def _picture(fan: Fan, positions: Sequence[Position], networks: Mapping[str, Network], d: Display) -> object:
    curves, points = [], []
    for position in positions:
        for key, air in (("clean", position.clean), ("loaded", position.loaded)):
            line = networks[key].asked(position.shut, fan.most, SAMPLES)
            curves.append(Curve(line, key == "loaded"))
            points.append(Point(position.name, air.flow, air.wall, key == "loaded"))
    return operating_scene(list(zip(fan.flows, fan.pulls, strict=True)), curves, points, d)
