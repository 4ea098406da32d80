"""What is checked of the machine under a hood: that it is under it, sampled clearance, what stands, the certificate.

A surface that was scanned may be off by the scan's error; it is taken off a clearance once, here, and said.
"""

from __future__ import annotations

import numpy as np

from kit.core.verdict import Check, Origin, Shown, compare, fact
from kit.geometry.remembered import remembered
from kit.subjects.hood.certificate import Proof
from kit.subjects.hood.geometry.form import TOP
from kit.subjects.hood.geometry.gaps import TOUCH, Gap, gaps, room_left
from kit.subjects.hood.geometry.under import Outside, Room, farthest_out, outside, reaches
from kit.subjects.hood.hood_boards import HoodBoards
from kit.subjects.hood.machine import Machine

UNJUDGED = "no clearance is stated while the machine is not under the hood"
MOVE = "move the machine's zero or the hood's faces, or drop that piece from the scan if it is none of the machine"
LESS = ", {} less {} for the scan's error,"
RESOLUTION = 0.1  # [mm] to which a clearance is stated


def sampled_checks(found: Gap, made: HoodBoards, machine: Machine, wanted: float) -> list[Check]:
    """Return the checks on the machine at its sampled positions: under the hood, its tightest board, what stands."""
    where = f"sampled at {machine.poses} positions" if machine.poses > 1 else "in its one position"
    room = Room(made.form.faces(), below=machine.joined)
    out = _out(made, machine)
    if out is not None:
        checks = [_outside(out, machine, where), fact("clearance", False, UNJUDGED, where=where)]
    else:
        checks = [_under(made, machine, where), _clear(found, machine.error, wanted, where)]
    return [*checks, *_standing(made, machine, room)]


@remembered(16)
def _out(made: HoodBoards, machine: Machine) -> Outside | None:
    """Return what is outside at the sampled positions; kept, for many givens move no board."""
    room = Room(made.form.faces(), below=machine.joined)
    return outside(machine.moving, machine.standing, room, machine.joined)


def certified_check(proof: Proof, machine: Machine, wanted: float) -> Check | None:
    """Return the check on what is proven of the whole hood: the proven bound, less the scan's error, is judged.

    None where the time did not suffice to decide: that is no fault of the hood, and `unproven` says it.
    """
    if proof.outside is not None:
        return _outside(proof.outside, machine, "", "certified", "not certified: ", "certificate")
    if unproven(proof, machine, wanted):
        return None
    if proof.sure(machine.error) <= 0.0:
        words = f"not certified: no clearance is proven at the {proof.board}"
        return fact("certified", False, words, room_words(proof.board), origin="certificate")
    less, says = _less(proof.least, machine.error)
    return compare(
        "certified",
        f"certified over every position: the machine is under the hood, and its proven clearance{less} is",
        proof.sure(machine.error),
        wanted,
        sense=">=",
        resolution=RESOLUTION,
        mend=room_words(proof.board),
        says=says,
        where=f"tightest at the {proof.board}",
        origin="certificate",
    )


def unproven(proof: Proof, machine: Machine, wanted: float) -> str:
    """Return what the time did not suffice to prove; empty where it is decided, either way."""
    if proof.outside is not None:
        return ""
    if not proof.under:
        return "it is not proven that the machine is under the hood in every position"
    if proof.done < proof.pairs:
        return f"only {proof.done} of {proof.pairs} pairs of board and part are certified: stopped, or time was over"
    if proof.complete or proof.sure(machine.error) >= wanted or proof.found - machine.error < wanted:
        return ""
    return f"time was over before a bound was reached that is close enough, at the {proof.board}"


def room_words(board: str) -> str:
    """Return what gives the machine more room at a board."""
    if board == TOP:
        return "raise the top"
    if board.startswith("rear"):
        return "let the rear corners take off less, or make them steeper"
    return f"move the {board}'s bottom edge out, or make that face steeper"


def _outside(
    out: Outside, machine: Machine, where: str, name: str = "under", begin: str = "", origin: Origin = "build"
) -> Check:
    """Return the check that fails: at which position of the machine a piece is outside, where, and how far."""
    values = machine.values(out.part, out.pose or 0) if out.joints is None else out.joints
    numbers = [Shown(out.away, resolution=RESOLUTION), *(Shown(float(x), resolution=1.0) for x in out.here)]
    piece = "a piece of it lies wholly outside" if out.wholly else "the middle of its surface lies outside"
    words = (
        f"{begin}the machine is not under the hood: {piece}, {{}} or more from the room inside; "
        f"position: {machine.position(out.part, values)}; the point: {{}}, {{}}, {{}}"
    )
    return fact(name, False, words, MOVE, *numbers, where=where, origin=origin)


def _under(made: HoodBoards, machine: Machine, where: str) -> Check:
    far, face = farthest_out(machine.moving, made.form.faces())
    if far <= 0.0:
        return fact("under", True, "the machine is under the hood in every position", where=where)
    words = f"the machine is under the hood in every position, but for what reaches {{}} out at the {face}"
    return fact("under", True, words, "", Shown(far, resolution=RESOLUTION), where=where)


def _clear(gap: Gap, error: float, wanted: float, where: str) -> Check:
    if gap.gap <= TOUCH:
        deep = ", {} deep" if gap.gap < -TOUCH else ""
        hits = f"the machine hits the {gap.board} board{deep}"
        number = Shown(-gap.gap, resolution=RESOLUTION)
        return fact("clearance", False, hits, room_words(gap.board), number, where=where)
    less, says = _less(gap.gap, error)
    return compare(
        "clearance",
        f"at the {gap.board} the machine's clearance{less} is",
        gap.gap - error,
        wanted,
        sense=">=",
        resolution=RESOLUTION,
        mend=room_words(gap.board),
        says=says,
        where=where,
    )


def _standing(made: HoodBoards, machine: Machine, room: Room) -> list[Check]:
    if machine.standing is None:
        return []
    if not reaches(machine.standing, room):
        words = "what stands still is not under the hood: nothing of it is inside"
        return [fact("standing", False, words, MOVE)]
    least, board = room_left(machine.standing, made.boards)
    if least <= 0.0:
        gap = min(gaps([machine.standing], made.boards, made.openings), key=lambda gap: gap.gap)
        least, board = gap.gap, gap.board
    mend = room_words(board) + ", or cut a notch"
    if least <= TOUCH:
        deep = ", {} deep" if least < -TOUCH else ""
        words = f"what stands under the hood runs into the {board} board{deep}"
        return [fact("standing", False, words, mend, Shown(-least, resolution=RESOLUTION))]
    less, says = _less(least, machine.error)
    words = f"what stands under the hood is at least {{}} from its boards, least at the {board}{less.rstrip(',')}"
    sure = Shown(least - machine.error, resolution=RESOLUTION)
    return [fact("standing", bool(np.greater(sure.base, 0.0)), words, mend, sure, *says)]


def _less(clear: float, error: float) -> tuple[str, tuple[Shown, ...]]:
    """Return the words on the scan's error, and the two numbers in them; neither where nothing was scanned."""
    if error <= 0.0:
        return "", ()
    return LESS, (Shown(clear, resolution=RESOLUTION), Shown(error, resolution=RESOLUTION))
