"""A machine taken apart: from its scan, or its boxes and cylinders, to what moves and what stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull

from kit.core.build import BuildInput
from kit.geometry.clearance import Body
from kit.geometry.mesh import Prepared, Scan, joined, thin
from kit.geometry.motion import Chain
from kit.subjects.sweep import block_inputs as blocks
from kit.subjects.sweep import scan_inputs as scanned

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Machine:
    """A scan taken apart: what moves, each with its thinned surface and hull, and what stands."""

    raw: Scan | None  # none where it is stated as boxes and cylinders
    prepared: Prepared
    parts: tuple[scanned.MovingPart, ...]
    bodies: tuple[Body, ...]
    hulls: tuple[Array, ...]
    still: Body | None
    standing: Scan | None
    thinned: float  # [mm] by how much thinning moved a surface, at most
    steps: tuple[Mapping[str, Any], ...]
    measured: float = 0.0  # [mm] by how much measured boxes and cylinders may be off

    @property
    def moving(self) -> Scan:
        """All that moves, as scanned."""
        return _joined(self.parts)

    @property
    def scan_error(self) -> float:
        """By how much the surface may be off [mm]: as measured, or of a scan its scale where it is farthest, and noise.

        A scan's has a coverage factor of 2.
        """
        found = {str(step["do"]): numbers for step, numbers in zip(self.steps, self.prepared.found, strict=True)}
        scale, bed = found.get("scale", {}), found.get("upright", {})
        far = max(float(np.linalg.norm(hull, axis=1).max()) for hull in self.hulls)
        scan = 2.0 * (far * scale.get("uncertainty", 0.0) / scale.get("factor", 1.0) + bed.get("residual", 0.0))
        return self.measured + scan


def is_stated(inputs: BuildInput) -> bool:
    """Return whether a machine is stated, by a scan or by boxes and cylinders."""
    return inputs.stated["scan"] is not None or bool(inputs.stated["blocks"])


def machine(inputs: BuildInput, chain: Chain) -> Machine:
    """Return the machine that the job states.

    Raises:
        KitError: the scan cannot be read, a step of its recipe fails, or a part or block is none.
    """
    stated = inputs.stated
    if stated["scan"] is None:
        names = tuple(joint.name for joint in chain.joints)
        return _of_blocks(scanned.Frozen(stated["blocks"]), names, inputs.base["thinning"])
    raw, prepared = scanned.prepared(stated["scan"], stated["recipe"], stated["picks"], inputs.folder)
    names = tuple(joint.name for joint in chain.joints)
    stated_parts, steps = scanned.Frozen(stated["parts"]), scanned.Frozen(stated["recipe"])
    return _taken_apart(
        raw, prepared, steps, stated_parts, scanned.Frozen(stated["picks"]), names, inputs.base["thinning"]
    )


@lru_cache(maxsize=8)
def _taken_apart(
    raw: Scan,
    prepared: Prepared,
    steps: scanned.Frozen,
    stated_parts: scanned.Frozen,
    picks: scanned.Frozen,
    names: tuple[str, ...],
    thinning: float,
) -> Machine:
    parts, standing, still, hulls = _split(prepared, stated_parts, picks, names)
    bodies, error = _bodies(parts, thinning)
    return Machine(raw, prepared, parts, bodies, hulls, still, standing, prepared.error + error, tuple(steps.data))


@lru_cache(maxsize=8)
def _of_blocks(stated: scanned.Frozen, names: tuple[str, ...], thinning: float) -> Machine:
    """Return a machine of boxes and cylinders; a scan without a recipe stands for them."""
    riding, standing = blocks.moving(stated.data, names)
    parts = tuple(riding)
    whole = joined([*(part.scan for part in parts), *([standing] if standing else [])])
    bodies, error = _bodies(parts, thinning)
    prepared = Prepared(whole, np.eye(4), (), 0.0)
    still, hulls = _still(standing), _hulls(parts)
    return Machine(None, prepared, parts, bodies, hulls, still, standing, error, (), blocks.error(stated.data))


def _bodies(parts: tuple[scanned.MovingPart, ...], thinning: float) -> tuple[tuple[Body, ...], float]:
    """Return the thinned surface of each part, and by how much thinning moved one at most [mm]."""
    bodies, error = [], 0.0
    for part in parts:
        surface, moved = thin(part.scan, thinning) if thinning > 0.0 else (part.scan, 0.0)
        error = max(error, moved)
        bodies.append(Body.of(surface.vertices, surface.faces))
    return tuple(bodies), error


def _still(standing: Scan | None) -> Body | None:
    return Body.of(standing.vertices, standing.faces) if standing else None


def _hulls(parts: tuple[scanned.MovingPart, ...]) -> tuple[Array, ...]:
    return tuple(part.scan.vertices[ConvexHull(part.scan.vertices).vertices] for part in parts)


@lru_cache(maxsize=8)
def _split(
    prepared: Prepared, stated_parts: scanned.Frozen, picks: scanned.Frozen, names: tuple[str, ...]
) -> tuple[tuple[scanned.MovingPart, ...], Scan | None, Body | None, tuple[Array, ...]]:
    """Return the moving parts, what stands as scanned and as a body, and each part's hull: no thinning changes them."""
    parts, standing = scanned.parts(stated_parts.data, prepared.scan, names, scanned.spots_of(picks.data, prepared))
    return tuple(parts), standing, _still(standing), _hulls(tuple(parts))


@lru_cache(maxsize=8)
def _joined(parts: tuple[scanned.MovingPart, ...]) -> Scan:
    return joined([part.scan for part in parts])
