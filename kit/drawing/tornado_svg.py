"""What matters most, as SVG: how far each given's half-width moves a result either way, the largest on top."""

from __future__ import annotations

import re
from dataclasses import dataclass
from html import escape, unescape
from unicodedata import lookup

from kit.core.errors import KitError
from kit.core.model import Case, Given, Relation
from kit.core.quantity import Display
from kit.core.uncertainty import budget
from kit.drawing.axes_svg import INK, Axis, fitted, opened
from kit.drawing.marks import pieces
from kit.drawing.plots import COLORS, THEMED, axis_label, relation_of, short_words

_MOST = 12  # bars; what comes after them is too small to see
_WIDTH, _LEFT, _RIGHT, _TOP, _EACH, _BAR = 660.0, 8.0, 8.0, 26.0, 36.0, 14.0  # CSS pixels
_SPARE = 0.1  # of what all bars span, on both sides: a bar's number stands beside it
_HALO = f'stroke="{THEMED["#ffffff"]}" stroke-width="3" stroke-linejoin="round" style="paint-order:stroke"'
_WORDS, _LETTER, _LOWERED = (0, 12, "normal"), (0, 12, "italic"), (3, 9, "normal")  # how low, how large, and its style
_ACCENTS = {"bar": "COMBINING MACRON", "hat": "COMBINING CIRCUMFLEX ACCENT"}
_CURLED = {"epsilon": "ϵ", "varepsilon": "ε", "phi": "ϕ", "varphi": "φ"}  # HTML has these names the other way round
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True, slots=True)
class Moved:
    """To where a given's half-width moves a result, either way, base units, and its share of the variance."""

    given: Given
    low: float
    high: float
    share: float


def moved(case: Case, result: str) -> list[Moved]:
    """Return what moves a result, the largest first: by the slope at the case times the half-width.

    Raises:
        KitError: an unknown name, a given instead of a result, or a result that no uncertainty moves.
    """
    relation_of(case, result)
    found = budget(case, result)
    rows = [(abs(row.sensitivity) * row.entry.spread.half, row) for row in found.rows if row.sensitivity]
    if not rows:
        raise KitError(f"no uncertainty is stated for what {result} rests on; state a half-width such as '600 ± 1 mm'")
    rows.sort(key=lambda pair: -pair[0])
    return [Moved(row.entry.given, found.base - half, found.base + half, row.share) for half, row in rows[:_MOST]]


def tornado(case: Case, result: str, display: Display | None = None, words: str = "") -> str:
    """Return a bar for each given that moves a result, beside it its share of the variance.

    `words` are for those who do not see it; each bar is told unless they are given.

    Raises:
        KitError: as `moved`.
    """
    bars, part = moved(case, result), relation_of(case, result)
    spare = _SPARE * (bars[0].high - bars[0].low)
    axis = Axis(part, (bars[0].low - spare, bars[0].high + spare), display or Display())
    told = ", ".join(f"{short_words(bar.given)} {_percent(bar.share)}" for bar in bars)
    bottom = _TOP + _EACH * len(bars) + 5
    parts = [
        opened(_WIDTH, bottom + 44, words or f"What moves {short_words(part)}: {told}"),
        f'<text x="{_LEFT:g}" y="15" font-weight="bold">each half-width by itself; number: its share of the '
        "variance</text>",
    ]
    for base, text in axis.ticks():
        x = _across(axis, base)
        parts.append(f'<path d="M{x:.1f} {_TOP:g}V{bottom:g}" stroke="{THEMED["#d0d0d0"]}"/>')
        parts.append(f'<text x="{x:.1f}" y="{bottom + 16:g}" text-anchor="middle">{text}</text>')
    for number, bar in enumerate(bars):
        y = _TOP + _EACH * number + 18
        left, right = _across(axis, bar.low), _across(axis, bar.high)
        parts.append(
            f'<text x="{_LEFT:g}" y="{y - 6:g}" {_HALO}>{_named(bar.given)}</text>'
            f'<rect x="{left:.1f}" y="{y:g}" width="{right - left:.1f}" height="{_BAR:g}" '
            f'fill="{THEMED[COLORS[0]]}" stroke="{INK}" stroke-width="0.6"/>'
            f'<text x="{right + 5:.1f}" y="{y + 11:g}">{_percent(bar.share)}</text>'
        )
    middle = _across(axis, (bars[0].low + bars[0].high) / 2)
    unit = axis_label(part, axis.display).rpartition("$")[2]
    parts.append(f'<path d="M{middle:.1f} {_TOP:g}V{bottom:g}" stroke="{INK}" stroke-width="0.8"/>')
    parts.append(f'<text x="{_WIDTH / 2:g}" y="{bottom + 36:g}" text-anchor="middle">{_named(part, unit)}</text></svg>')
    return "".join(parts)


def symbol(tex: str) -> str:
    """Return a symbol in plain signs, what stands lower as ``_{...}``; nothing where it takes more than that."""
    plain = re.sub(r"\\mathrm\{([^{}]*)\}|\\,", r"\1", tex.replace(r"\prime", "′"))
    plain = re.sub(r"\\(bar|hat)\{([^{}]*)\}", lambda found: found[2] + lookup(_ACCENTS[found[1]]), plain)
    plain = re.sub(r"\\([A-Za-z]+) ?", lambda found: _CURLED.get(found[1]) or unescape(f"&{found[1]};"), plain)
    plain = re.sub(r"\^\{([-\d*′]*)\}", lambda found: found[1].translate(_RAISED), plain)
    plain = re.sub(r"_(\w)", r"_{\1}", plain).replace(r"\%", "%").replace("'", "′")
    return "" if re.search(r"[\\^&]", plain) else plain


def _named(part: Given | Relation, after: str = "") -> str:
    """Return what a quantity is called, its symbol, and what stands after it."""
    name = fitted(short_words(part), _WIDTH - 12 * _LEFT)
    letters = [(text, *(_LOWERED if lowered else _LETTER)) for text, lowered in pieces(symbol(part.tex))]
    spans, level = [], 0
    for text, drop, size, style in ((f"{name} ", *_WORDS), *letters, (after, *_WORDS)):
        if text:
            spans.append(f'<tspan dy="{drop - level}" font-size="{size}" font-style="{style}">{escape(text)}</tspan>')
            level = drop
    return "".join(spans)


def _across(axis: Axis, base: float) -> float:
    low, high = axis.ends
    return _LEFT + (base - low) / (high - low) * (_WIDTH - _LEFT - _RIGHT)


def _percent(share: float) -> str:
    return "< 1 %" if share < 0.005 else f"{100 * share:.0f} %"
