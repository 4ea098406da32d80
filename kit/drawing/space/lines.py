"""Lines among faces: cut short, and painted after whatever lies behind them."""

import numpy as np

from kit.drawing.space.painter_order import Floats, Index, planes

_LIFT = 2e-3
"""A line this share of the picture's size behind a face still counts as lying on it."""

_AT_A_TIME = 8
"""Parts looked at together."""


def parts(points: Floats, longest: float) -> Floats:
    """Return a projected line (n, 3) with points added so that no part is longer than `longest`."""
    steps = np.diff(points, axis=0)
    many = np.maximum(np.ceil(np.linalg.norm(steps, axis=1) / longest), 1).astype(np.int64)
    part = np.repeat(np.arange(len(many)), many)
    share = (np.arange(len(part)) - np.repeat(np.cumsum(many) - many, many)) / many[part]
    return np.concatenate([points[part] + share[:, None] * steps[part], points[-1:]])


def layer_after(line: Floats, corners: Floats, level: Index, size: float) -> Index:
    """Return for each part of a projected line the first layer that may cover it: all before lie behind it.

    A part is painted as late as the faces in front of it allow, so that it lies over what it touches.
    """
    middle = (line[:-1] + line[1:]) / 2
    last = int(level.max()) + 1 if len(level) else 0
    after = np.full(len(middle), last)
    if not len(corners):
        return after
    normals, offsets = planes(corners)
    flat = corners[:, :, :2]
    low, high = flat.min(axis=1), flat.max(axis=1)
    for start in range(0, len(middle), _AT_A_TIME):
        point = middle[start : start + _AT_A_TIME]
        at = point[:, None, :2]
        near = np.flatnonzero(
            ((high >= at[:, 0].min(axis=0)) & (low <= at[:, 0].max(axis=0))).all(axis=1)
        )  # the few faces that these parts can lie over or under
        if not len(near):
            continue
        inside = np.ones((len(point), len(near)), dtype=bool)
        for k in range(3):
            corner = flat[near, k]
            side, away = flat[near, k - 2] - corner, at - corner
            inside &= side[..., 0] * away[..., 1] - side[..., 1] * away[..., 0] >= 0
        below = offsets[near] - point @ normals[near].T > _LIFT * size
        covering = np.where(inside & below, level[near], last)
        after[start : start + _AT_A_TIME] = covering.min(axis=1)
    return after
