"""Make the demo rubbing of the boat shed's saw: python make_demo.py [folder].

An invented foot, rubbed through paper with a soft pencil and scanned: gray strokes inside a rectangle with rounded
corners, paler where the foot is hollow, a drawn bar of 80 mm beside it, all turned by a fraction of a degree as it
lay on the glass. Nothing in it is random, so that the file comes out the same.
"""

import sys
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Array = NDArray[np.float64]

DOTS = 200  # per inch
PAGE = (90.0, 80.0)  # mm, the part of the page that was scanned
FOOT = (62.0, 48.0, 8.0)  # mm: length, width and corner radius
CENTER = (45.0, 33.0)  # mm, of the foot, from the lower left corner
BAR = (80.0, 1.0)  # mm: length and thickness
BAR_CENTER = (45.0, 70.0)  # mm
TURNED = np.radians(0.8)
PAPER, PENCIL, BLACK = 246.0, 96.0, 30.0  # gray values


def distance(x: Array, y: Array, center: tuple[float, float], size: tuple[float, float, float]) -> Array:
    """Return how far points lie outside a rounded rectangle, mm; below zero inside."""
    length, width, radius = size
    c, s = np.cos(TURNED), np.sin(TURNED)
    along, across = (x - center[0]) * c + (y - center[1]) * s, (y - center[1]) * c - (x - center[0]) * s
    dx, dy = np.abs(along) - length / 2 + radius, np.abs(across) - width / 2 + radius
    outside = np.hypot(np.maximum(dx, 0), np.maximum(dy, 0))
    return np.asarray(outside + np.minimum(np.maximum(dx, dy), 0) - radius)


def picture() -> NDArray[np.uint8]:
    """Return the gray values of the scan."""
    pixel = 25.4 / DOTS
    columns, rows = (round(side / pixel) for side in PAGE)
    x, y = np.meshgrid((np.arange(columns) + 0.5) * pixel, (np.arange(rows)[::-1] + 0.5) * pixel)
    stroke = 12 * np.sin(2 * np.pi * (x + 0.6 * y) / 1.9) + 8 * np.sin(2 * np.pi * (x - 0.1 * y) / 7.3)
    hollow = 25 * np.exp(-(((x - CENTER[0]) / 14) ** 2) - ((y - CENTER[1]) / 9) ** 2)
    gray = np.full(x.shape, PAPER)
    for shape, center, ink in ((FOOT, CENTER, PENCIL + stroke + hollow), ((*BAR, 0.2), BAR_CENTER, BLACK)):
        covered = np.clip(0.5 - distance(x, y, center, shape) / (1.6 * pixel), 0, 1)
        gray = gray * (1 - covered) + ink * covered
    return np.asarray(np.clip(np.round(gray / 17) * 17, 0, 255), dtype=np.uint8)


if __name__ == "__main__":
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    Image.fromarray(picture()).save(folder / "saw_foot.png", optimize=True)
