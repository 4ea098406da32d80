"""What sewn cloth brings to the lists: its mass, thread and staples."""

from __future__ import annotations

from typing import Any

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Need, Piece
from kit.geometry.outline.sides import sides
from kit.subjects.bodies import sheet_body, strip
from kit.subjects.cloth.chute_pieces import Hung
from kit.subjects.cloth.geometry.pattern import Pattern
from kit.subjects.cloth.pattern_sewing import needle_for, thread_words

RULINGS = 97  # of a chute, at most, where the whole station is seen


def lists(inputs: BuildInput, built: Built) -> Lists:
    """Return the cloth of all pieces, hems and seam allowances included, and what it is sewn and stapled with."""
    build = built()
    case, pattern = inputs.case, build.data if isinstance(build.data, Pattern) else build.data.pattern
    row = case.table("cloths").row(case.picks["cloth"])
    area, thread, staples = (build.number(name).base for name in ("cloth", "thread", "staples"))
    pieces = tuple(Piece(piece.name, piece.count, sides(piece.cut), row.id) for piece in pattern.pieces)
    needle = needle_for(case)
    needs = [Need(f"sewing thread, {thread_words(needle)}" if needle else "sewing thread", thread, "m")]
    if needle and thread:
        needs.append(Need(f"needle of a sewing machine, {needle.id}, and one to spare", 2, tool=True))
    if staples:
        needs.append(Need("staples", staples))
    mass = area * row.entry("mass_per_area").base if "mass_per_area" in row else None
    missing = () if mass else (f"the mass of {row.id} is not known; state it in a table of the job",)
    return Lists((_body(build.data, mass),), pieces, tuple(needs), open=missing)


def _body(made: Any, mass: float | None) -> Body:
    """Return the cloth as it hangs, what is folded over counted as if it lay all over it."""
    if not isinstance(made, Hung):
        return Body("cloth, cut", mass)
    rulings = made.development.strip
    return sheet_body("cloth, cut", *strip(rulings.a, rulings.b, RULINGS), mass)
