"""From a phone scan to a clean mesh in millimeters, upright, with its zero on the turning axis."""

from kit.geometry.mesh.blocks import box, cylinder, joined, prism
from kit.geometry.mesh.clean import brush, crop, drop_small, lighter, moving_part, piece_numbers, thin
from kit.geometry.mesh.levelling import Plane, find_bed, fit_plane, machine_frame
from kit.geometry.mesh.mesh import Scan
from kit.geometry.mesh.reader import MOST_BYTES, MOST_FACES, MOST_VERTICES, read
from kit.geometry.mesh.recipe import Prepared, names_in, replay
from kit.geometry.mesh.scaling import Scale, fit_scale
from kit.geometry.mesh.sniff import check_sizes
from kit.geometry.mesh.touch import Touch, cast, nearest

__all__ = [
    "MOST_BYTES",
    "MOST_FACES",
    "MOST_VERTICES",
    "Plane",
    "Prepared",
    "Scale",
    "Scan",
    "Touch",
    "box",
    "brush",
    "cast",
    "check_sizes",
    "crop",
    "cylinder",
    "drop_small",
    "find_bed",
    "fit_plane",
    "fit_scale",
    "joined",
    "lighter",
    "machine_frame",
    "moving_part",
    "names_in",
    "nearest",
    "piece_numbers",
    "prism",
    "read",
    "replay",
    "thin",
]
