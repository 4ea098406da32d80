"""The drop chute laid flat: its surface with right rulings, its seams, and the pattern to cut, sew and staple."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from numpy.typing import NDArray

from kit.core.build import Build, BuildInput, LateTable, Number, Picture, Progress, Table
from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display, show
from kit.core.verdict import Check, compare, fact
from kit.drawing.scene import Scene
from kit.drawing.table_files import csv_output
from kit.geometry.development.arrays import lengths_along
from kit.geometry.development.develop import Development
from kit.geometry.ties import rough
from kit.subjects.cloth import pattern_tables as skin_tables
from kit.subjects.cloth.chute_pieces import Hung, developed, naive, panels, refined, sizes, start_side
from kit.subjects.cloth.developability_plot import refinement_plot
from kit.subjects.cloth.geometry.assembly import Assembly, Making
from kit.subjects.cloth.geometry.chute_surface import SIDES, Chute, laid_out
from kit.subjects.cloth.geometry.consumption import check_width, extent
from kit.subjects.cloth.geometry.covering import CoveredPanel
from kit.subjects.cloth.geometry.hems import HemError, Tolerance
from kit.subjects.cloth.geometry.pattern import Finish, Pattern
from kit.subjects.cloth.geometry.seams import part_at, propose_seams
from kit.subjects.cloth.geometry.sewing import (
    Seam,
    lockstitch_thread,
    sewing_order,
    staple_count,
    thread_to_buy,
)
from kit.subjects.cloth.pattern_drawing import pattern_scene
from kit.subjects.cloth.pattern_files import model_picture, pattern_outputs
from kit.subjects.cloth.pattern_inputs import measured_of
from kit.subjects.cloth.pattern_sewing import plan, with_what
from kit.subjects.cloth.skin_drawing import add_form, skin_view
from kit.subjects.cloth.strain_map import strain_map

if TYPE_CHECKING:
    from kit.drawing.plots import Figure

UNPROVEN = "it is not proven yet that it can be laid flat"
SOME = 25  # rulings in the table
QUICK = 9.0  # times the chord error while a control moves: a third of the rulings
FEW = 12  # rulings among which seams are sought meanwhile
WORN = 2e5  # mm² of cloth that keeping a ruling's seam off the worn side is worth
OPENING = ("hem", "raw")  # finishes of the edge round the opening: its hem, or as cut where the hem does not fit
Floats = NDArray[np.float64]


def build(inputs: BuildInput) -> Build:
    """Return the chute's pattern with its numbers, pictures, tables and files.

    Raises:
        KitError: a shape, seam or allowance that cannot be made so.
    """
    value = inputs.base
    chute = sizes(value)
    coarse = inputs.quick and not _is_kept(inputs, chute)
    found = developed(chute, *_fine(value, coarse=coarse))
    seams = _seams(inputs, chute, found, coarse=coarse)
    misfit: tuple[Check, ...] = ()
    try:
        parted, made = laid_out(chute, found, seams, _making(value))
    except HemError as refusal:
        words, _, mend = str(refusal).partition("; ")
        misfit = (fact("hem", False, f"{words}: the pattern is shown without folds and notches there", mend),)
        parted, made = laid_out(chute, found, seams, _making(value, "raw"))
    hems = [
        Seam(edge.name, piece.name, None, edge.length)
        for piece in made.pattern.pieces
        for edge in piece.edges
        if edge.finish.kind in OPENING
    ]
    hung = Hung(chute, found, parted, made.pattern, sewing_order([*made.seams, *_named_apart(hems)]))
    tables = _tables(inputs, hung)
    return Build(
        numbers=_numbers(inputs, hung, made),
        checks=(*_limits(inputs, hung, seams), *misfit),
        open=(UNPROVEN,),
        cautions=skin_tables.cautions(made.pattern, inputs.display),
        pictures=_pictures(inputs, hung, made, _shown(inputs, made)),
        tables=tables,
        outputs=(
            *pattern_outputs(inputs, made, hung.steps),
            csv_output("seams", "seams in sewing order, for a spreadsheet", tables[1]),
            csv_output(
                "rulings",
                "every ruling: where it lies, its true length, twist and strain",
                _rulings(inputs, hung),
            ),
        ),
        data=hung,
        coarse=coarse,
    )


def _fine(value: Mapping[str, float], *, coarse: bool = False) -> tuple[str, float, float]:
    """Return where the first ruling stands, the chord error and the middle of the cloth, mm."""
    return start_side(value), value["chord_error"] * (QUICK if coarse else 1.0), value["cloth_thickness"] / 2


def _is_kept(inputs: BuildInput, chute: Chute) -> bool:
    """Whether the fine surface and its seams are known already, so that nothing coarse is needed."""
    fine = _fine(inputs.base)
    if not developed.knows(chute, *fine):
        return False
    found = developed(chute, *fine)
    return round(inputs.base["seam"]) < len(SIDES) or propose_seams.knows(found.strip, **_wanted(inputs, chute, found))


def _seams(inputs: BuildInput, chute: Chute, found: Development, *, coarse: bool) -> list[int]:
    """Return the rulings on which the seams lie: on middles of sides, or where they take the least cloth."""
    value = inputs.base
    if round(value["seam"]) < len(SIDES):
        return chute.seams(found, start_side(value), round(value["panels"]))
    return list(propose_seams(found.strip, **_wanted(inputs, chute, found, coarse=coarse)).seams)


def _wanted(inputs: BuildInput, chute: Chute, found: Development, *, coarse: bool = False) -> dict[str, Any]:
    """Return what is asked of seams that take the least cloth."""
    value = inputs.base
    worn = round(value["wear"])
    avoid = WORN * chute.on_side(found, SIDES[worn]) if worn < len(SIDES) else None
    margin = max(value["seam_allowance"], value["hem_margin"], value["clamp_margin"])
    wanted = {"panels": round(value["panels"]), "width": value["cloth_width"], "margin": margin, "avoid": avoid}
    return wanted | {"candidates": FEW} if coarse else wanted


def _making(value: Mapping[str, float], kind: Literal["hem", "raw"] = "hem") -> Making:
    """Return how the edges are finished, all from the model's values; `kind` says how the opening's edge is."""
    folds, depth, margin = 1 + round(value["hem_kind"]), value["hem_width"], value["hem_margin"]
    return Making(
        {
            "opening": Finish("hem", depth, folds, margin - folds * depth) if kind == "hem" else Finish("raw", margin),
            "hose": Finish("clamp", value["clamp_margin"]),
        },
        seam=Finish("seam", value["seam_allowance"]),
        tolerance=Tolerance(value["hem_strain"], value["cut_clear"]),
    )


def _named_apart(hems: Sequence[Seam]) -> list[Seam]:
    """Name the hems of several pieces apart, for the sewing order."""
    many = len({hem.piece for hem in hems}) > 1
    return [replace(hem, name=f"{hem.name} of {hem.piece}") if many else hem for hem in hems]


def _shown(inputs: BuildInput, made: Assembly) -> str:
    """Return the edge pointed out: the one that is stated, else the first seam."""
    names = [edge.name for piece in made.pattern.pieces for edge in piece.edges]
    shown_edge: str = inputs.stated["show"] or made.seams[0].name
    if shown_edge not in names:
        raise KitError(f"the chute has no edge {shown_edge!r} to show{near_misses(shown_edge, names)}")
    return shown_edge


def _length(pattern: Pattern, *kinds: str) -> float:
    """Return the length of all edges of these finishes together, mm."""
    return sum(edge.length for piece in pattern.pieces for edge in piece.edges if edge.finish.kind in kinds)


def _thread(value: Mapping[str, float], long: float, plies: float) -> float:
    """Return the thread for a seam through so many plies, mm."""
    thick = plies * value["cloth_thickness"]
    return thread_to_buy(lockstitch_thread(long, thick, value["stitch"]), value["thread_waste"])


def _numbers(inputs: BuildInput, hung: Hung, made: Assembly) -> tuple[Number, ...]:
    value, found = inputs.base, hung.development
    opening, hose = _length(hung.pattern, *OPENING), _length(hung.pattern, "clamp")
    sewn = sum(seam.length for seam in made.seams)
    thread = _thread(value, sewn, 2) + _thread(value, opening, value["hem_plies"])
    staples = staple_count(opening, value["staple_step"], ends=False)
    return (
        Number("rulings", "rulings of the surface", len(found.strip.a), "", resolution=1),
        Number("twist", "largest twist of a ruling, between its tangent planes", found.twist, "deg", resolution=1e-4),
        Number("strain", "strain that this twist asks for", found.strain, "%", resolution=1e-5),
        Number("fold", "largest fold between two facets", found.strip.largest_fold, "deg", resolution=0.01),
        Number("missed", "facets miss the surface by at most", found.chord_bound, resolution=0.001),
        Number("area", "area of the chute, from its pattern", found.flat.area, "m^2", resolution=100),
        Number("cloth", "cloth in all pieces, with allowances", skin_tables.area(hung.pattern), "m^2", resolution=100),
        Number("opening", "long edge, on the middle of the cloth", opening, resolution=0.1),
        Number("hose", "short edge, on the middle of the cloth", hose, resolution=0.1),
        Number("sewn", "all seams together", sewn, resolution=1),
        Number("thread", "thread for seams and hem, with what is lost", thread, "m", resolution=100),
        Number("staples", "staples round the opening", staples, "", resolution=1),
    )


def _limits(inputs: BuildInput, hung: Hung, seams: Sequence[int]) -> tuple[Check, ...]:
    value, found = inputs.base, hung.development
    checks = [
        compare(
            "flat",
            "the twist of its rulings strains the cloth by",
            found.strain,
            value["tolerated"],
            unit="%",
            resolution=1e-5,
            mend="let the opening and the hose face each other more",
        ),
        _fits(inputs, hung.pattern),
    ]
    worn = round(value["wear"])
    if worn < len(SIDES):
        on = int(hung.chute.on_side(found, SIDES[worn])[list(seams)].sum())
        count, lie = (
            f"{len(seams)} seam{'s' * (len(seams) > 1)}",
            f"{on or 'none'} {'lie' if on > 1 else 'lies'}",
        )
        words = f"of {count} {lie} on the {SIDES[worn]} side, where offcuts land"
        checks.append(fact("wear", not on, words, "lay the seam on another side, or take fewer panels"))
    return tuple(checks)


def _fits(inputs: BuildInput, pattern: Pattern) -> Check:
    """Say whether every piece lies on the cloth with its grain along the roll."""
    width = inputs.base["cloth_width"]
    wide = 0.0
    for piece in pattern.pieces:
        along = piece.grain[1] - piece.grain[0]
        angle = float(np.arctan2(along[1], along[0]))
        try:
            check_width(f"piece {piece.name}", piece.cut, width, angle)
        except KitError as error:
            message, _, mend = str(error).partition("; ")
            return fact("roll", False, message, mend)
        wide = max(wide, extent(piece.cut, angle)[1])
    return compare("roll", "the widest piece takes", wide, width, resolution=1, mend="take wider cloth")


def _tables(inputs: BuildInput, hung: Hung) -> tuple[Table, ...]:
    display, pattern = inputs.display, hung.pattern
    plies = {"hem": inputs.base["hem_plies"]}

    def rows() -> Iterator[tuple[str, ...]]:
        for number, step in enumerate(hung.steps, 1):
            yield (
                str(number),
                step.seam.name,
                {"join": "join lying flat", "close": "close to a tube", "hem": "hem"}[step.kind],
                show(step.seam.length, "mm", display, resolution=1),
                f"toward {step.lay}" if step.lay else "in the order of the pieces",
                show(_thread(inputs.base, step.seam.length, plies.get(step.kind, 2)), "m", display, resolution=10),
            )

    seams = LateTable("Seams", ("step", "seam", "how", "length", "lay the allowance", "thread"), rows)
    return (
        skin_tables.pieces(pattern, display),
        seams,
        *plan(hung.steps, pattern),
        with_what(inputs.case, display),
        skin_tables.diagonals(pattern, display),
        _rulings(inputs, hung, SOME),
        *skin_tables.sewn(pattern, measured_of(inputs.stated["measured"]), display),
    )


def _rulings(inputs: BuildInput, hung: Hung, most: int | None = None) -> Table:
    """Return all rulings, or about so many of them: what a person lays out by hand, and the proof for each of them."""
    strip, display = hung.development.strip, inputs.display

    def rows() -> Iterator[tuple[str, ...]]:
        edges = [lengths_along(line) for line in (hung.development.flat.a, hung.development.flat.b)]
        long, strain = np.linalg.norm(strip.b - strip.a, axis=1), strip.strain
        some = np.linspace(0, len(long) - 1, len(long) if most is None else most)
        for k in np.unique(some.astype(int)).tolist():
            yield (
                str(k + 1),
                *(show(float(edge[k]), "mm", display, resolution=0.1) for edge in edges),
                show(float(long[k]), "mm", display, resolution=0.1),
                show(float(strip.defect[k]), "deg", display, resolution=1e-4),
                show(float(strain[k]), "%", display, resolution=1e-5),
            )

    heads = ("ruling", "along the opening", "along the hose", "true length", "twist", "strain")
    return LateTable("Rulings", heads, rows)


def _pictures(inputs: BuildInput, hung: Hung, made: Assembly, shown: str) -> tuple[Picture, ...]:
    limit = (inputs.base["tolerated"], inputs.base["tolerated"])

    def beside(display: Display) -> Scene:
        scene = pattern_scene(hung.pattern, display, highlight=shown, order=hung.steps, full=False)
        add_form(scene, panels(hung), shown)
        return scene

    def strained(found: Sequence[CoveredPanel], _display: Display) -> Figure:
        return strain_map([piece for panel in found for piece in panel.pieces], limit)

    return (
        Picture(
            "pattern",
            "Flat pattern and form",
            f"the pieces laid flat, and the same pieces as the chute hangs; the edge {shown} is drawn bold in both",
            beside,
            (hung.development, hung.parted, hung.pattern, shown),
        ),
        Picture(
            "form",
            "The chute in space",
            f"the opening on top, the hose below; the edge {shown} is drawn bold",
            lambda _display: skin_view(panels(hung), shown, "Drop chute"),
            (hung.development, hung.parted, hung.pattern, shown),
        ),
        Picture(
            "names",
            "Edges and corners",
            "every edge has its name, every corner of a piece its letter",
            lambda display: pattern_scene(hung.pattern, display, full=False, names=True),
        ),
        Picture(
            "strain",
            "Strain of the threads",
            "colors, lines of equal strain with numbers, and the worst place, along and across the rulings",
            lambda display: strained(panels(hung), display),
        ),
        Picture(
            "equal",
            "Strain with equal shares",
            "the same map if equal shares of both edges were joined: the shape that every length would pass",
            lambda display: strained([naive(inputs)], display),
        ),
        Picture(
            "refined",
            "Doubling the rulings",
            "the largest fold over the number of rulings: halved by each "
            "doubling with right rulings, unmoved with equal shares",
            lambda _display: refinement_plot(refined(inputs)),
        ),
        model_picture(inputs, made),
    )


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return the side for the seam that takes the least cloth, off the side where offcuts land."""
    value = inputs.base
    chute, count = sizes(value), round(value["panels"])
    worn = round(value["wear"])
    cost = {}
    for side in SIDES:
        found = developed(chute, side, value["chord_error"], value["cloth_thickness"] / 2)
        seams = chute.seams(found, side, count)
        on = worn < len(SIDES) and chute.on_side(found, SIDES[worn])[seams].any()
        cost[side] = part_at(found.strip, seams).cloth + WORN * on
    return {"seam": min(SIDES, key=lambda side: rough(cost[side]))}


def _proved(inputs: BuildInput, progress: Progress) -> Build:
    """Return the chute with the proof that it can be laid flat: doubled rulings must halve the largest fold."""
    made = build(inputs)
    if not progress(0.1, "doubling the rulings"):
        return made
    found = refined(inputs)
    right = found["right rulings"]
    rows = tuple(
        (name, str(count), show(fold, "deg", inputs.display, resolution=1e-4))
        for name, each in found.items()
        for count, fold in zip(each.rulings, each.folds, strict=True)
    )
    words = (
        f"the largest fold comes down to {right.ratios[-1]:.2f} of itself when the rulings are doubled, 0.60 at most "
        "for a surface that can be laid flat"
    )
    proved = fact("proved", right.holds, words, "let the opening and the hose face each other more")
    table = Table("Refined", ("rulings join", "rulings", "largest fold"), rows)
    return replace(made, checks=(*made.checks, proved), open=(), tables=(*made.tables, table))


TASKS = {"Prove that it can be laid flat": _proved}
