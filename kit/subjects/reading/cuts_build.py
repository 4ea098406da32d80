"""Repeated parts, cut by cut: where the saw goes, what is left, how far a stack is off, and the boards on hand."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.model import Case
from kit.core.quantity import Display, Quantity, show, unit
from kit.core.verdict import compare
from kit.drawing.scene import Layer, Scene
from kit.drawing.table_files import csv_output

TITLE = "Parts from a board, by number"
MOST = 60  # rows


def build(inputs: BuildInput) -> Build:
    """Return the cuts of one board, and what the boards on hand give.

    Raises:
        KitError: a board whose length is not above 0.
    """
    v, display = inputs.base, inputs.display
    lengths = [board.base for board in inputs.stated["boards"]]
    boards = [_board(inputs.case, each) for each in lengths] or [inputs.case] * round(v["boards"])
    total = sum(round(each.base["parts"]) for each in boards)
    table = _cuts(inputs.case, display)
    tables = [table, _stack(inputs.case, display)]
    if lengths:
        tables.append(_hand(boards, display))
    enough = compare(
        "wanted",
        "parts from the boards on hand:",
        total,
        round(v["wanted"]),
        unit="",
        sense=">=",
        resolution=1,
        mend="take one more board, or a longer one",
    )
    return Build(
        numbers=(
            Number("total", f"parts from {len(boards)} boards", total, "", resolution=1),
            Number(
                "left", "left of these boards, all offcuts", sum(each.base["offcut"] for each in boards), resolution=1
            ),
        ),
        checks=(enough,) if lengths else (),
        pictures=(
            Picture(
                "boards",
                "Boards and cuts",
                f"{len(boards)} boards, each with its parts, the trim at its left end and what is left at its right",
                partial(_boards, boards),
            ),
        ),
        tables=tuple(tables),
        outputs=(csv_output("cuts", "cuts of a board, for a spreadsheet", table),),
        data=total,
    )


def _board(case: Case, length: float) -> Case:
    return case.with_(stock=Quantity.from_base(length, unit("mm")), beyond=frozenset({"stock"}))


def _cuts(case: Case, display: Display) -> Table:
    """Return the cuts of one board: from the squared end to the near side of each kerf, and what is beyond it."""
    v = case.base
    rows = []
    for number in range(1, min(round(v["parts"]), MOST) + 1):
        beyond = max(0.0, v["stock"] - v["trim"] - number * v["pitch"])
        rows.append(
            (
                str(number),
                show(number * v["pitch"] - v["kerf"], "mm", display, resolution=0.1),
                show(beyond, "mm", display, resolution=0.1),
                "yes" if beyond >= v["tail_least"] else "no: clamp it, or use a sled",
            )
        )
    return Table(TITLE, ("Part", "From the squared end", "Left beyond the kerf", "Long enough to hold"), tuple(rows))


def _stack(case: Case, display: Display) -> Table:
    """Return how far parts laid end to end are off: the common bias adds part by part, the spread by squares."""
    wanted = round(case.base["wanted"])
    rows = []
    for count in sorted({1, *(n for n in (2, 5, 10, 20, 50, 100) if n < wanted), wanted}):
        v = case.with_(wanted=count).base
        rows.append(
            (
                str(count),
                show(v["stack"], "mm", display),
                show(v["stack_bias"], "mm", display, resolution=0.01),
                f"± {show(2 * v['stack_u'], 'mm', display, resolution=0.01)}",
            )
        )
    return Table("The stack of parts", ("Parts", "Length", "Off by the bias", "And by chance, k = 2"), tuple(rows))


def _hand(boards: Sequence[Case], display: Display) -> Table:
    """Return what each board on hand gives."""
    rows = (
        (
            str(number),
            show(case.base["stock"], "mm", display),
            f"{case.base['parts']:.0f}",
            show(case.base["offcut"], "mm", display, resolution=0.1),
            show(case.base["yield"], "%", display),
        )
        for number, case in enumerate(boards, 1)
    )
    return Table("Boards on hand", ("Board", "Length", "Parts", "Left", "Yield"), tuple(rows))


def _boards(boards: Sequence[Case], display: Display) -> Scene:
    longest = max(case.base["stock"] for case in boards)
    high = 0.035 * longest
    words = "; ".join(
        f"{case.base['parts']:.0f} parts from {show(case.base['stock'], 'mm', display)}" for case in boards
    )
    scene = Scene("Boards and cuts", f"{words}.")
    for number, case in enumerate(boards):
        v, foot = case.base, -1.6 * number * high
        scene.rectangle((0.0, foot), (v["stock"], foot + high))
        if v["trim"] > 0:
            scene.line((v["trim"], foot), (v["trim"], foot + high), Layer.CUT)
        for n in range(round(v["parts"])):
            left = v["trim"] + n * v["pitch"]
            scene.rectangle((left, foot), (left + v["part"], foot + high), Layer.CONSTRUCTION, fill="medium")
        scene.text((0.0, foot + high / 2), str(number + 1), "left", gap=2.0)
    foot = -1.6 * (len(boards) - 1) * high
    v = boards[-1].base
    if v["parts"]:
        scene.dim(
            (v["trim"], foot),
            (v["trim"] + v["part"], foot),
            -8,
            show(v["part"], "mm", display),
            along="horizontal",
        )
    scene.dim((0.0, foot), (v["stock"], foot), -16, show(v["stock"], "mm", display), along="horizontal")
    scene.explain(Layer.CUT, "squaring cut")
    scene.explain(Layer.CONSTRUCTION, "parts, a kerf between them")
    return scene
