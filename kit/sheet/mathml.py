"""Formulas as MathML: made from TeX once, then filled with numbers as often as a slider moves."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from html import escape, unescape
from itertools import zip_longest
from typing import TYPE_CHECKING

from kit.core.model import slot

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_OPENING = '<math xmlns="http://www.w3.org/1998/Math/MathML" display="inline">'
_SLOT = re.compile(re.escape(escape(slot("NAME"))).replace("NAME", r"(\w+)"))
_ENTITY = re.compile(r"&#x[0-9A-Fa-f]+;")
_ROMAN = re.compile(r"\\mathrm\{(\w+)\}")  # a single letter would come out italic
_UPRIGHT = re.compile(r'(?:<mi mathvariant="normal">[^<]</mi>){2,}')
_WORD_OPERATOR = re.compile(r"<mo>([A-Za-z]{2,})</mo>")
_SIGN = re.compile(r"(<mo[^>]*>[=<>≤≥(\[{|⌈⌊,]</mo>)<mo>−</mo>")  # a sign, not a difference
_ONE_CHILD = re.compile(r"<mrow>(<(mi|mn|mtext)(?: [^>]*)?>[^<]*</\2>)</mrow>")
_PIECE = re.compile(r"<(/?)(\w+)[^>]*?(/?)>|[^<]+")
_TYPICAL = "1234 mm"  # what stands in a slot, for estimates of length
_LONG = 24  # visible characters from which on a formula may be broken over lines
_BREAKS_BEFORE = ("=", "+", "−")


@lru_cache(maxsize=4096)
def mathml(tex: str) -> str:
    """Return TeX as one or more `<math>` elements in display style.

    A long formula becomes several elements, cut before the =, + and − between its terms, so that it wraps in a
    narrow column as text does. Slots stay as they are.
    """
    from latex2mathml.converter import convert

    body = convert(_ROMAN.sub(r"\\text{\1}", tex)).removeprefix(_OPENING).removesuffix("</math>")
    body = _ENTITY.sub(_character, body).replace(" />", "/>")
    body = _UPRIGHT.sub(lambda run: f"<mi>{re.sub('<[^>]*>', '', run[0])}</mi>", body)
    body = _WORD_OPERATOR.sub(r"<mi>\1</mi>", body)
    body = _ONE_CHILD.sub(r"\1", body).replace("<mo>-</mo>", "<mo>−</mo>")
    body = body.replace("<mrow><mo>=</mo>", '<mrow><mo form="infix">=</mo>', 1)
    body = _SIGN.sub(r'\1<mo form="prefix">−</mo>', body)
    body = body.replace(' stretchy="true" fence="true"', "")  # as fences are anyway
    return " ".join(f'<math displaystyle="true">{part}</math>' for part in _lines(body))


def filled(template: str, numbers: Mapping[str, str]) -> str:
    """Return a template of `kit.core.model.typeset.template` as MathML with each slot replaced by its number's text.

    `numbers` maps names of quantities to plain text with unit, "1200 mm"; it is escaped here. The template is
    converted once, so that a slider pays only for joining texts.
    """
    pieces = _cut(template)
    texts = [escape(numbers[name], quote=False) for name in pieces[1::2]]
    return "".join(part for pair in zip(pieces[::2], [*texts, ""], strict=True) for part in pair)


@lru_cache(maxsize=4096)
def _cut(template: str) -> tuple[str, ...]:
    """Return the MathML of a template cut at its slots: text, name, text, name, ..., text."""
    return tuple(_SLOT.split(mathml(template)))


def _character(entity: re.Match[str]) -> str:
    """Write a character reference as the character, unless it means something in HTML."""
    return escape(unescape(entity[0]), quote=False)


def _lines(body: str) -> list[str]:
    """Cut the outermost row of a long formula into rows that may stand on lines of their own."""
    row = re.fullmatch(r"<mrow>(.*)</mrow>", body, re.DOTALL)
    if not row or len(_SLOT.sub(_TYPICAL, re.sub(r"<[^>]*>", "", body))) < _LONG:
        return [body]
    parts = [""]
    for element in _children(row[1]):
        sign = re.fullmatch(r"<mo(?: form=\"infix\")?>(.)</mo>", element)
        if sign and sign[1] in _BREAKS_BEFORE and parts[-1]:
            parts.append("")
            element = f'<mo form="infix">{sign[1]}</mo>'
        parts[-1] += element
    return [f"<mrow>{part}</mrow>" for part in parts]


def _children(inner: str) -> list[str]:
    """Return the outermost elements of a piece of MathML."""
    found: list[str] = []
    depth = start = 0
    for piece in _PIECE.finditer(inner):
        name = piece[2]
        if name and not piece[3]:
            depth += -1 if piece[1] else 1
        if depth == 0:
            found.append(inner[start : piece.end()])
            start = piece.end()
    return found


def width(html: str) -> float:
    """Return about how wide the widest part of some MathML is, in ems; text between formulas does not count.

    An estimate to set overlong formulas smaller: half an em a character, scripts at 70 %.
    """
    return max((_extent(part) for part in html.split("<math")[1:]), default=0.0)


@lru_cache(maxsize=4096)
def _extent(part: str) -> float:
    from xml.etree import ElementTree as Tree

    part = _SLOT.sub(_TYPICAL, part[: part.index("</math>")])
    return _wide(Tree.fromstring(f"<math{part}</math>"))


def _wide(node: Element) -> float:
    parts = [_wide(child) for child in node]
    match node.tag:
        case "mfrac" | "mover" | "munder" | "munderover":
            return max(parts)
        case "msup" | "msub":
            return parts[0] + 0.7 * parts[1]
        case "msubsup":
            return parts[0] + 0.7 * max(parts[1:])
        case "mtable":
            columns = zip_longest(*([_wide(cell) for cell in row] for row in node), fillvalue=0.0)
            return sum(max(column) + 0.8 for column in columns)
        case "mo":
            return 1.0
        case "mspace":
            return 0.2
    return 0.5 * len(node.text or "") + sum(parts)
