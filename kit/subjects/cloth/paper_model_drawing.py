"""The paper model of a skin on one sheet: nets with tabs, folds dashed, glue numbers, at the scale that fits."""

from dataclasses import dataclass, replace
from math import pi
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon

from kit.core.errors import KitError
from kit.drawing.arc_outlines import draw_points
from kit.drawing.layers import Layer
from kit.drawing.paper import PaperPlan
from kit.drawing.scene import Scene
from kit.geometry.development.arrays import lengths_along
from kit.geometry.ties import rough
from kit.subjects.cloth.geometry.assembly import Assembly
from kit.subjects.cloth.geometry.match_marks import frame_at
from kit.subjects.cloth.geometry.paper_net import PaperModel, paper_model

Floats = NDArray[np.float64]
SCALES = (
    1.0,
    1 / 2,
    1 / 2.5,
    1 / 4,
    1 / 5,
    1 / 6,
    1 / 8,
    1 / 10,
    1 / 12,
    1 / 15,
    1 / 20,
    1 / 25,
    1 / 50,
    1 / 100,
)
TAB = 8.0  # depth of a tab, paper mm
GAP = 4.0  # between nets, paper mm
NUMBER = 2.2  # height of a number, and its way inside an edge, paper mm
EDGE = 2.0  # kept free around all, paper mm


@dataclass(frozen=True)
class ModelSheet:
    """A paper model laid out on a sheet: the model, a turn (2, 2) and shift (2,) for each net, the plan with its scale.

    required: the scale that was asked for.
    """

    model: PaperModel
    turns: tuple[Floats, ...]
    shifts: tuple[Floats, ...]
    plan: PaperPlan
    required: float

    @property
    def words(self) -> str:
        """Say whether the required scale fits."""
        name, asked = self.plan.name, replace(self.plan, scale=self.required).scale_words
        count = len(self.model.nets)
        nets = f"{count} nets" if count > 1 else "one net"
        if self.plan.scale == self.required:
            return f"{nets} on one sheet of {name} at {asked}"
        return f"{asked} does not fit one sheet of {name}; {self.plan.scale_words} does, in {nets}"


def lay_out_model(made: Assembly, plan: PaperPlan, required: float = 0.2) -> ModelSheet:
    """Return the paper model of a pattern on one sheet, at the required scale or the largest below it that fits.

    Raises: KitError where even the smallest scale does not fit.
    """
    for scale in [required, *(each for each in SCALES if each < required)]:
        model = paper_model(made.pattern.pieces, made.seams, TAB / scale)
        sheet = _placed(model, replace(plan, scale=scale), required)
        if sheet:
            return sheet
    raise KitError(f"The paper model does not fit one sheet of {plan.name}; take larger paper")


def _placed(model: PaperModel, plan: PaperPlan, required: float) -> ModelSheet | None:
    """Lay the nets in rows on the sheet, each turned so that it takes the lowest rectangle; None if they do not fit."""
    gap = GAP / plan.scale
    turns, boxes = [], []
    for number in range(len(model.nets)):
        outline = np.array(model.shape(number).exterior.coords)
        turn = _turned(outline)
        at = outline @ turn.T
        turns.append(turn)
        boxes.append((at.min(axis=0), at.max(axis=0)))
    for sheet in plan.sheets():
        width, height = ((side - 2 * EDGE) / plan.scale for side in sheet.window)
        for quarter in (0, 1):
            spun = [_quarter(box, quarter) for box in boxes]
            shifts = _rows(spun, width, height, gap)
            if shifts:
                turn = np.array([[0.0, -1.0], [1.0, 0.0]]) if quarter else np.eye(2)
                orientation: Literal["portrait", "landscape"] = "landscape" if sheet.lying else "portrait"
                return ModelSheet(
                    model,
                    tuple(turn @ each for each in turns),
                    tuple(shifts),
                    replace(plan, orientation=orientation),
                    required,
                )
    return None


def _turned(outline: Floats) -> Floats:
    """Return the rotation that lays the longer side of the least rectangle round an outline along x."""
    corners = np.array(Polygon(outline).minimum_rotated_rectangle.exterior.coords)
    sides = np.diff(corners, axis=0)
    longest = sides[int(np.hypot(*sides.T).argmax())]
    angle = float(np.arctan2(longest[1], longest[0]))
    # Of the two ways round, the one nearer to how the piece lay.
    angle = (angle + pi / 2) % pi - pi / 2
    c, s = np.cos(angle), np.sin(angle)
    return np.array([[c, s], [-s, c]])


def _quarter(box: tuple[Floats, Floats], quarter: int) -> tuple[Floats, Floats]:
    low, high = box
    return (np.array([-high[1], low[0]]), np.array([-low[1], high[0]])) if quarter else box


def _rows(boxes: list[tuple[Floats, Floats]], width: float, height: float, gap: float) -> list[Floats] | None:
    """Return shifts that lay boxes in rows from the top left, the highest first, or None if they do not fit."""
    order = sorted(range(len(boxes)), key=lambda k: -rough(boxes[k][1][1] - boxes[k][0][1]))
    shifts: list[Floats] = [np.zeros(2)] * len(boxes)
    x = top = row = 0.0
    for k in order:
        low, high = boxes[k]
        across, up = high - low
        if x and x + across > width:
            x, top, row = 0.0, top - row - gap, 0.0
        if across > width or up - top > height:
            return None
        shifts[k] = np.array([x - low[0], top - high[1]])
        x, row = x + float(across) + gap, max(row, float(up))
    return shifts


def model_scene(sheet: ModelSheet, name: str) -> Scene:
    """Return the paper model as a scene in the skin's own millimeters, to be printed at the sheet's scale."""
    model = sheet.model
    scene = Scene(
        f"Paper model: {name}, {sheet.plan.scale_words}",
        f"A paper model to cut out, fold and glue: {sheet.words}. Equal numbers are glued together.",
    )

    def placed(points: Floats, number: int) -> Floats:
        return np.asarray(points @ sheet.turns[number].T + sheet.shifts[number])

    def number_at(point: Floats, number: int, text: str) -> None:
        at = placed(point[None], number)[0]
        scene.text((float(at[0]), float(at[1])), text, height=NUMBER)

    for number, net in enumerate(model.nets):
        outline = np.array(model.shape(number).exterior.coords)[:-1]
        draw_points(scene, placed(outline, number), closed=True)
        for fold in net.folds:
            draw_points(scene, placed(fold, number), Layer.FOLD)
        for piece in net.pieces:
            inner = placed(np.array(Polygon(piece.outline).representative_point().coords), number)[0]
            scene.text((float(inner[0]), float(inner[1])), piece.name, height=3.5)
    for glued in model.glued:
        for tab in glued.tabs:
            draw_points(scene, placed(tab[:-2], glued.on), Layer.FOLD)
            middle = (tab[0] + tab[-3] + tab[-2] + tab[-1]) / 4
            number_at(middle, glued.on, str(glued.number))
        at, out = frame_at(glued.other, float(lengths_along(glued.other)[-1]) / 2)
        number_at(at - NUMBER / sheet.plan.scale * out, glued.to, str(glued.number))
    scene.explain(Layer.OUTLINE, "cut")
    scene.explain(Layer.FOLD, "fold; a tab with a number is glued under the edge with that number")
    return scene
