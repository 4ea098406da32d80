"""Reading a PDF back with PDFium, which shares no code with the writer: paths, words and pixels of each page."""

from collections.abc import Iterator
from ctypes import byref, c_float, c_int
from dataclasses import dataclass
from math import dist

import pypdfium2 as pdfium
import pypdfium2.raw as raw

Point = tuple[float, float]
MM = 25.4 / 72  # a PDF unit is 1/72 in, by definition

Matrix = tuple[float, float, float, float, float, float]


@dataclass(frozen=True)
class Path:
    """A path in mm of the page, from its lower left corner: corners or Bézier points, width, dashes, fill."""

    points: list[Point]
    curved: bool
    width: float
    dashes: tuple[float, ...]
    filled: bool

    @property
    def length(self) -> float:
        return dist(self.points[0], self.points[-1])


def pages(content: bytes) -> list[pdfium.PdfPage]:
    return list(pdfium.PdfDocument(content))


def size(page: pdfium.PdfPage) -> Point:
    return page.get_width() * MM, page.get_height() * MM


def words(page: pdfium.PdfPage) -> str:
    return page.get_textpage().get_text_range()


def dark(page: pdfium.PdfPage, per_mm: float) -> list[list[bool]]:
    """Which pixels of a page are dark, row by row from the top."""
    image = page.render(scale=per_mm * MM, grayscale=True).to_numpy()
    return (image.reshape(image.shape[:2]) < 128).tolist()  # type: ignore[no-any-return]


def paths(page: pdfium.PdfPage) -> list[Path]:
    """Every path on a page, also inside forms; clipping is not applied."""
    found: list[Path] = []
    for k in range(raw.FPDFPage_CountObjects(page)):
        found += _paths(raw.FPDFPage_GetObject(page, k), (1, 0, 0, 1, 0, 0))
    return found


def straight(page: pdfium.PdfPage) -> list[Path]:
    """The single straight lines of a page."""
    return [path for path in paths(page) if len(path.points) == 2 and not path.filled]


def _paths(item: object, outer: Matrix) -> Iterator[Path]:
    kind = raw.FPDFPageObj_GetType(item)
    if kind not in (raw.FPDF_PAGEOBJ_PATH, raw.FPDF_PAGEOBJ_FORM):
        return
    own = raw.FS_MATRIX()
    assert raw.FPDFPageObj_GetMatrix(item, byref(own))
    matrix = _product((own.a, own.b, own.c, own.d, own.e, own.f), outer)
    if kind == raw.FPDF_PAGEOBJ_FORM:
        for k in range(raw.FPDFFormObj_CountObjects(item)):
            yield from _paths(raw.FPDFFormObj_GetObject(item, k), matrix)
        return
    a, b, c, d, e, f = matrix
    points, curved, closed = [], False, False
    x, y = c_float(), c_float()
    for k in range(raw.FPDFPath_CountSegments(item)):
        segment = raw.FPDFPath_GetPathSegment(item, k)
        assert raw.FPDFPathSegment_GetPoint(segment, byref(x), byref(y))
        points.append(((a * x.value + c * y.value + e) * MM, (b * x.value + d * y.value + f) * MM))
        curved |= raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_BEZIERTO
        closed |= bool(raw.FPDFPathSegment_GetClose(segment))
    if closed and not curved and points[0] != points[-1]:
        points.append(points[0])
    width, mode, stroked = c_float(), c_int(), c_int()
    assert raw.FPDFPageObj_GetStrokeWidth(item, byref(width))
    count = raw.FPDFPageObj_GetDashCount(item)
    dashes = (c_float * max(count, 1))()
    if count > 0:
        assert raw.FPDFPageObj_GetDashArray(item, dashes, count)
    assert raw.FPDFPath_GetDrawMode(item, byref(mode), byref(stroked))
    filled = mode.value != raw.FPDF_FILLMODE_NONE
    yield Path(points, curved, width.value, tuple(dashes[:count]) if count > 0 else (), filled)


def _product(m: Matrix, n: Matrix) -> Matrix:
    """First m, then n."""
    a, b, c, d, e, f = m
    p, q, r, s, t, u = n
    return (
        a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u,
    )  # fmt: skip
