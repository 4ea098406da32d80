"""A value of ours beside one that somebody else has published."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from kit.core.model import Case, Given, Relation, called
from kit.core.quantity import Quantity, Unit, parse
from kit.core.quantity.digits import fixed
from kit.sheet.mathml import mathml


@dataclass(frozen=True, slots=True)
class Compared:
    """Our value (in the base), the published one, and how far apart they may be."""

    part: Given | Relation
    ours: float
    published: Quantity
    within: Quantity
    source: str

    @property
    def difference(self) -> float:
        """Ours less the published value, in the base."""
        return self.ours - self.published.base

    @property
    def agrees(self) -> bool:
        """Whether the two differ by no more than the tolerance."""
        return abs(self.difference) <= self.within.base


def against(case: Case, name: str, published: str, *, within: str, source: str) -> Compared:
    """Set a value of `case` beside a published one; `within` is the tolerance, such as half its last digit.

    Raises:
        KitError: an unknown name, or a text that is no quantity of its kind.

    >>> from kit import model
    >>> case = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 mm", gap="1 mm", line="underside")
    >>> against(case, "parallax", "0.1 mm", within="0.001 mm", source="similar triangles, by hand").agrees
    True
    """
    part = case.model.part(name)
    return Compared(part, case.base[name], parse(published, part.unit), parse(within, part.unit), source)


def comparison_table(rows: Sequence[Compared]) -> str:
    """Return ours, published, difference, tolerance and source as a table."""
    body = "".join(_row(row) for row in rows)
    heads = (
        "Quantity",
        "Ours",
        "Published",
        "Difference",
        "Tolerance",
        "Agrees",
        "Source of the published value",
    )
    head = "".join(f'<th scope="col">{title}</th>' for title in heads)
    return f'<table class="fw-table fw-compare"><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>'


def _row(row: Compared) -> str:
    of, places = row.published.unit, _places(row.published)
    ours = fixed(of.from_base(row.ours), places + 1)  # one digit more shows how ours was rounded
    off = fixed(row.difference / of.factor, places + 2)
    mark = "✓ yes" if row.agrees else "✗ no"
    sign = "" if off.startswith("-") else "+"
    texts = (
        _with(ours, of),
        _with(_typed(row.published), of),
        _with(f"{sign}{off}".replace("-", "−"), of),
        f"±\u00a0{_with(_typed(row.within), row.within.unit)}",
        mark,
        row.source,
    )
    name = called(row.part).split(";")[0]
    cells = "".join(f"<td>{escape(text)}</td>" for text in texts)
    return f'<tr><th scope="row">{mathml(row.part.tex)} {escape(name)}</th>{cells}</tr>'


def _typed(quantity: Quantity) -> str:
    """Return the number as it was published, with all its digits."""
    return re.match(r"[^a-zA-Z°%]*", quantity.text)[0].strip()  # type: ignore[index]  # matches any text


def _places(quantity: Quantity) -> int:
    decimals = re.search(r"\.(\d+)", quantity.text)
    return len(decimals[1]) if decimals else 0


def _with(number: str, of: Unit) -> str:
    return f"{number}°" if of.text == "deg" else f"{number}\u00a0{of.text}".strip()
