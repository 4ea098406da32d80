"""The skin of a hood: panels over its frame's edge curves, laid flat, as a pattern to cut, sew and staple."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from kit.core.build import Build, BuildInput, Number, Picture, Progress, Table
from kit.core.errors import KitError, near_misses
from kit.core.quantity import Display, show
from kit.core.verdict import Check, compare, fact
from kit.drawing.scene import Scene
from kit.drawing.table_files import csv_output
from kit.geometry.development.arrays import Floats, lengths_along
from kit.geometry.development.curves import Curve
from kit.geometry.development.develop import Development, develop, refine
from kit.geometry.remembered import remembered
from kit.geometry.ties import rough
from kit.subjects.cloth import pattern_tables as skin_tables
from kit.subjects.cloth.geometry.assembly import Assembly, Making, skin_pattern
from kit.subjects.cloth.geometry.consumption import check_width, extent
from kit.subjects.cloth.geometry.covering import Asked, CoveredPanel, CoverSettings, cover_panel, facing, middle_of
from kit.subjects.cloth.geometry.pattern import Finish, Pattern, base, is_dart
from kit.subjects.cloth.geometry.seams import propose_seams
from kit.subjects.cloth.geometry.sewing import Seam, Step, sewing_order
from kit.subjects.cloth.pattern_drawing import pattern_scene
from kit.subjects.cloth.pattern_files import model_picture, pattern_outputs
from kit.subjects.cloth.pattern_inputs import measured_of
from kit.subjects.cloth.pattern_sewing import plan, with_what
from kit.subjects.cloth.skin_drawing import add_form, skin_view
from kit.subjects.cloth.skin_inputs import Frame, cutouts_of, frame_of
from kit.subjects.cloth.strain_map import strain_map

if TYPE_CHECKING:
    from kit.drawing.plots import Figure

TAKES = {"frame": "hood frame"}
QUICK = 9.0  # times the chord error while a control moves: a third of the points
UNPROVEN = "it is not proven yet that its panels can be laid flat"
MISSED = "by how much facets miss the shape is told when the control rests"


@dataclass(frozen=True)
class Skin:
    """A skin as other builds take it: its pattern, seams in sewing order, and its panels in space."""

    pattern: Pattern
    steps: tuple[Step, ...]
    panels: tuple[CoveredPanel, ...]


def build(inputs: BuildInput) -> Build:
    """Return the skin's pattern with its numbers, pictures, tables and files.

    Raises:
        KitError: a frame, seam or hem that cannot be made so.
    """
    frame, finish = frame_of(inputs)
    fine = _settings(inputs)
    cloth = (inputs.base["cloth_width"], inputs.base["seam_allowance"]) if frame.parting else (0.0, 0.0)
    coarse = inputs.quick and not covered.knows(frame, fine, *cloth)
    panels = covered(frame, replace(fine, chord=QUICK * fine.chord) if coarse else fine, *cloth)
    made = skin_pattern("skin", panels, _making(inputs, panels, finish))
    for piece in made.pattern.pieces:
        angle = next(flat.grain for panel in panels for flat in panel.pieces if flat.name == piece.name)
        check_width(f"piece {piece.name}", piece.cut, inputs.base["cloth_width"], angle)
    hems = [
        Seam(edge.name, piece.name, None, edge.length)
        for piece in made.pattern.pieces
        for edge in piece.edges
        if edge.finish.kind == "hem"
    ]
    steps = sewing_order([*made.seams, *hems])
    skin = Skin(made.pattern, steps, panels)
    shown = _shown(inputs, made)
    measured = measured_of(inputs.stated["measured"])
    tables = [
        skin_tables.pieces(made.pattern, inputs.display),
        *skin_tables.seams(inputs.case, steps, made.pattern, inputs.display),
        *plan(steps, made.pattern),
        *([with_what(inputs.case, inputs.display)] if steps else []),
        *skin_tables.staples(inputs.case, made.pattern, inputs.display),
        *skin_tables.cuts(panels, inputs.display),
        skin_tables.diagonals(made.pattern, inputs.display),
        *skin_tables.sewn(made.pattern, measured, inputs.display),
    ]
    return Build(
        numbers=_numbers(inputs, skin, made),
        checks=_limits(inputs, panels, coarse=coarse),
        open=(*((MISSED,) if coarse else ()), *((UNPROVEN,) if _ruled(frame) else ())),
        cautions=(
            *skin_tables.folded(panels, inputs.display),
            *skin_tables.cautions(made.pattern, inputs.display),
        ),
        pictures=_pictures(inputs, skin, made, shown),
        tables=tuple(tables),
        outputs=(
            *pattern_outputs(inputs, made, steps),
            csv_output("pieces", "pieces, for a spreadsheet", tables[0]),
        ),
        data=skin,
        coarse=coarse,
    )


@remembered(most=16)
def covered(frame: Frame, settings: CoverSettings, width: float, margin: float) -> tuple[CoveredPanel, ...]:
    """Return the panels of a frame laid flat; each is kept, so that only what a control changes is computed anew.

    width, margin: of the cloth and round each piece, mm, for the seams that are proposed, if any are.

    Raises:
        KitError: a seam that is asked for on a panel or at a place that is not there.
    """
    _middle(frame)
    # What threads take does not concern a ruled panel: nothing can be cut out of it.
    ruled = replace(settings, limit=CoverSettings().limit)
    found = []
    for panel in frame.panels:
        if panel.name in frame.parting:
            panel = replace(panel, seams=_seams(frame, panel, settings.chord, width, margin))
        found.append(_panel(frame, panel, ruled if len(panel.edges) == 2 else settings))
    return tuple(found)


@remembered(most=64)
def _seams(frame: Frame, panel: Asked, chord: float, width: float, margin: float) -> tuple[int, ...]:
    """Return the rulings at which a panel is parted: nearest to the places stated, or so that it takes least cloth.

    A seam that is proposed lies in a stretch to be kept clear of seams only where there is no other way.
    """
    names = facing(frame.curves, panel, _middle(frame))
    strip = _developed(frame, *names, chord).strip
    wanted = frame.parting[panel.name]
    along = lengths_along(strip.a if names[0] == panel.edges[0] else strip.b)
    if isinstance(wanted, int):
        struck = np.zeros(len(along), dtype=bool)
        for low, high in frame.kept_clear.get(panel.name, ()):
            struck |= (low <= along) & (along <= high)
        worth = struck * 10.0 * float(strip.areas.sum())  # more than any parting can save
        return propose_seams(strip, panels=wanted, width=width, margin=margin, avoid=worth).seams
    for place in wanted:
        if not 0 < place < along[-1]:
            raise KitError(
                f"A seam of the panel {panel.name} is entered at {place:g} mm along {panel.edges[0]}, which is "
                f"{along[-1]:.0f} mm long; choose a place between its ends"
            )
    return tuple(sorted({int(np.abs(along - place).argmin()) for place in wanted} - {0, len(along) - 1}))


@remembered(most=16)
def _middle(frame: Frame) -> Floats:
    return middle_of(frame.curves, frame.panels)


@remembered(most=64)
def _panel(frame: Frame, panel: Asked, settings: CoverSettings) -> CoveredPanel:
    def developer(low: Curve, high: Curve, chord: float) -> Development:
        return _developed(frame, low.name, high.name, chord)

    return cover_panel(frame.curves, panel, settings, _middle(frame), developer)


@remembered(most=64)
def _developed(frame: Frame, low: str, high: str, chord: float) -> Development:
    return develop(frame.curves[low], frame.curves[high], chord=chord)


def _settings(inputs: BuildInput) -> CoverSettings:
    value = inputs.base
    return CoverSettings(
        value["chord_error"],
        value["offset"],
        (value["warp_limit"], value["weft_limit"]),
        not round(value["along"]),
        value["edge_radius"] + value["offset"],
    )


def _making(inputs: BuildInput, panels: Sequence[CoveredPanel], finish: Mapping[str, str]) -> Making:
    """Return how the edges are finished, all from the model's values."""
    value = inputs.base
    folds = 1 + round(value["hem_kind"])
    ways = {
        "staple": Finish("staple", value["staple_margin"], line=value["staple_line"]),
        "hem": Finish("hem", value["hem_width"], folds, value["hem_margin"] - folds * value["hem_width"]),
        "seam": Finish("seam", value["seam_allowance"]),
        "raw": Finish(),
    }
    names = [edge.name for panel in panels for piece in panel.pieces for edge in piece.edges]
    owners: dict[str, set[str]] = {}
    for panel in panels:
        for piece in panel.pieces:
            for edge in piece.edges:
                owners.setdefault(base(edge.name), set()).add(panel.asked.name)
    chosen = {edge: ways[way] for edge, way in finish.items() if edge not in owners}  # refused by its name
    for name in names:
        whole = base(name)
        if whole in finish:
            chosen[name] = ways[finish[whole]]
        elif names.count(name) == 1 and len(owners[whole]) == 1 and not is_dart(name):
            chosen[name] = ways["staple"]
    return Making(
        chosen,
        seam=ways["seam"],
        marks=round(value["marks"]),
        corner=inputs.stated["corners"],
        holes=_placed(cutouts_of(inputs.stated["cutouts"]), panels),
    )


def _placed(cutouts: Mapping[str, Sequence[Floats]], panels: Sequence[CoveredPanel]) -> dict[str, list[Floats]]:
    """Return cut-outs on their pieces: stated from corner A, x toward corner B, where the first edge ends."""
    first = {piece.name: piece.edges[0].line for panel in panels for piece in panel.pieces}
    placed: dict[str, list[Floats]] = {}
    for name, outlines in cutouts.items():
        line = first.get(name, np.eye(2))  # a piece that is not there is refused by its name
        x = (line[-1] - line[0]) / np.hypot(*(line[-1] - line[0]))
        turn = np.array([[x[0], -x[1]], [x[1], x[0]]])
        placed[name] = [outline @ turn.T + line[0] for outline in outlines]
    return placed


def _shown(inputs: BuildInput, made: Assembly) -> str:
    """Return the edge pointed out: the one that is stated, else the longest seam, else the first edge."""
    names = [edge.name for piece in made.pattern.pieces for edge in piece.edges]
    wanted: str | None = inputs.stated["show"]
    if wanted:
        if wanted not in names:
            raise KitError(f"the skin has no edge {wanted!r} to show{near_misses(wanted, names)}")
        return wanted
    longest = max(made.seams, key=lambda seam: rough(seam.length), default=None)
    return longest.name if longest else names[0]


def _numbers(inputs: BuildInput, skin: Skin, made: Assembly) -> tuple[Number, ...]:
    seams = sum(seam.length for seam in made.seams)
    stapled = [edge for piece in made.pattern.pieces for edge in piece.edges if edge.finish.kind == "staple"]
    ruled = [panel.development for panel in skin.panels if panel.development is not None]
    found = [
        Number("pieces", "pieces to cut", sum(piece.count for piece in made.pattern.pieces), "", resolution=1),
        Number("cloth", "cloth in all pieces, with allowances", skin_tables.area(made.pattern), "m^2", resolution=1e3),
        Number("sewn", "all seams together", seams, resolution=1),
        Number(
            "thread", "sewing thread with what is lost", skin_tables.thread(inputs.case, seams), "m", resolution=100
        ),
        Number(
            "staples", "staples on all rails", sum(skin_tables.staple_counts(inputs.case, stapled)), "", resolution=1
        ),
        Number(
            "warp",
            "largest strain along the warp",
            max(panel.largest[0] for panel in skin.panels),
            "%",
            resolution=1e-4,
        ),
        Number(
            "weft",
            "largest strain along the weft",
            max(panel.largest[1] for panel in skin.panels),
            "%",
            resolution=1e-4,
        ),
        Number(
            "missed",
            "facets miss the shape, or the edges of a doubly bent panel, by at most",
            max(panel.missed for panel in skin.panels),
            resolution=0.001,
        ),
    ]
    if ruled:
        twist = max(each.twist for each in ruled)
        said = "largest twist of a ruling: tangent planes at its ends disagree by"
        found.append(Number("twist", said, twist, "deg", resolution=1e-4))
    return tuple(found)


def _limits(inputs: BuildInput, panels: Sequence[CoveredPanel], *, coarse: bool) -> tuple[Check, ...]:
    """Return one limit for each thread, said for the panel that strains it most, and one for facets that are fine."""
    checks = []
    if not coarse:
        missed = max(panel.missed for panel in panels)
        facets = compare(
            "facets",
            "facets miss the shape by",
            missed,
            inputs.base["chord_error"],
            resolution=1e-3,
            mend="allow a larger chord error, or part the panel",
        )
        checks.append(facets)
    for number, thread in enumerate(("warp", "weft")):
        allowed = inputs.base[f"{thread}_limit"]
        worst = max(panels, key=lambda panel: panel.largest[number])
        strain = worst.largest[number]
        checks.append(
            compare(
                thread,
                f"the {thread} of the {worst.asked.name} is strained by",
                strain,
                allowed,
                unit="%",
                resolution=1e-4,
                mend="part that panel by another edge curve",
            )
        )
    return tuple(checks)


def _pictures(inputs: BuildInput, skin: Skin, made: Assembly, shown: str) -> tuple[Picture, ...]:
    def beside(display: Display) -> Scene:
        scene = pattern_scene(skin.pattern, display, highlight=shown, order=skin.steps, full=False)
        add_form(scene, skin.panels, shown)
        return scene

    def strains(_display: Display) -> Figure:
        flat = [piece for panel in skin.panels for piece in panel.pieces]
        return strain_map(flat, (inputs.base["warp_limit"], inputs.base["weft_limit"]))

    names = ", ".join(piece.name for piece in skin.pattern.pieces)
    return (
        Picture(
            "pattern",
            "Flat pattern and form",
            f"pieces {names} laid flat, and the same panels on the frame; the edge {shown} is drawn bold in both",
            beside,
            (skin.pattern, *skin.panels, shown),
        ),
        Picture(
            "form",
            "The skin in space",
            f"the panels on the frame; the edge {shown} is drawn bold",
            lambda _display: skin_view(skin.panels, shown, "Skin on its frame"),
            (*skin.panels, shown),
        ),
        Picture(
            "strain",
            "Strain of the threads",
            "colors, lines of equal strain with numbers, and the worst place, along the warp and along the weft",
            strains,
        ),
        Picture(
            "names",
            "Edges and corners",
            "every edge has its name, every corner of a piece its letter",
            lambda display: pattern_scene(skin.pattern, display, full=False, names=True),
        ),
        model_picture(inputs, made),
    )


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return the lengths that the pages' formulas ask for, as the pattern has them."""
    made = build(inputs)
    pattern: Pattern = made.data.pattern
    seams = made.number("sewn").base
    stapled = max(
        (edge.length for piece in pattern.pieces for edge in piece.edges if edge.finish.kind == "staple"),
        default=0.0,
    )
    grain = {flat.name: flat.grain for panel in made.data.panels for flat in panel.pieces}
    wide = max(extent(piece.outline, grain[piece.name])[1] for piece in pattern.pieces)
    texts = {"seam_length": seams, "stapled_length": stapled, "panel_width": wide}
    return {name: show(base, "mm", inputs.display, resolution=1.0) for name, base in texts.items() if base > 0}


def _ruled(frame: Frame) -> list[Asked]:
    return [panel for panel in frame.panels if len(panel.edges) == 2]


def _proved(inputs: BuildInput, progress: Progress) -> Build:
    """Return the skin with the proof that its ruled panels are developable: finer rulings must halve the folds."""
    made = build(inputs)
    frame, _ = frame_of(inputs)
    ruled = _ruled(frame)
    checks, rows = [], []
    for number, panel in enumerate(ruled):
        if not progress(number / len(ruled), f"refining the panel {panel.name}"):
            return made
        low, high = (frame.curves[edge] for edge in panel.edges)
        found = refine(low, high, chord=2 * inputs.base["chord_error"], doublings=3)
        ratio = found.ratios[-1]
        folds = [show(each, "deg", inputs.display, resolution=1e-4) for each in found.folds]
        rows += [(panel.name, str(count), fold) for count, fold in zip(found.rulings, folds, strict=True)]
        words = (
            f"the folds of the {panel.name} come down to {ratio:.2f} of themselves when its rulings are doubled, 0.60 "
            "at most for a surface that can be laid flat"
        )
        checks.append(fact(f"flat_{number + 1}", found.holds, words, "put another edge curve between its two edges"))
    if not rows:
        return made
    table = Table("Refined", ("panel", "rulings", "largest fold"), tuple(rows))
    return replace(made, checks=(*made.checks, *checks), open=(), tables=(*made.tables, table))


TASKS = {"Prove that panels can be laid flat": _proved}
