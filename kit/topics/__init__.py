"""The trade: one subject a file, each readable top to bottom as a page of a handbook."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from kit.errors import KitError, near_misses

if TYPE_CHECKING:
    from kit.model import Model

# In the order in which a station is built. A name is the module below this folder that states the model.
NAMES: tuple[str, ...] = (
    "sweep.point",
    "sweep.step",
    "hood.shape",
    "hood.air",
    "bevel.frame",
    "bevel.corner",
    "bevel.hood",
    "bevel.wall",
    "bevel.gap",
    "bevel.setting",
    "fold.bend",
    "fold.chain",
    "fold.strain",
    "fold.wrap",
    "fold.hem",
    "cloth.skin",
    "cloth.cone",
    "cloth.oblique",
    "cloth.miter",
    "cloth.twist",
    "cloth.chute",
    "cloth.relief",
    "cutting.stock",
    "cutting.boards",
    "level.cards",
    "level.plane",
    "level.pads",
    "level.feet",
    "level.tripod",
    "level.register",
    "level.print",
    "groove.guide",
    "groove.template",
    "groove.depth",
    "groove.track",
    "groove.key",
    "scale.zero",
    "scale.tape",
    "scale.cursor",
    "scale.calibration",
    "stop.deflection",
    "stop.section",
    "stop.bow",
    "stop.warp",
    "stop.movement",
    "reading.block",
    "reading.error",
    "reading.cuts",
    "knob.plies",
    "knob.outline",
    "knob.torque",
    "knob.clamp",
    "chain.accuracy",
    "chain.batch",
)


def names() -> tuple[str, ...]:
    """Return the names of all models, in building order."""
    return NAMES


def model(name: str) -> Model:
    """Return the model of that name; its module is imported on first use.

    Raises:
        KitError: there is none; the nearest names are listed.
    """
    if name not in NAMES:
        hint = near_misses(name, list(NAMES)) or f"; there are {', '.join(NAMES)}"
        raise KitError(f"there is no model {name!r}{hint}")
    found: Model = import_module(f"kit.topics.{name}").MODEL
    return found
