"""The steps by which a scan becomes a machine that moves: each turns what is asked into what the page states."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.intake import Answers, Change, Seen
from kit.core.quantity import Display, Quantity, parse, show
from kit.geometry.motion import Joint, circle_axis
from kit.subjects.sweep.scan_inputs import WAY, millimeters

Array = NDArray[np.float64]
DIRECTIONS = {
    "straight up": (0.0, 0.0, 1.0),
    "to the right": (1.0, 0.0, 0.0),
    "to the left": (-1.0, 0.0, 0.0),
    "to the back": (0.0, 1.0, 0.0),
    "to the front": (0.0, -1.0, 0.0),
}
TO_SPOT = "to the second spot"
ENDS = ("low", "high")
PLACE = ("x", "y", "z")
RANGES = {"swing": ("swing_right", "swing_left"), "tilt": ("", "tilt_most"), "slide": ("", "slide_most")}


def scale(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Add a measured length between two spots; the scale is the best of all of them.

    Raises:
        KitError: one spot twice, or something already stated in the millimeters of another scale.
    """
    if seen is None or inputs.stated["scan"] is None:
        raise KitError("There is no scan yet; drop one in or choose a file first.")
    one, other = answers["from"], answers["to"]
    if one == other:
        raise KitError(f"Both ends of the length are {one!r}; choose two spots.")
    rest = [step for step in _raw(inputs, "recipe") if step["do"] in ("crop", "brush", "drop", "thin")]
    if rest or inputs.stated["joints"] or inputs.stated["parts"]:
        raise KitError(
            "Boxes, joints and parts are in millimeters of the present scale; take them out before you change it."
        )
    recipe = _raw(inputs, "recipe")
    length = {"from": one, "to": other, "length": answers["length"]}
    known = next((step for step in recipe if step["do"] == "scale"), None)
    if known is None:
        return Change({"recipe": [{"do": "scale", "lengths": [length]}, *recipe]})
    others = [each for each in known["lengths"] if {each["from"], each["to"]} != {one, other}]
    known["lengths"] = [*others, length]
    return Change({"recipe": recipe})


def upright(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Lay the bed level, the front toward the reader and the zero on the axis.

    Raises:
        KitError: no scale yet, a bed of one or two spots, or something already stated in the axes.
    """
    _scaled(seen)
    recipe = _raw(inputs, "recipe")
    if any(step["do"] == "crop" for step in recipe) or inputs.stated["joints"] or inputs.stated["parts"]:
        raise KitError("Boxes, joints and parts are stated in the present axes; take them out before you change these.")
    step: dict[str, Any] = {"do": "upright", "tolerance": answers["tolerance"]}
    bed = answers["bed"]
    if bed and len(bed) < 3:
        raise KitError(f"{len(bed)} spots of the bed are chosen; choose three or more, or none for its largest plane.")
    step |= {"bed": list(bed)} if bed else {}
    step |= {"up": answers["up"]} if answers["up"] else {}
    step |= {"front": answers["front"], "axis": answers["axis"]}
    return Change({"recipe": [*(each for each in recipe if each["do"] != "upright"), step]})


def crop(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Keep what lies in a box. Raises KitError where there is no scale yet."""
    _scaled(seen)
    low, high = answers["box"]
    return Change({"recipe": [*_raw(inputs, "recipe"), {"do": "crop", "low": _point(low), "high": _point(high)}]})


def brush(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Take away what lies round spots. Raises KitError where there is no scale yet, or no spot is chosen."""
    _scaled(seen)
    if not answers["spots"]:
        raise KitError("No spot is chosen; touch what is to go, then choose its spots.")
    step = {"do": "brush", "spots": list(answers["spots"]), "radius": answers["radius"]}
    return Change({"recipe": [*_raw(inputs, "recipe"), step]})


def drop(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Take out small pieces. Raises KitError where there is no scale yet."""
    _scaled(seen)
    return Change({"recipe": [*_raw(inputs, "recipe"), {"do": "drop", "smaller": answers["smaller"]}]})


def thin(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Draw near points together. Raises KitError where there is no scale yet."""
    _scaled(seen)
    return Change({"recipe": [*_raw(inputs, "recipe"), {"do": "thin", "tolerance": answers["tolerance"]}]})


def joint(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Add a joint whose axis goes through a spot, toward a second one or along the machine.

    Raises:
        KitError: the machine does not stand upright yet, or no second spot apart from the first.
    """
    seen = _upright(seen)
    start = seen.spots[answers["at"]]
    if answers["toward"] == TO_SPOT:
        if answers["second"] in ("", answers["at"]):
            raise KitError("The axis goes to the second spot; choose one that is not the first.")
        way = seen.spots[answers["second"]] - start
        way = way / np.linalg.norm(way)
    else:
        way = np.array(DIRECTIONS[answers["toward"]])
    axis = {"point": _point(start), "direction": [round(float(each), 6) + 0.0 for each in way]}
    return _with_joint(inputs, answers["name"], answers["kind"], axis, answers["low"], answers["high"])


def circle_joint(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Add a turn about the middle of a circle on which spots lie.

    Raises:
        KitError: the machine does not stand upright yet, or fewer than three spots.
    """
    seen = _upright(seen)
    if len(answers["spots"]) < 3:
        raise KitError(f"{len(answers['spots'])} spots of the circle are chosen; choose three or more.")
    axis = {"touched": [_point(seen.spots[name]) for name in answers["spots"]]}
    circle_axis([seen.spots[name] for name in answers["spots"]])  # refuses spots on a line
    return _with_joint(inputs, answers["name"], "turn", axis, answers["low"], answers["high"])


def typed_joint(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Add a joint whose axis goes through a typed point. Raises KitError where a scan does not stand upright yet."""
    if inputs.stated["scan"] is not None:
        _upright(seen)
    way = [*DIRECTIONS[answers["toward"]]]
    axis = {"point": [answers[name] for name in PLACE], "direction": way}
    return _with_joint(inputs, answers["name"], answers["kind"], axis, answers["low"], answers["high"])


def block(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Add a measured box, or measure one that is there anew. Raises KitError where there is a scan."""
    sides = {"low": ("left", "near", "bottom"), "high": ("right", "far", "top")}
    return _block(inputs, answers, {end: [answers[side] for side in of] for end, of in sides.items()})


def round_block(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Add a measured cylinder, or measure one that is there anew. Raises KitError where there is a scan."""
    ends = {end: [answers[f"{end} {name}"] for name in PLACE] for end in ("start", "end")}
    return _block(inputs, answers, {**ends, "diameter": answers["diameter"]})


def limits(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """State how far a joint goes. Raises KitError where there is no such joint."""
    rows = _raw(inputs, "joints")
    number = _numbered(rows, answers["joint"], "joint")
    ends, givens = _limited([*rows], number, answers["low"], answers["high"])
    rows[number] |= ends
    return Change({"joints": rows}, givens)


def boxed(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Let what lies in a box move with a joint: a new part, or one more box of a part.

    Raises:
        KitError: the machine does not stand upright yet, or a name of nothing but blanks.
    """
    _upright(seen)
    box = [_point(end) for end in answers["box"]]
    return Change({"parts": _part(inputs, answers, "inside", [box])})


def pieces(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Let all that is connected to a spot move with a joint: a new part, or more of a part.

    Raises:
        KitError: the machine does not stand upright yet, no spot, or a name of nothing but blanks.
    """
    _upright(seen)
    if not answers["spots"]:
        raise KitError("No spot is chosen; set one on each piece that moves and choose it here.")
    return Change({"parts": _part(inputs, answers, "pieces", list(answers["spots"]))})


def left_out(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """Take what lies in a box out of a part. Raises KitError where there is no such part."""
    rows = _raw(inputs, "parts")
    row = rows[_numbered(rows, answers["part"], "part")]
    row["outside"] = [*row.get("outside", []), [_point(end) for end in answers["box"]]]
    return Change({"parts": rows})


def found_joint(stated: Mapping[str, Any], joint: Joint, d: Display) -> str:
    """Return how a joint goes, and how far the spots of its circle lie off it."""
    low, high = (show(end, WAY[joint.kind], d) for end in (joint.low, joint.high))
    goes = f"{'turns' if joint.kind == 'turn' else 'slides'} from {low} to {high}"
    if not stated["touched"]:
        return goes
    _, radius, off = circle_axis([millimeters(spot) for spot in stated["touched"]])
    count = len(stated["touched"])
    sure = f"the {count} spots lie {show(off, 'mm', d, resolution=0.01)} off it" if count > 3 else "add a fourth to see"
    return f"{goes}; circle of radius {show(radius, 'mm', d, resolution=0.1)}, {sure}"


def _raw(inputs: BuildInput, name: str) -> list[dict[str, Any]]:
    """Return the rows of an input as in the job's file, to be changed."""
    return [dict(row) for row in inputs.raw.get(name, [])]


def _scaled(seen: Seen | None) -> Seen:
    if seen is None:
        raise KitError("There is no scan yet; drop one in or choose a file first.")
    if not seen.scaled:
        raise KitError("The scan has no scale yet; state a measured length first.")
    return seen


def _upright(seen: Seen | None) -> Seen:
    there = _scaled(seen)
    if not there.upright:
        raise KitError("The machine does not stand upright yet; set its bed, front and axis first.")
    return there


def _point(place: Array) -> list[str]:
    return [f"{round(float(each), 2) + 0.0:g} mm" for each in place]


def _numbered(rows: Sequence[Mapping[str, Any]], name: str, kind: str) -> int:
    for number, row in enumerate(rows):
        if row["name"] == name:
            return number
    raise KitError(f"There is no {kind} {name!r} yet; add one first.")


def _named(name: str, kind: str) -> str:
    if not name.strip():
        raise KitError(f"The {kind} has no name; type one.")
    return name.strip()


def _part(inputs: BuildInput, answers: Answers, key: str, more: list[Any]) -> list[dict[str, Any]]:
    """Return the parts with more of one, or with one more."""
    rows, name = _raw(inputs, "parts"), _named(answers["name"], "part")
    _numbered(_raw(inputs, "joints"), answers["rides"], "joint")
    row = next((each for each in rows if each["name"] == name), None)
    if row is None:
        return [*rows, {"name": name, "rides": answers["rides"], key: more}]
    row |= {"rides": answers["rides"], key: [*row.get(key, []), *more]}
    return rows


def _block(inputs: BuildInput, answers: Answers, measured: Mapping[str, Any]) -> Change:
    if inputs.stated["scan"] is not None:
        raise KitError("This machine is scanned; boxes and cylinders stand for one that is not: begin another part.")
    name = _named(answers["name"], "block")
    rides = {"rides": answers["rides"]} if answers["rides"] else {}
    rows = [row for row in _raw(inputs, "blocks") if row["name"] != name]
    return Change({"joints": _raw(inputs, "joints"), "blocks": [*rows, {"name": name, **rides, **measured}]})


def _with_joint(inputs: BuildInput, name: str, kind: str, axis: Mapping[str, Any], low: str, high: str) -> Change:
    rows, name = _raw(inputs, "joints"), _named(name, "joint")
    row = {"name": name, "kind": kind, **axis}
    at = next((number for number, each in enumerate(rows) if each["name"] == name), len(rows))
    rows[at : at + 1] = [row]
    ends, givens = _limited(rows, at, low, high)
    row |= ends
    return Change({"joints": rows}, givens)


def _limited(rows: Sequence[Mapping[str, Any]], at: int, low: str, high: str) -> tuple[dict[str, str], dict[str, str]]:
    """Return the ends of a joint as its row states them, and the givens that count positions over its range.

    The first turn is the swing, the second the tilt, the first slide the slide; where one end is 0, or both lie on
    either side of it, the row names the given, so that it is stated once.

    Raises:
        KitError: an end that cannot be read, or the low end above the high one.
    """
    kind = rows[at]["kind"]
    ends = [parse(text, WAY[kind]) for text in (low, high)]
    if ends[0].base > ends[1].base:
        raise KitError(
            f"The {rows[at]['name']} goes from {ends[0]} to {ends[1]}; the first must not be above the second."
        )
    stated = dict(zip(ENDS, map(str, ends), strict=True))
    turns, slides = ([n for n, row in enumerate(rows) if row["kind"] == each] for each in ("turn", "slide"))
    givens: dict[str, str] = {}
    if len(turns) < 2:
        givens["tilt_most"] = "0 deg"
    if not slides:
        givens["slide_most"] = "0 mm"
    if not turns:
        givens |= {"swing_left": "0 deg", "swing_right": "0 deg"}
    role = "swing" if turns[:1] == [at] else "tilt" if turns[1:2] == [at] else "slide" if slides[:1] == [at] else ""
    if not role:
        return stated, givens
    back, forth = RANGES[role]
    if back and ends[0].base <= 0.0 <= ends[1].base:
        return {"low": f"-{back}", "high": forth}, givens | {back: str(_less(ends[0])), forth: str(ends[1])}
    whole = Quantity(ends[1].to(ends[0].unit).value - ends[0].value, ends[0].unit, ends[1].half or ends[0].half)
    givens |= {forth: str(whole)} | ({back: f"0 {WAY[kind]}"} if back else {})
    if not back and ends[0].base == 0.0:
        stated = {"low": stated["low"], "high": forth}
    elif not back and ends[1].base == 0.0:
        stated = {"low": f"-{forth}", "high": stated["high"]}
    return stated, givens


def _less(end: Quantity) -> Quantity:
    return Quantity(-end.value + 0.0, end.unit, end.half)
