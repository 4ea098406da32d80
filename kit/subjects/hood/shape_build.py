"""The hood as boards: how near the machine comes to each, every cut, the order of cutting, and the files.

The machine is one that a part sweeps, or boxes stand for it. Other builds take `HoodBoards`: the form, from which the
frame's edge curves are drawn, and the boards.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from math import ceil, floor, sqrt, tan

import numpy as np

from kit.core.build import Build, BuildInput, Number, Picture, Progress
from kit.core.errors import KitError
from kit.core.quantity import Display, Quantity, show
from kit.core.quantity.digits import significant
from kit.core.verdict import Check, compare, fact
from kit.drawing.paper import paper_plan
from kit.geometry.remembered import remembered
from kit.geometry.ties import first_largest, rough
from kit.subjects.hood.certificate import certificate
from kit.subjects.hood.clearance_checks import certified_check, sampled_checks, unproven
from kit.subjects.hood.geometry.cut_order import is_small
from kit.subjects.hood.geometry.gaps import Gap, gaps
from kit.subjects.hood.geometry.proposal import nearest_slopes
from kit.subjects.hood.geometry.proposal import propose as proposed
from kit.subjects.hood.geometry.rails import Rail
from kit.subjects.hood.geometry.solid import joined
from kit.subjects.hood.hood_boards import HoodBoards, built, form_of, sticks
from kit.subjects.hood.machine import Machine, machine
from kit.subjects.hood.shape_files import outputs
from kit.subjects.hood.shape_pictures import apart, board_scene, frame, in_space
from kit.subjects.hood.shape_tables import bevel_rows, board_rows, clearances, order_rows, rail_rows
from kit.subjects.hood.slopes import PROPOSED

TAKES = {"envelope": "swept envelope"}
FACES = ("front", "back", "left", "right", "rear")
LEANS = np.arange(70.0, 88.5, 1.0)  # [deg] slopes that are tried
CLOSED = 1e-6  # of the shell: what the boards together may differ from it
CERTIFY_SECONDS = 20.0  # of the processor's time, while somebody waits
BOOK_SECONDS = 300.0  # the same for a book or a check, which say the same on however busy a machine
STEPS = {"mm": 5.0, "in": 6.35}  # [mm] in which sizes are proposed
SURELY = 2.0  # standard uncertainties by which what is proposed keeps the limits of its boards
MOST_LIVE = 200_000  # faces of a machine whose clearance is measured while a control moves
LATER = "rails and posts are cut when the control rests"
UNCERTIFIED = "sampled positions are not all positions: its clearance is not certified yet"
UNMEASURED = "its clearance is measured when the control rests"
UNCHECKED = "clearance not checked: no machine is swept yet; take in its scan, or enter boxes"


def build(inputs: BuildInput) -> Build:
    """Return the hood with its clearance at sampled positions; that to a large scan once the control rests."""
    made, under = built(form_of(inputs.base, inputs.stated)), machine(inputs)
    if under is None:
        return _made(inputs, made, under, [], [])
    if inputs.quick and under.faces > MOST_LIVE and not _gaps.knows(under, made):
        hood = _made(inputs, made, under, [], [])
        return replace(hood, open=(UNMEASURED, *hood.open), coarse=True)
    hood = _made(inputs, made, under, _gaps(under, made), [])
    return replace(hood, open=(UNCERTIFIED, *hood.open))


@remembered(16)
def _gaps(under: Machine, made: HoodBoards) -> list[Gap]:
    """Return the gaps of all that moves; kept, for many givens move no board."""
    return gaps(under.moving, made.boards, made.openings)


def _made(inputs: BuildInput, made: HoodBoards, under: Machine | None, found: list[Gap], proven: list[Check]) -> Build:
    display, required = inputs.display, inputs.base["margin"]
    tightest = min(found, key=lambda gap: rough(gap.gap)) if found else None
    numbers, checks, tables = [], list(proven), []
    if under is not None and tightest is not None:
        numbers.append(
            Number("clearance", f"least clearance, sampled: {tightest.board} board", tightest.gap, resolution=0.1)
        )
        checks += sampled_checks(tightest, made, under, required)
        tables.append(clearances(found, under, display))
    land = inputs.base["land"]
    checks += [
        compare(
            name.replace(" ", "_"),
            f"wood left beside the {name}:",
            left,
            land,
            sense=">=",
            resolution=0.1,
            mend="move it toward the middle, or make it smaller",
        )
        for name, left in made.wood_left.items()
    ]
    checks.append(
        fact(
            "closed",
            abs(made.misfit) <= CLOSED,
            "the boards fill the shell without gap or overlap: "
            f"off by {significant(abs(made.misfit), 1)} of its volume",
            "choose faces that lean less",
        )
    )
    numbers += [
        Number(
            "wood",
            "face of all boards, openings counted in",
            sum(b.solid.volume for b in made.boards) / made.form.thickness,
            "m^2",
            resolution=1000.0,
        ),
        Number("small", "boards that ride on a carrier", float(_small(made)), "", resolution=1.0),
    ]
    tables += [board_rows(made, display), bevel_rows(made, display), order_rows(made, display)]
    pictures = [
        Picture(
            "hood",
            "Hood over the swept envelope",
            "the boards, pale, over the machine's swept envelope"
            + (", with the tightest place marked" if tightest is not None else ""),
            partial(in_space, made, under, tightest),
            (made, under, tightest),
        ),
        Picture("apart", "Boards taken apart", "each board moved out from its place", lambda _: apart(made), (made,)),
        *(
            Picture(
                f"board_{board.name.replace(' ', '_')}",
                f"{board.name.capitalize()} board",
                "the board on its outside with its cuts by letter, its inside dashed",
                partial(board_scene, board, made.openings.get(board.name, {})),
            )
            for board in made.boards
        ),
    ]
    rails: tuple[Rail, ...] = ()
    rail, words = inputs.stated["rail"], "the frame that carries cloth"
    later = inputs.quick and rail is not None and not sticks.knows(made, rail.base)
    if later:
        pictures.insert(2, Picture("frame", "Rails and posts", words, lambda _: frame(sticks(made, rail.base), made)))
    elif rail is not None:
        try:
            rails = sticks(made, rail.base)
        except KitError as error:
            checks.append(fact("frame", False, f"rails and posts: {error}"))
    if rails:
        tables.append(rail_rows(rails, display))
        pictures.insert(2, Picture("frame", "Rails and posts", words, lambda _: frame(rails, made), (rails,)))
    return Build(
        numbers=tuple(numbers),
        checks=tuple(checks),
        cautions=_cautions(made, under),
        open=(*([] if under is not None else [UNCHECKED]), *([LATER] if later else [])),
        pictures=tuple(pictures),
        tables=tuple(tables),
        outputs=outputs(made, rails, tables, paper_plan(inputs.stated, inputs.printer)),
        data=made,
        coarse=later,
    )


def _small(made: HoodBoards) -> int:
    return sum(is_small(board) for board in made.boards)


def _cautions(made: HoodBoards, under: Machine | None, *, proven: bool = False) -> tuple[str, ...]:
    said = []
    if under is None:
        said.append(f"{UNCHECKED[:1].upper()}{UNCHECKED[1:]}.")
    else:
        sampled = "Sampled positions are not all positions: certify the clearance before the boards are cut, and move"
        certified = "What is certified is the machine as it is stated: move"
        said.append(
            f"{certified if proven else sampled} the machine through its whole travel by hand, unplugged, when the "
            "hood stands."
        )
    if _small(made):
        said.append("Small boards ride on a carrier for every cut: they are never held by hand near the blade.")
    return tuple(said)


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return givens of the least hood that keeps margin and scan's error from the swept envelope, rounded outward.

    The front opening stays as wide as it is where the machine does not need more and the posts leave so much.

    Raises:
        KitError: no machine is stated, or it does not rise above the brow.
    """
    under = machine(inputs)
    if under is None:
        raise KitError("there is no machine to propose a hood for; link a swept envelope or enter boxes")
    value, most = inputs.base, float(under.reached[:, 2].max())
    if most <= value["brow_height"] - value["margin"] - under.error:
        brow, top = (show(height, "mm", inputs.display, resolution=1.0) for height in (value["brow_height"], most))
        raise KitError(f"nothing of the machine rises above a brow at {brow}; lower the brow below {top}")
    margin = value["margin"] + under.error  # the verdict takes the scan's error off
    slopes = {face: value[f"slope_{face}"] for face in FACES}
    entered: dict[str, str] = {}
    if inputs.stated["slopes"] == PROPOSED:
        slopes = nearest_slopes(under.reached, value["brow_height"], margin, np.radians(LEANS), under.standing)
        entered = {f"slope_{face}": f"{np.degrees(slope):g} deg" for face, slope in slopes.items()}
    least = proposed(under.reached, margin, value["thickness"], slopes, value["brow_height"], under.standing)
    sizes = {name: getattr(least, name) for name in ("front", "back", "left", "right", "height", "chamfer")}
    between = min(getattr(least, side) - value["brow_height"] / tan(slopes[side]) for side in ("left", "right"))
    step = STEPS[inputs.display.system]
    opening = ceil(least.opening / step - 1e-9) * step
    sizes["brow_width"] = max(opening, min(value["brow_width"], 2.0 * (between - value["land"])))
    wider = _short_of(inputs, entered, sizes, "jamb")
    for name in ("left", "right", "chamfer"):  # the rear corners stay where they are
        sizes[name] += wider
    more = _more_corner(inputs, entered, sizes)
    sizes["back"] += more  # a rear corner stays where it clears the machine, and takes more off side and back
    sizes["chamfer"] += more
    inward = ("chamfer", "brow_width")
    if all(inputs.case.origins[name].kind == "example" for name in ("reach", "reach_height")):
        entered |= _nearest_point(inputs, under, slopes)
    return entered | {name: _rounded(size, inputs.display, outward=name not in inward) for name, size in sizes.items()}


def _nearest_point(inputs: BuildInput, under: Machine, slopes: Mapping[str, float]) -> dict[str, str]:
    """Return the measured point as the swept machine has it: the one that comes nearest to its face."""
    face = inputs.case.model.givens["toward"].option(inputs.base["toward"])
    points = under.reached if under.standing is None else np.concatenate([under.reached, under.standing.corners])
    points = points[points[:, 2] >= (inputs.base["brow_height"] if face == "front" else 0.0)]
    out = points @ np.array({"front": (0, -1, 0), "right": (1, 0, 0), "back": (0, 1, 0), "left": (-1, 0, 0)}[face])
    near = first_largest(out * np.sin(slopes[face]) + points[:, 2] * np.cos(slopes[face]))
    inches = inputs.display.system == "in"
    measured = {"reach": max(float(out[near]), 0.0), "reach_height": float(points[near, 2])}
    return {name: f"{size / 25.4:.2f} in" if inches else f"{size:.1f} mm" for name, size in measured.items()}


def _more_corner(inputs: BuildInput, slopes: Mapping[str, str], sizes: Mapping[str, float]) -> float:
    """Return how much more the rear corners must take off [mm] so that their boards can be made."""
    step = STEPS[inputs.display.system]  # which rounding may take away again
    least = inputs.case.model.givens["chamfer"].span[0] + step
    more = max(0.0, least - sizes["chamfer"])
    short = _short_of(inputs, slopes, {**sizes, "chamfer": sizes["chamfer"] + more}, "short")
    return more + short / sqrt(2.0) + step if short > 0.0 else more


def _short_of(inputs: BuildInput, slopes: Mapping[str, str], sizes: Mapping[str, float], limit: str) -> float:
    """Return by how much [mm] a limit is missed with these sizes, if it is to hold for all but one in forty or so."""
    tried = {name: Quantity.from_base(size, "mm") for name, size in sizes.items()}
    case = inputs.case.with_(beyond=frozenset(tried), **slopes, **tried)
    check = next(check for check in case.checks if check.name == limit)
    assert check.margin is not None  # a limit of lengths has one
    return max(0.0, SURELY * check.u - check.margin)


def _rounded(size: float, display: Display, *, outward: bool) -> str:
    """Return a length in whole 5 mm or 1/4 in, away from the machine."""
    step = STEPS[display.system]
    count = ceil(size / step - 1e-9) if outward else floor(size / step + 1e-9)
    return f"{count / 4:g} in" if display.system == "in" else f"{count * 5} mm"


def certify_wholly(inputs: BuildInput, progress: Progress) -> Build:
    """Return the same with time enough for any hood that can be decided. Raises as `certify`."""
    return certify(inputs, progress, BOOK_SECONDS)


def certify(inputs: BuildInput, progress: Progress, seconds: float | None = None) -> Build:
    """Return the hood with its clearance proven over every position of the joints, board by board.

    Ends after so many `seconds`, `CERTIFY_SECONDS` unless stated, or when `progress` says so; what is not done by then
    is said.

    Raises:
        KitError: there is no machine, neither as a swept envelope nor as boxes.
    """
    made, under = built(form_of(inputs.base, inputs.stated)), machine(inputs)
    if under is None:
        raise KitError("there is no machine whose clearance could be certified; link a swept envelope, or enter boxes")
    found = _gaps(under, made)
    wanted = inputs.base["margin"]
    proof = certificate(under, made, wanted + under.error, seconds or CERTIFY_SECONDS, progress)
    check, wanting = certified_check(proof, under, wanted), unproven(proof, under, wanted)
    hood = _made(inputs, made, under, found, [*([check] if check else []), _joined(made)])
    if not wanting:
        return replace(hood, cautions=_cautions(made, under, proven=True))
    left = f"its clearance is not certified: {wanting}; it is judged at the sampled positions alone"
    return replace(hood, open=(left, *hood.open))


def _joined(made: HoodBoards) -> Check:
    """Return the check on the boards as solids, by booleans."""
    missing, shared = joined(made.boards, made.shell)
    words = (
        f"joined as solids, the boards miss {significant(missing, 1)} of the shell's volume, and no two "
        f"share more than {significant(shared, 1)} of it"
    )
    return fact("joined", max(missing, shared) <= CLOSED, words, "choose faces that lean less", origin="certificate")


TASKS = {"Certify the clearance": certify}
