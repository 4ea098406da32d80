"""The strain that a flat piece of cloth takes when it is sewn to its shape, along both threads and in shear."""

from dataclasses import dataclass

import numpy as np

from kit.geometry.development.arrays import Floats
from kit.geometry.development.flatten import Flattened, gradients, local_corners


@dataclass(frozen=True)
class ThreadStrain:
    """Strain of each triangle (m,): along warp (the grain), along weft, and the change of the angle between them, rad.

    Positive strain: the thread is longer on the shape than on the table.
    """

    warp: Floats
    weft: Floats
    shear: Floats

    @property
    def largest(self) -> tuple[float, float]:
        """The largest strain in size along warp and along weft."""
        return float(np.abs(self.warp).max()), float(np.abs(self.weft).max())


def thread_strain(piece: Flattened, grain: float) -> ThreadStrain:
    """Return the strain along threads that lie on the flat piece at angle grain (warp) and square to it, rad."""
    gradient = gradients(local_corners(piece.panel))
    to_flat = np.einsum("mki,mkj->mij", piece.flat[piece.panel.triangles], gradient)
    to_shape = np.linalg.inv(to_flat)
    c, s = np.cos(grain), np.sin(grain)
    warp, weft = to_shape @ np.array([c, s]), to_shape @ np.array([-s, c])
    long_warp, long_weft = np.linalg.norm(warp, axis=1), np.linalg.norm(weft, axis=1)
    cosine = (warp * weft).sum(axis=1) / (long_warp * long_weft)
    return ThreadStrain(long_warp - 1, long_weft - 1, np.arcsin(np.clip(cosine, -1, 1)))
