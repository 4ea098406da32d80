"""What sewn cloth brings to the lists: its mass, thread and staples."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Body, Built, Lists, Need, Piece
from kit.geometry.outline.sides import sides
from kit.subjects.cloth.geometry.pattern import Pattern


def lists(inputs: BuildInput, built: Built) -> Lists:
    """Return the cloth of all pieces, hems and seam allowances included, and what it is sewn and stapled with."""
    build = built()
    case, pattern = inputs.case, build.data if isinstance(build.data, Pattern) else build.data.pattern
    row = case.table("cloths").row(case.picks["cloth"])
    area, thread, staples = (build.number(name).base for name in ("cloth", "thread", "staples"))
    pieces = tuple(Piece(piece.name, piece.count, sides(piece.cut), row.id) for piece in pattern.pieces)
    needs = [Need("sewing thread", thread, "m")] + ([Need("staples", staples)] if staples else [])
    if "mass_per_area" not in row:
        missing = f"the mass of {row.id} is not known; state it in a table of the job"
        return Lists((), pieces, tuple(needs), open=(missing,))
    mass = area * row.entry("mass_per_area").base
    return Lists((Body("cloth, cut", mass),), pieces, tuple(needs))
