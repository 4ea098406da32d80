"""From a phone scan to a clean mesh in millimeters, upright, with its zero on the turning axis."""

from .cleaning import crop, drop_small, moving_part, piece_numbers, thin
from .looking import check_sizes
from .mesh import Scan
from .reading import MOST_BYTES, MOST_FACES, MOST_VERTICES, read
from .recipe import Prepared, replay
from .scale import Scale, fit_scale
from .upright import Plane, find_bed, fit_plane, machine_frame

__all__ = [
    "MOST_BYTES",
    "MOST_FACES",
    "MOST_VERTICES",
    "Plane",
    "Prepared",
    "Scale",
    "Scan",
    "check_sizes",
    "crop",
    "drop_small",
    "find_bed",
    "fit_plane",
    "fit_scale",
    "machine_frame",
    "moving_part",
    "piece_numbers",
    "read",
    "replay",
    "thin",
]
