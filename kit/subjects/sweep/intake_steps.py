"""The steps by which a scan becomes a machine that moves: each turns what is asked into what the page states."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.intake import Answers, Ask, Change, Seen, Step
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
RANGES = {"swing": ("swing_right", "swing_left"), "tilt": ("", "tilt_most"), "slide": ("", "slide_most")}


def scale(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Add a measured length between two spots; the scale is the best of all of them.

    Raises:
        KitError: one spot twice, or something already stated in the millimeters of another scale.
    """
    one, other = answers["from"], answers["to"]
    if one == other:
        raise KitError(f"Both ends of the length are {one!r}; choose two spots.")
    rest = [step for step in _raw(inputs, "recipe") if step["do"] in ("crop", "drop", "thin")]
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


def upright(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
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


def crop(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Keep what lies in a box. Raises KitError where there is no scale yet."""
    _scaled(seen)
    low, high = answers["box"]
    return Change({"recipe": [*_raw(inputs, "recipe"), {"do": "crop", "low": _point(low), "high": _point(high)}]})


def drop(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Take out small pieces. Raises KitError where there is no scale yet."""
    _scaled(seen)
    return Change({"recipe": [*_raw(inputs, "recipe"), {"do": "drop", "smaller": answers["smaller"]}]})


def thin(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Draw near points together. Raises KitError where there is no scale yet."""
    _scaled(seen)
    return Change({"recipe": [*_raw(inputs, "recipe"), {"do": "thin", "tolerance": answers["tolerance"]}]})


def joint(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Add a joint whose axis goes through a spot, toward a second one or along the machine.

    Raises:
        KitError: the machine does not stand upright yet, or no second spot apart from the first.
    """
    _upright(seen)
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


def circle_joint(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Add a turn about the middle of a circle on which spots lie.

    Raises:
        KitError: the machine does not stand upright yet, or fewer than three spots.
    """
    _upright(seen)
    if len(answers["spots"]) < 3:
        raise KitError(f"{len(answers['spots'])} spots of the circle are chosen; choose three or more.")
    axis = {"touched": [_point(seen.spots[name]) for name in answers["spots"]]}
    circle_axis([seen.spots[name] for name in answers["spots"]])  # refuses spots on a line
    return _with_joint(inputs, answers["name"], "turn", axis, answers["low"], answers["high"])


def limits(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """State how far a joint goes. Raises KitError where there is no such joint."""
    rows = _raw(inputs, "joints")
    number = _numbered(rows, answers["joint"], "joint")
    ends, givens = _limited([*rows], number, answers["low"], answers["high"])
    rows[number] |= ends
    return Change({"joints": rows}, givens)


def boxed(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Let what lies in a box move with a joint: a new part, or one more box of a part.

    Raises:
        KitError: the machine does not stand upright yet, or a name of nothing but blanks.
    """
    _upright(seen)
    box = [_point(end) for end in answers["box"]]
    return Change({"parts": _part(inputs, answers, "inside", [box])})


def pieces(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
    """Let all that is connected to a spot move with a joint: a new part, or more of a part.

    Raises:
        KitError: the machine does not stand upright yet, no spot, or a name of nothing but blanks.
    """
    _upright(seen)
    if not answers["spots"]:
        raise KitError("No spot is chosen; set one on each piece that moves and choose it here.")
    return Change({"parts": _part(inputs, answers, "pieces", list(answers["spots"]))})


def left_out(inputs: BuildInput, seen: Seen, answers: Answers) -> Change:
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


def _scaled(seen: Seen) -> None:
    if not seen.scaled:
        raise KitError("The scan has no scale yet; state a measured length first.")


def _upright(seen: Seen) -> None:
    _scaled(seen)
    if not seen.upright:
        raise KitError("The machine does not stand upright yet; set its bed, front and axis first.")


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


NAME_OF_PART = Ask("name", "name of the part, a new one or one that is there", default="head")
RIDES = Ask("rides", "the joint farthest from the bench on which it rides", "choice", names="joint")
LOW_END = Ask("low", "least angle or way from where it was scanned", default="0 deg")
HIGH_END = Ask("high", "greatest angle or way", default="45 deg")
STEPS = (
    Step(
        "scale",
        "Scale",
        "Two spots, and what a tape or caliper says of the way between them. A second length shows how sure it is.",
        (
            Ask("from", "from the spot", "spot"),
            Ask("to", "to the spot", "spot"),
            Ask("length", "measured length with its ±", default="500 ± 1 mm"),
        ),
        scale,
    ),
    Step(
        "upright",
        "Upright",
        "Three or more spots of the bed, or none for its largest plane; a spot toward you, and one on the axis that "
        "stands on the bed: zero lies below it.",
        (
            Ask("bed", "spots of the bed", "spots"),
            Ask("front", "a spot in front of the axis", "spot"),
            Ask("axis", "a spot on the axis", "spot"),
            Ask("up", "a spot above the bed, if up and down are mixed up", "spot", needed=False),
            Ask("tolerance", "by how much a point of the bed may be off its plane", default="2 mm"),
        ),
        upright,
    ),
    Step(
        "crop", "Crop", "Keep what lies in the box: cut the bench and the wall off.", (Ask("box", "box", "box"),), crop
    ),
    Step(
        "drop",
        "Small pieces",
        "Take out bits that float in the air.",
        (Ask("smaller", "pieces smaller than this are taken out", default="25 mm"),),
        drop,
    ),
    Step(
        "thin",
        "Thin",
        "Draw near points together, where the scan is finer than it is true.",
        (Ask("tolerance", "by how much the surface may move", default="0.5 mm"),),
        thin,
    ),
    Step(
        "joint",
        "Joint by its axis",
        "Joints go from the bench outward. It turns counterclockwise seen against its axis; a slide goes along it.",
        (
            Ask("name", "name of the joint", default="swing"),
            Ask("kind", "how it moves", "choice", options=("turn", "slide")),
            Ask("at", "a spot on its axis", "spot"),
            Ask("toward", "its axis goes", "choice", options=(*DIRECTIONS, TO_SPOT)),
            Ask("second", "second spot on its axis", "spot", needed=False),
            LOW_END,
            HIGH_END,
        ),
        joint,
    ),
    Step(
        "circle",
        "Joint by a circle",
        "Three or more spots round the axis: on the rim of a turntable, or one corner touched in three positions.",
        (
            Ask("name", "name of the joint", default="swing"),
            Ask("spots", "spots on the circle", "spots"),
            LOW_END,
            HIGH_END,
        ),
        circle_joint,
    ),
    Step(
        "part",
        "Moving part by a box",
        "What lies in the box moves with the joint.",
        (NAME_OF_PART, RIDES, Ask("box", "box", "box")),
        boxed,
    ),
    Step(
        "piece",
        "Moving part by a piece",
        "All that is connected to a spot moves with the joint.",
        (NAME_OF_PART, RIDES, Ask("spots", "a spot on each piece", "spots")),
        pieces,
    ),
    Step(
        "left_out",
        "Leave out of a part",
        "What lies in the box does not belong to the part.",
        (Ask("part", "part", "choice", names="part"), Ask("box", "box", "box")),
        left_out,
    ),
    Step(
        "limits",
        "Limits",
        "How far the joint goes, from where it was scanned; try it with its slider.",
        (Ask("joint", "joint", "choice", names="joint"), LOW_END, HIGH_END),
        limits,
    ),
)
