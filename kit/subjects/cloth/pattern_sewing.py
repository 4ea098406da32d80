"""With what and in what order a pattern is sewn: needle, thread, stitch; each seam's way, and why it comes next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kit.core.build import LateTable, Table
from kit.core.model import Case
from kit.core.quantity import Display, show
from kit.core.tables import Row
from kit.subjects.cloth.geometry.pattern import Pattern, Piece, SewEdge
from kit.subjects.cloth.geometry.sewing import RUNS, Step, stitched_thread
from kit.subjects.cloth.pattern_drawing import corners_of

TEX = 1e-12
"""t/mm: 1 g of thread in 1000 m."""
FINE = 1e-15  # t/mm²


def needle_for(case: Case) -> Row | None:
    """Return the needle, with its thread and stitch, for the cloth of a case; None where none is known."""
    cloth = case.table("cloths").row(case.picks["cloth"])
    if "mass_per_area" not in cloth:
        return None
    fitting = (row for row in case.table("needles") if row["cloth_most"] >= cloth["mass_per_area"] - FINE)
    return min(fitting, key=lambda row: row["cloth_most"], default=None)


def thread_words(needle: Row) -> str:
    """Return the size of the thread that goes through a needle."""
    return f"tex {needle['thread_size'] / TEX:.0f}"


def with_what(case: Case, display: Display) -> Table:
    """Return needle, thread and stitch for the cloth, and how much thread two kinds of stitches take."""

    def rows() -> Iterator[tuple[str, ...]]:
        needle, stitch = needle_for(case), case.base["stitch"]
        if needle is None:
            yield "needle", "not known for this cloth", "ask who sells it; state the cloth's mass in a table of the job"
        else:
            entry = needle.entry("blade")
            blade, usual = (show(needle[name], "mm", display, resolution=0.1) for name in ("blade", "stitch"))
            yield "needle", needle.id, f"blade {blade} thick, a hundredth of the number; {entry.source}"
            yield "thread", thread_words(needle), f"g of 1000 m; polyester outdoors; {entry.source}"
            yield "stitch", show(stitch, "mm", display, resolution=0.1), f"{usual} is usual for this cloth"
        for kind, name in (("301", "lockstitch"), ("401", "chainstitch of two threads")):
            rate = stitched_thread(1.0, 2 * case.base["cloth_thickness"], stitch, RUNS[kind])
            yield f"thread, {name}", f"{rate:.2f} times the seam", f"stitch type {kind} of ISO 4915, through two plies"
        yield "first", "sew a strip of scrap", "through as many plies, and look at both sides"

    return LateTable("Needle, thread and stitch", ("what", "size", "about it"), rows)


def plan(steps: Sequence[Step], pattern: Pattern) -> list[Table]:
    """Return from where to where each seam is sewn, and why it comes now; none if nothing is sewn.

    All seams of a row run the same way, as the feed pushes the lower ply back alike in each; a seam that crosses others
    runs from pieces that were sewn first to pieces that were sewn later, toward which the allowances lie.
    """
    if not steps:
        return []
    pieces = {piece.name: piece for piece in pattern.pieces}
    later = {step.lay: number for number, step in enumerate(steps, 1) if step.kind == "join"}

    def rows() -> Iterator[tuple[str, ...]]:
        for number, step in enumerate(steps, 1):
            yield str(number), step.seam.name, _way(step, pieces, later), _why(step, number == 1)

    return [LateTable("Sewing plan", ("step", "seam", "sew", "why now, and why so"), rows)]


def _way(step: Step, pieces: dict[str, Piece], later: dict[str | None, int]) -> str:
    if step.kind == "dart":
        return "from the edge to the tip; leave long ends and knot them"
    if step.kind == "hem":
        return "from the pieces sewn first toward those sewn last"
    both = [name for name in (step.seam.piece, step.seam.other) if name in pieces]
    first = min(both, key=lambda name: later.get(name, 0), default="")
    found = _edge(pieces[first], step.seam.name) if first else None
    ends = _ends(pieces[first], found) if found else ""
    return f"from {ends} of {first}" if ends else "from the hemmed end to the other"


def _edge(piece: Piece, name: str) -> SewEdge | None:
    return next((edge for edge in piece.edges if edge.name in (name, f"{name}'")), None)


def _ends(piece: Piece, edge: SewEdge) -> str:
    """Return the letters at both ends of an edge, where its ends are corners."""
    letters = {tuple(corner): letter for letter, corner in corners_of(piece).items()}
    ends = [letters.get(tuple(edge.line[k])) for k in (0, -1)]
    return f"{ends[0]} to {ends[1]}" if all(ends) else ""


def _why(step: Step, is_first: bool) -> str:
    if step.kind == "dart":
        return "the piece still lies alone and flat; later the edge is sewn over the dart"
    if step.kind == "join":
        begin = "two pieces lie flat" if is_first else "one more piece, while all still lies flat"
        return f"{begin}; with its allowance toward {step.lay} the next stitch across runs off its edge"
    if step.kind == "close":
        return (
            "makes a ring, which no longer lies flat: after all seams that can be sewn flat, the longest first; with "
            f"its allowance toward {step.lay} the hem runs off its edge"
        )
    return "crosses seams: after all of them, and in the direction in which the foot runs off every allowance"
