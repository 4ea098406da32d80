"""A scanned rubbing: read as an array of gray values, and shown with what was traced of it."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

from kit.core.errors import KitError

if TYPE_CHECKING:
    import numpy as np
    from matplotlib.figure import Figure

    from kit.geometry.outline.trace import Traced

MOST = 40_000_000  # pixels; a letter-size page at 600 dots per inch has 34 million


def read_rubbing(path: Path) -> "np.ndarray[Any, Any]":
    """Return the gray values : (rows, columns), 0 black to 255 white, of a picture file (PNG, JPEG, TIFF …).

    What is transparent counts as white paper.
    Raises:
        KitError: the file is missing, is no picture, or has more than 40 million pixels.
    """
    import numpy as np
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(path) as picture:
            width, height = picture.size
            if width * height > MOST:
                raise KitError(
                    f"{path.name!r} has {width * height / 1e6:.0f} million pixels, {MOST / 1e6:.0f} million allowed; "
                    "scan at 300 dots per inch"
                )
            paper = Image.new("RGBA", picture.size, "white")
            paper.alpha_composite(picture.convert("RGBA"))
            return np.asarray(paper.convert("L"), dtype=np.float64)
    except FileNotFoundError:
        raise KitError(f"there is no file {path.name!r} in {path.parent}; check its name") from None
    except (
        UnidentifiedImageError,
        Image.DecompressionBombError,
        Image.DecompressionBombWarning,
        OSError,
        SyntaxError,
    ):
        raise KitError(f"{path.name!r} cannot be read as a picture; scan it anew as PNG or JPEG") from None


def draw_rubbing(gray: "np.ndarray[Any, Any]", traced: "Traced") -> "Figure":
    """Return the picture : (rows, columns) with the traced outline over it, both in millimeters."""
    from matplotlib.figure import Figure

    rows, columns = gray.shape
    left, low = -traced.scale / 2, -traced.scale / 2
    figure = Figure(figsize=(5.6, 5.6 * rows / columns), layout="constrained", facecolor="white")
    axes = figure.add_subplot()
    axes.imshow(
        gray,
        cmap="gray",
        vmin=0,
        vmax=255,
        aspect="equal",
        extent=(left, left + columns * traced.scale, low, low + rows * traced.scale),
    )
    x, y = [*traced.outline.T[0], traced.outline[0, 0]], [*traced.outline.T[1], traced.outline[0, 1]]
    axes.plot(x, y, color="#D55E00", linewidth=1.2)
    axes.set_xlabel("mm", fontsize=9)
    axes.tick_params(labelsize=8)
    return figure
