"""A drawing as files to print, to cut from and to pass on."""

import re
from collections.abc import Callable, Sequence
from pathlib import Path

from kit.core.errors import KitError, near_misses
from kit.core.files import write_atomic
from kit.drawing.dxf import dxf
from kit.drawing.paper import PaperPlan, PrinterScale
from kit.drawing.pdf import pdf
from kit.drawing.scene import Scene
from kit.drawing.sheetmarks import TitleBlock
from kit.drawing.svg import svg_file

__all__ = ["FORMATS", "PaperPlan", "PrinterScale", "TitleBlock", "save"]

FORMATS = ("pdf", "svg", "dxf")


def save(
    scene: Scene,
    folder: Path | str,
    stem: str,
    formats: Sequence[str] = FORMATS,
    *,
    paper: PaperPlan | None = None,
    title: TitleBlock | None = None,
) -> list[Path]:
    """Write a scene as PDF, SVG and DXF into `folder`, made if need be, and return the paths in that order.

    The names begin with `stem` and say scale and paper: ``30_front_fullsize_A4.pdf``. PDF and SVG have the
    plan's scale; DXF is always full size. Nothing is written before all is drawn, and each file replaces an older
    one in one step.

    Raises:
        KitError: an unknown format, a stem that is no file name, a folder that is a file, or a drawing that cannot
            be put on this paper.
    """
    paper, folder = paper or PaperPlan(), Path(folder)
    if isinstance(formats, str) or not formats:
        raise KitError(f"The formats were given as {formats!r}; give a list with some of {', '.join(FORMATS)}.")
    for wanted in formats:
        if wanted not in FORMATS:
            raise KitError(
                f"There is no format {wanted!r}{near_misses(wanted, list(FORMATS))}; allowed are {', '.join(FORMATS)}."
            )
    if not re.fullmatch(r"\w[\w.-]*", stem):
        raise KitError(
            f"The files cannot be called {stem!r}; a name takes letters, digits, '_', '-' and '.', and does not begin "
            "with a dot or dash."
        )
    scaled = "fullsize" if paper.scale == 1 else paper.scale_words.replace(":", "to")
    drawn: dict[str, tuple[str, Callable[[], str | bytes]]] = {
        "pdf": (f"{stem}_{scaled}_{paper.name}.pdf", lambda: pdf(scene, paper, title)),
        "svg": (f"{stem}_{scaled}.svg", lambda: svg_file(scene, paper.scale, legend=True)),
        "dxf": (f"{stem}_fullsize.dxf", lambda: dxf(scene)),
    }
    contents = {folder / drawn[wanted][0]: drawn[wanted][1]() for wanted in FORMATS if wanted in formats}
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (FileExistsError, NotADirectoryError):
        raise KitError(f"{str(folder)!r} is a file; name a folder to write the drawings into.") from None
    for path, content in contents.items():
        write_atomic(path, content)
    return list(contents)
