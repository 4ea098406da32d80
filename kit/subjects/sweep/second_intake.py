"""A second scan taken in by hand: its file, the same spots touched on it, and the axis that both scans show."""

from __future__ import annotations

from math import floor, log10

import numpy as np
from numpy.typing import NDArray

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.core.intake import Answers, Change, Found, Seen
from kit.geometry.mesh import names_in
from kit.geometry.motion import Chain
from kit.subjects.sweep import scan_inputs as scanned
from kit.subjects.sweep.second_scan import Second, joints

Array = NDArray[np.float64]
TAKE = "take the axis that the scans show"
COMPARE = "only compare it with the stated axis"


def add(inputs: BuildInput, seen: Seen | None, answers: Answers) -> Change:
    """State the second scan, or of the one that is there what is asked of it.

    Raises:
        KitError: there is no first scan, no such joint, or no file yet.
    """
    if seen is None or inputs.stated["scan"] is None:
        raise KitError("There is no first scan yet; drop one in or choose a file first.")
    before = inputs.raw.get("second", {})
    name = answers["scan"] or before.get("scan")
    if not name:
        raise KitError("The second scan is not here yet; drop its file in or choose it.")
    picks = {"picks": before["picks"]} if before.get("scan") == name and "picks" in before else {}
    more = {"joint": answers["joint"], "turned": answers["turned"], "take": answers["take"] == TAKE}
    return Change({"second": {"scan": name, **more, **picks}})


def look(inputs: BuildInput) -> Seen | None:
    """Return the second scan as it was read, with its own spots; None where there is none.

    Raises:
        KitError: the file cannot be read.
    """
    given = inputs.stated["second"]
    if given is None:
        return None
    raw, _ = scanned.prepared(given["scan"], [], {}, inputs.folder)
    spots = {name: np.array(place) for name, place in given["picks"].items()}
    missing = _missing(inputs)
    note = f"Touch the spots of the first scan here too: {', '.join(missing)}." if missing else ""
    return Seen(
        raw.vertices,
        raw.faces,
        scaled=False,
        upright=False,
        part=np.full(len(raw.faces), -1),
        parts=(),
        spots=spots,
        axes={},
        ways=(),
        found=(),
        notes=(note,) if note else (),
        moves=lambda _: [],
        wanted=missing,
    )


def spot(inputs: BuildInput, seen: Seen, name: str, place: Array | None) -> Change:
    """State a spot (3,) of the second scan under a name, or take it out. Raises KitError where it has no name."""
    if not name.strip():
        raise KitError("The spot has no name; give it that of a spot of the first scan.")
    raw = dict(inputs.raw["second"])
    picks = {key: value for key, value in raw.pop("picks", {}).items() if key != name}
    if place is not None:
        digits = max(0, 6 - floor(log10(float(np.ptp(seen.vertices, axis=0).max()))))
        picks[name.strip()] = [round(float(each), digits) + 0.0 for each in place]
    return Change({"second": raw | ({"picks": picks} if picks else {})})


def found(inputs: BuildInput) -> tuple[Chain | None, tuple[Found, ...]]:
    """Return the joints, one of them as both scans show it where this is asked for, and what these say of it."""
    if not inputs.stated["joints"]:
        return None, ()
    if inputs.stated["second"] is None:
        return scanned.chain(inputs), ()
    missing = _missing(inputs) if inputs.stated["second"]["picks"] else ()
    if missing:
        return scanned.chain(inputs), (_found(f"touch on it also {', '.join(missing)}"),)
    try:
        chain, check = joints(inputs)
    except KitError as error:
        return scanned.chain(inputs), (_found(str(error)),)
    assert check is not None
    return chain, (_found(_words(inputs, check)),)


def _found(words: str) -> Found:
    return Found(("second", 0), "Second scan", words)


def _words(inputs: BuildInput, check: Second) -> str:
    given, display = inputs.stated["second"], inputs.display
    axis = "its axis is taken" if given["take"] else "its axis is only compared"
    own = "" if given["picks"] else "; no spot is touched on it, so it is taken to lie in the axes of the first"
    rest, moved, off, lean = (each.show(display) for each in check.numbers)
    went = f"the {check.joint.name} went {moved}; its axis is {off} and {lean} off the stated one"
    return f"laid on the first, {rest} apart (root mean square); {went}; {axis}{own}"


def _missing(inputs: BuildInput) -> tuple[str, ...]:
    """Return the names of spots that the recipe needs and the second scan does not have."""
    names = names_in(scanned.steps(inputs.stated["recipe"]))
    return tuple(name for name in inputs.stated["picks"] if name in names - inputs.stated["second"]["picks"].keys())
