"""The hood as boards: how near the machine comes to each, every cut, the order of cutting, and the files.

The machine is one that a part sweeps, or boxes stand for it. Other builds take `Built`: the form, from which the
frame's edge curves are drawn, and the boards.
"""

from __future__ import annotations

from functools import partial
from math import ceil, floor, tan

import numpy as np

from kit.core.build import Build, BuildInput, Number, Picture, Progress
from kit.core.errors import KitError
from kit.core.quantity import Display
from kit.core.verdict import Check, Shown, compare, fact
from kit.subjects.hood.certificate import Proof, certificate
from kit.subjects.hood.geometry.cut_order import is_small
from kit.subjects.hood.geometry.form import TOP
from kit.subjects.hood.geometry.gaps import Gap, gaps, room_left
from kit.subjects.hood.geometry.proposal import nearest_slopes
from kit.subjects.hood.geometry.proposal import propose as proposed
from kit.subjects.hood.geometry.solid import joined
from kit.subjects.hood.hood_boards import Built, built, form_of, sticks
from kit.subjects.hood.machine import Machine, machine
from kit.subjects.hood.shape import PROPOSED
from kit.subjects.hood.shape_files import outputs
from kit.subjects.hood.shape_pictures import apart, board_scene, frame, in_space
from kit.subjects.hood.shape_tables import bevel_rows, board_rows, clearances, order_rows, rail_rows

TAKES = ("envelope",)
FACES = ("front", "back", "left", "right", "rear")
LEANS = np.arange(70.0, 88.5, 1.0)  # [deg] slopes that are tried
CLOSED = 1e-6  # of the shell: what the boards together may differ from it
CERTIFY_SECONDS = 20.0
UNCHECKED = "clearance not checked: link a swept envelope, or enter boxes"


def build(inputs: BuildInput) -> Build:
    """Return the hood with its clearance at sampled positions."""
    made, under = built(form_of(inputs.value, inputs.stated)), machine(inputs)
    found = gaps(under.moving, made.boards, made.openings) if under is not None else []
    return _made(inputs, made, under, found, [])


def _made(inputs: BuildInput, made: Built, under: Machine | None, found: list[Gap], proven: list[Check]) -> Build:
    display, wished = inputs.display, inputs.value["margin"]
    tightest = min(found, key=lambda gap: gap.gap) if found else None
    numbers, checks, tables = [], list(proven), []
    if under is not None and tightest is not None:
        numbers.append(
            Number("clearance", f"least clearance, sampled: {tightest.board} board", tightest.gap, resolution=0.1)
        )
        checks += [_sampled(tightest, under, wished), *_standing(made, under)]
        tables.append(clearances(found, under, display))
    land = inputs.value["land"]
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
            f"the boards fill the shell without gap or overlap: off by {abs(made.misfit):.0e} of its volume",
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
            "Hood over the swept room",
            "the boards, pale, over the room that the machine sweeps, with the tightest place marked",
            partial(in_space, made, under, tightest),
        ),
        Picture("apart", "Boards taken apart", "each board moved out from its place", lambda _: apart(made)),
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
    rails = []
    if inputs.stated["rail"] is not None:
        try:
            rails = sticks(made, inputs.stated["rail"].base)
        except KitError as error:
            checks.append(fact("frame", False, f"rails and posts: {error}"))
    if rails:
        tables.append(rail_rows(rails, display))
        pictures.insert(
            2,
            Picture("frame", "Rails and posts", "the frame that carries cloth", lambda _: frame(rails, made)),
        )
    return Build(
        numbers=tuple(numbers),
        checks=tuple(checks),
        cautions=_cautions(made, under),
        open=() if under is not None else (UNCHECKED,),
        pictures=tuple(pictures),
        tables=tuple(tables),
        outputs=outputs(made, rails, tables),
        data=made,
    )


def _sampled(gap: Gap, under: Machine, wanted: float) -> Check:
    """Return the check on the tightest board at the sampled positions."""
    where = f"sampled at {under.poses} positions" if under.poses > 1 else "in its one position"
    if gap.gap <= 0.0:
        deep = ", {} through its inside" if gap.gap < 0.0 else ""
        hits = f"the machine hits the {gap.board} board{deep}"
        return fact("clearance", False, hits, _room(gap.board), Shown(-gap.gap, resolution=0.1), where=where)
    return compare(
        "clearance",
        f"at the {gap.board} the machine's clearance is",
        gap.gap,
        wanted,
        sense=">=",
        resolution=0.1,
        mend=_room(gap.board),
        where=where,
    )


def _room(board: str) -> str:
    """Return what gives the machine more room at a board."""
    if board == TOP:
        return "raise the top"
    if board.startswith("rear"):
        return "let the rear corners take off less, or make them steeper"
    return f"move the {board}'s bottom edge out, or make that face steeper"


def _standing(made: Built, under: Machine) -> list[Check]:
    """Return the check on what stands under the hood."""
    if under.standing is None:
        return []
    least, board = room_left(under.standing, made.boards)
    words = f"what stands under the hood is at least {{}} from its boards, least at the {board}"
    if least <= 0.0:
        gap = min(gaps([under.standing], made.boards, made.openings), key=lambda gap: gap.gap)
        least, board = gap.gap, gap.board
        words = f"what stands under the hood is {{}} from its boards, least at the {board}"
    if least <= 0.0:
        words = f"what stands under the hood runs into the {board} board"
    return [fact("standing", least > 0.0, words, _room(board) + ", or cut a notch", Shown(least, resolution=0.1))]


def _small(made: Built) -> int:
    return sum(is_small(board) for board in made.boards)


def _cautions(made: Built, under: Machine | None) -> tuple[str, ...]:
    told = []
    if under is None:
        told.append("No machine is told: clearance is not checked. Take a swept scan, or tell boxes.")
    else:
        told.append(
            "Sampled positions are not all positions: certify the clearance before the boards are cut, and move the "
            "machine through its whole way by hand, unplugged, when the hood stands."
        )
    if _small(made):
        told.append("Small boards ride on a carrier for every cut: they are never held by hand near the blade.")
    return tuple(told)


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return givens of the least hood that keeps the margin from the swept room, rounded outward.

    The front opening stays as wide as it is where the machine does not need more and the posts leave so much.

    Raises:
        KitError: no machine is told, or it does not rise above the brow.
    """
    under = machine(inputs)
    if under is None:
        raise KitError("there is no machine to propose a hood for; take a swept scan, or tell boxes")
    value = inputs.value
    still = None if under.standing is None else under.standing.corners
    slopes = {face: value[f"slope_{face}"] for face in FACES}
    told: dict[str, str] = {}
    if inputs.stated["slopes"] == PROPOSED:
        slopes = nearest_slopes(under.reached, value["brow_height"], value["margin"], np.radians(LEANS), still)
        told = {f"slope_{face}": f"{np.degrees(slope):g} deg" for face, slope in slopes.items()}
    least = proposed(under.reached, value["margin"], value["thickness"], slopes, value["brow_height"], still)
    sizes = {name: getattr(least, name) for name in ("front", "back", "left", "right", "height", "chamfer")}
    between = min(getattr(least, side) - value["brow_height"] / tan(slopes[side]) for side in ("left", "right"))
    sizes["brow_width"] = max(least.opening, min(value["brow_width"], 2.0 * (between - value["land"])))
    inward = ("chamfer", "brow_width")
    return told | {name: _rounded(size, inputs.display, outward=name not in inward) for name, size in sizes.items()}


def _rounded(size: float, display: Display, *, outward: bool) -> str:
    """Return a length in whole 5 mm or 1/4 in, away from the machine."""
    step, unit = (6.35, "in") if display.system == "in" else (5.0, "mm")
    count = ceil(size / step - 1e-9) if outward else floor(size / step + 1e-9)
    return f"{count / 4:g} in" if unit == "in" else f"{count * 5} mm"


def certify(inputs: BuildInput, progress: Progress) -> Build:
    """Return the hood with its clearance proven over every position of the joints, board by board.

    Ends after `CERTIFY_SECONDS`, or when `progress` says so; what is not done by then is said.
    """
    made, under = built(form_of(inputs.value, inputs.stated)), machine(inputs)
    if under is None:
        raise KitError("there is no machine whose clearance could be certified; link a swept envelope, or enter boxes")
    found = gaps(under.moving, made.boards, made.openings)
    proof = certificate(under, made, CERTIFY_SECONDS, progress)
    proven = [_certified(proof, inputs.value["margin"], under.error), _joined(made)]
    return _made(inputs, made, under, found, proven)


def _joined(made: Built) -> Check:
    """Return the check on the boards as solids, by booleans."""
    missing, shared = joined(made.boards, made.shell)
    words = (
        f"joined as solids, the boards miss {missing:.0e} of the shell's volume, and no two share more than "
        f"{shared:.0e} of it"
    )
    return fact("joined", max(missing, shared) <= CLOSED, words, "choose faces that lean less", origin="certificate")


def _certified(proof: Proof, wanted: float, error: float) -> Check:
    """Return the check on what is proven of the whole hood."""
    if proof.done < proof.pairs:
        words = f"only {proof.done} of {proof.pairs} pairs of board and part are certified: stopped, or time was over"
        return fact("certified", False, words, "start it again and let it run", origin="certificate")
    bound = "" if proof.complete else "; time was over before a closer bound was reached"
    return compare(
        "certified",
        "certified over every position: the machine's clearance, less the {} that the scan may be off, is at least",
        proof.least - error,
        wanted,
        sense=">=",
        resolution=0.1,
        mend=_room(proof.board),
        says=(Shown(error, resolution=0.1),),
        where=f"tightest at the {proof.board}{bound}",
        origin="certificate",
    )


TASKS = {"Certify the clearance": certify}
