"""Parts laid out on a roll, on boards or on offcuts: the layout, the cut list, what to buy, and files to cut by."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import shapely
from shapely import Polygon

from kit.core.build import Build, BuildInput, Number, Output, Picture, Progress, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.verdict import Check, Shown, compare, fact
from kit.drawing.export import save
from kit.drawing.paper import paper_plan
from kit.drawing.table_files import csv_output
from kit.geometry.packing.check import faults
from kit.geometry.packing.pack import pack
from kit.geometry.packing.stock import TWO_WAY, CutPart, Cutting, Layout, Roll, Stock, board, each
from kit.geometry.packing.stored import restored
from kit.subjects.cutting.layout_drawing import layout_scene, page_for
from kit.subjects.cutting.stock_inputs import kept, layout_of, parts_of, ring, sheets_of

TAKES = {"first": "pieces to cut", "second": "pieces to cut", "third": "pieces to cut"}
NEW = "new board"
LONG = 10.0  # seconds that "Pack" takes
MOST_ALONE = 60  # parts of a page without a list


def build(inputs: BuildInput) -> Build:
    """Return the layout that was kept, or a quick one, with all that hangs on it.

    Raises:
        KitError: parts or stock that cannot be read, or a part that fits no stock.
    """
    asked = _asked(inputs)
    rows = layout_of(inputs.stated["layout"])
    if not rows:
        return _hasty(inputs, _quick(*asked))
    try:
        return _keeping(inputs, restored(rows, *asked))
    except KitError as error:
        quick, words = _hasty(inputs, _quick(*asked)), str(error)
        return replace(quick, cautions=(*quick.cautions, f"{words[0].upper()}{words[1:]}."))


def _hasty(inputs: BuildInput, layout: Layout) -> Build:
    """Return what hangs on a quick layout: where it fails a limit, a better one may hold, if the area suffices."""
    made = _made(inputs, layout)
    if sum(part.outline.area * part.count for part in layout.parts) > _room(inputs, layout):
        return made
    left = tuple(f"{check.words(inputs.display)}: this layout is a quick one" for check in made.checks if not check.ok)
    return replace(made, checks=tuple(check for check in made.checks if check.ok), open=left)


def _keeping(inputs: BuildInput, layout: Layout) -> Build:
    return replace(_made(inputs, layout), kept={"layout": kept(layout)})


@lru_cache(maxsize=16)
def _quick(parts: tuple[CutPart, ...], stock: Stock, cutting: Cutting) -> Layout:
    return pack(parts, stock, cutting, effort=0)


def _asked(inputs: BuildInput) -> tuple[tuple[CutPart, ...], Stock, Cutting]:
    """Return what is to be packed, onto what, and how it is cut."""
    value = inputs.base
    parts = parts_of(inputs.stated, inputs.takes, inputs.folder) or _alone(inputs)
    cutting = Cutting(value["margin"], value["kerf"])
    sheets, _ = sheets_of(inputs.stated["stock"], inputs.folder)
    if round(value["stock"]) == 0:
        if sheets:
            raise KitError(
                f"the stock {sheets[0].name} is stated, but the parts are cut from a roll; set stock to boards"
            )
        defects = tuple(Polygon(ring(each)) for each in inputs.stated["defects"])
        return parts, Roll("roll", value["width"], defects), cutting
    if inputs.stated["defects"]:
        raise KitError("defects are stated for a roll, but the parts are cut from boards; state them with each board")
    new = board(NEW, value["length"], value["width"], round(value["at_hand"]))
    return parts, (*sheets, new), cutting


def _alone(inputs: BuildInput) -> tuple[CutPart, ...]:
    """Return parts for a page without a list: equal rectangles, twice as long as wide, of the page's area."""
    count = round(inputs.base["parts"])
    if count > MOST_ALONE:
        raise KitError(
            f"{count} parts are to be drawn without a list of them; enter the parts, or take {MOST_ALONE} or less"
        )
    wide = math.sqrt(inputs.base["parts_area"] / count / 2)
    return (CutPart("part", shapely.box(0, 0, 2 * wide, wide), count, TWO_WAY),)


def _made(inputs: BuildInput, layout: Layout) -> Build:
    cut = _cut_list(layout, inputs.display)
    stock = _stock_table(layout, inputs)
    picture = Picture(
        "layout",
        "Layout",
        f"{len(layout.placed)} parts on the stock, numbered as in the cut list; waste is hatched",
        lambda display: layout_scene(layout, display),
    )
    return Build(
        numbers=_numbers(inputs, layout),
        checks=_limits(inputs, layout),
        cautions=_cautions(layout),
        pictures=(picture,),
        tables=(cut, stock),
        outputs=(
            *_files(inputs, layout),
            csv_output("cut_list", "cut list, for a spreadsheet", cut),
            csv_output("shopping", "what to buy, for a spreadsheet", stock),
        ),
        data=layout,
    )


def _numbers(inputs: BuildInput, layout: Layout) -> tuple[Number, ...]:
    area = sum(part.outline.area * part.count for part in layout.parts)
    if isinstance(layout.stock, Roll):
        extent = Number("length", "length of roll that the layout takes", layout.length, resolution=1)
    else:
        extent = Number("pieces", "pieces of stock that the layout takes", len(layout.sheets_used), "", resolution=1)
    return (
        extent,
        Number(
            "found_density",
            "density: parts with kerf, over the stock between its margins",
            density(layout),
            "%",
            resolution=0.001,
        ),
        Number("found_yield", "share of the stock used that becomes parts", layout.density, "%", resolution=0.001),
        Number("found_area", "area of all parts", area, "m^2", resolution=100),
        Number("found_outline", "length of all outlines", _outline(layout), "m", resolution=1),
        Number("found_waste", "stock used that becomes no part", layout.used - layout.area, "m^2", resolution=1e3),
        Number("found_cost", "cost of the stock that is used", sum(stock_costs(inputs, layout)), "", resolution=0.01),
    )


def density(layout: Layout) -> float:
    """Return the density as the page counts it: parts with half a kerf about them, over the stock within margins."""
    kerf, margin = layout.cutting.kerf, layout.cutting.margin
    lying = [layout.parts[p.part].outline for p in layout.placed]
    covered = sum(outline.area + outline.length * kerf / 2 + math.pi * kerf**2 / 4 for outline in lying)
    if isinstance(layout.stock, Roll):
        room = (layout.length - 2 * margin) * (layout.stock.width - 2 * margin)
    else:
        sheets = each(layout.stock)
        room = sum(sheets[k].outline.buffer(-margin, join_style="mitre").area for k in layout.sheets_used)
    return float(covered / room) if layout.placed else 0.0


def _room(inputs: BuildInput, layout: Layout) -> float:
    """Return the area of all stock between its margins [mm²]."""
    margin = layout.cutting.margin
    if isinstance(layout.stock, Roll):
        there = inputs.base["length"] * inputs.base["at_hand"]
        return float((there - 2 * margin) * (layout.stock.width - 2 * margin))
    return float(sum(sheet.outline.buffer(-margin, join_style="mitre").area for sheet in each(layout.stock)))


def _outline(layout: Layout) -> float:
    return float(sum(part.outline.length * part.count for part in layout.parts))


def _limits(inputs: BuildInput, layout: Layout) -> tuple[Check, ...]:
    total = sum(part.count for part in layout.parts)
    wrong = faults(layout)
    lying = len(layout.placed)
    sound = f"checked: {lying} parts, 0 overlaps, all inside margins of {{}}, a kerf of {{}} kept between them"
    kept = (Shown(layout.cutting.margin), Shown(layout.cutting.kerf))
    checks = [
        fact(
            "all_placed",
            not layout.missing,
            f"{len(layout.placed)} of {total} parts have a place",
            "add stock, or press Pack: what finds no place at first often does then",
        ),
        fact("sound", False, wrong[0], "pack again") if wrong else fact("sound", True, sound, "", *kept),
    ]
    if isinstance(layout.stock, Roll):
        there = inputs.base["length"] * inputs.base["at_hand"]
        checks.append(
            compare(
                "long_enough",
                "the layout takes of the roll",
                layout.length,
                there,
                resolution=1,
                mend="pack again, buy more, or allow more ways to turn",
            )
        )
    return tuple(checks)


def _cautions(layout: Layout) -> tuple[str, ...]:
    found = ["Check the drawing against the real stock before the first cut: knots, stains, crooked edges."]
    if any(len(part.turns) > 2 for part in layout.parts):
        found.append(
            "Parts that lie across the grain move and stretch otherwise: allow it only where that is harmless."
        )
    if any(p.over for p in layout.placed):
        found.append("Parts that lie turned over show their wrong side: mark the face before cutting.")
    return tuple(found)


def _cut_list(layout: Layout, display: Display) -> Table:
    rows = []
    for k, part in enumerate(layout.parts):
        left, low, right, high = part.outline.bounds
        lying = sum(p.part == k for p in layout.placed)
        rows.append(
            (
                str(k + 1),
                part.name,
                str(part.count),
                show(right - left, "mm", display, resolution=0.1),
                show(high - low, "mm", display, resolution=0.1),
                show(part.outline.area, "m^2", display, resolution=10),
                _ways(part),
                str(lying) if lying == part.count else f"{lying}, {part.count - lying} without a place",
            )
        )
    heads = ("No.", "Part", "Count", "Along the grain", "Across", "Area of one", "May be turned", "Placed")
    return Table("Cut list", heads, tuple(rows))


def _ways(part: CutPart) -> str:
    turned = {1: "no", 2: "end for end"}.get(len(part.turns), f"to {len(part.turns)} angles")
    return f"{turned}, also over" if part.over else turned


def stock_costs(inputs: BuildInput, layout: Layout) -> list[float]:
    """Return the cost of every kind of stock, in the order of the stock table."""
    value = inputs.base
    if isinstance(layout.stock, Roll):
        return [layout.length * value["price_meter"]]
    prices = sheets_of(inputs.stated["stock"], inputs.folder)[1] | {NEW: value["price_board"]}
    sheets = each(layout.stock)
    used = [sheets[k].name for k in layout.sheets_used]
    return [used.count(sheet.name) * prices[sheet.name] for sheet in layout.stock]


def _stock_table(layout: Layout, inputs: BuildInput) -> Table:
    display, costs = inputs.display, stock_costs(inputs, layout)
    heads = ("Stock", "Size", "Take", "There", "Used by parts", "Cost")
    if isinstance(layout.stock, Roll):
        there = inputs.base["length"] * inputs.base["at_hand"]
        lengths = (show(each_one, "mm", display, resolution=1) for each_one in (layout.length, there))
        row = (
            "roll",
            show(layout.stock.width, "mm", display),
            *lengths,
            f"{layout.density:.1%}",
            f"{costs[0]:.2f}",
        )
        return Table("Shopping list", heads, (row,))
    rows = []
    begin = 0
    for sheet, cost in zip(layout.stock, costs, strict=True):
        numbers = range(begin, begin + sheet.count)
        begin += sheet.count
        used = [k for k in numbers if k in layout.sheets_used]
        area = sum(
            polygon.area for p, polygon in zip(layout.placed, layout.polygons, strict=True) if p.sheet in numbers
        )
        share = f"{area / (len(used) * sheet.outline.area):.1%}" if used else "–"
        left, low, right, high = sheet.outline.bounds
        size = f"{show(right - left, 'mm', display)} × {show(high - low, 'mm', display)}"
        rows.append((sheet.name, size, str(len(used)), str(sheet.count), share, f"{cost:.2f}"))
    return Table("Shopping list", heads, tuple(rows))


def _files(inputs: BuildInput, layout: Layout) -> tuple[Output, ...]:
    def to_read(folder: Path, stem: str, display: Display) -> list[Path]:
        scene = layout_scene(layout, display)
        paper = page_for(scene, layout, paper_plan(inputs.stated, inputs.printer))
        return save(scene, folder, f"{stem}_layout", ("pdf", "svg"), paper=paper)

    def to_cut(folder: Path, stem: str, display: Display) -> list[Path]:
        scene = layout_scene(layout, display, plain=True)
        return save(scene, folder, f"{stem}_outlines", ("svg", "dxf"))

    def to_tape(folder: Path, stem: str, display: Display) -> list[Path]:
        scene = layout_scene(layout, display, plain=True)
        return save(scene, folder, f"{stem}_tiled", ("pdf",), paper=paper_plan(inputs.stated, inputs.printer))

    found = [
        Output("layout", "layout on one page, with numbers, grain and waste: PDF and SVG to scale", to_read),
        Output("outlines", "outlines alone at full size, for a cutter: SVG and DXF", to_cut),
    ]
    if inputs.stated["tiled"]:
        found.append(Output("tiled", "outlines at full size on sheets to tape and cut through", to_tape))
    return tuple(found)


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return area, outline, count and density of the parts as the layout has them, for the page's formulas.

    Raises:
        KitError: as `build`.
    """
    made = build(inputs)
    dense = min(density(made.data), 1.0)
    return {
        "parts_area": show(made.number("found_area").base, "m^2", inputs.display, resolution=1e3),
        "outline": show(made.number("found_outline").base, "m", inputs.display, resolution=10),
        "parts": str(sum(part.count for part in made.data.parts)),
        "density": show(dense, "%", inputs.display, resolution=0.001),
    }


def _packed(inputs: BuildInput, progress: Progress) -> Build:
    """Return the best layout of ten seconds, to be kept: no search against the clock finds the same twice."""
    seed = inputs.stated["seed"]
    return _keeping(inputs, pack(*_asked(inputs), effort=10**7, seconds=LONG, seed=seed, progress=progress))


def packed_by_count(inputs: BuildInput, progress: Progress) -> Build:
    """Return the layout that was kept, or the one after a fixed number of moves: the same every time.

    Raises:
        KitError: as `build`.
    """
    made = build(inputs)
    if made.kept:
        return made
    effort, seed = inputs.stated["effort"], inputs.stated["seed"]
    return _made(inputs, pack(*_asked(inputs), effort=effort, seed=seed, progress=progress))


TASKS = {"Pack": _packed}
