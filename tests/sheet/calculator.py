"""A checker with a calculator: works a printed line from the digits printed in it, by none of the kit's code.

MathML is read as a person reads it: a power after f(x) is of f(x), a product sign may be missing, a number's unit is
left out. Sines and the like are pressed in degrees where a number of the line bears the degree sign, else in radians.
"""

import math
import re
from collections.abc import Callable
from decimal import Decimal
from itertools import pairwise

from tests.sheet.reading import Node

LOWER = str.maketrans("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "-0123456789")
NUMBER = re.compile(r"\(?([−-]?)(\d+(?:\.\d+)?)(?:×10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?")
MIXED = re.compile(r"([−-]?)(?:(\d+) )?(\d+)/(\d+) in(?: \(([+-][\d.]+) in\))?")


def number(text: str) -> float:
    """The number that a text begins with: "1.2×10⁶ psi", "(−2 mm)", "23 3/4 in (+0.004 in)"."""
    mixed = MIXED.match(text)
    if mixed:
        sign, whole, over, under, more = mixed.groups()
        size = int(whole or 0) + int(over) / int(under)
        return (-size if sign else size) + float(more or 0)
    found = NUMBER.match(text)
    assert found, f"no number in {text!r}"
    sign, digits, power = found.groups()
    size = float(f"{digits}e{(power or '0').translate(LOWER)}")
    note = re.search(r"\(([+-][\d.]+) (?:in|mm)\)$", text)
    return (-size if sign else size) + (float(note[1]) if note else 0.0)


def half_a_digit(text: str) -> float:
    """Half a unit of the last digit printed."""
    found = NUMBER.match(text)
    assert found, f"no number in {text!r}"
    places = -int(Decimal(found[2]).as_tuple().exponent)
    return 0.5 * 10.0 ** (int((found[3] or "0").translate(LOWER)) - places)


def pressed(text: str) -> float:
    """A chain of keys from left to right: "38° · π/180", "(68 °F + 459.67) ÷ 1.8", "44 lb/ft³ ÷ 1728"."""
    words = text.replace("(", "").replace(")", "").split(" ")
    total = number(words[0])
    for sign, operand in pairwise(words):
        if sign in ("·", "÷", "+", "−"):
            over, _, under = operand.partition("/")
            size = _plain(over) / _plain(under or "1")
            total = {"·": total * size, "÷": total / size, "+": total + size, "−": total - size}[sign]
    return total


def _plain(text: str) -> float:
    return math.pi if text == "π" else float(text)


OPEN = {"(": ")", "[": "]", "⌈": "⌉", "⌊": "⌋", "|": "|"}
FUNCTIONS: dict[str, Callable[..., float]] = {
    "ln": math.log, "exp": math.exp, "erf": math.erf, "max": max, "min": min,
    "sign": lambda x: (x > 0) - (x < 0),
}  # fmt: skip
TURNING = {"sin": math.sin, "cos": math.cos, "tan": math.tan}
TURNED = {"arctan": math.atan, "arcsin": math.asin, "arccos": math.acos, "atan2": math.atan2}


class Calculator:
    """Works one line; its `degrees` says how sines are pressed."""

    def __init__(self, line: Node, *, degrees: bool) -> None:
        self.turn = math.pi / 180 if degrees else 1.0
        self.index: dict[str, float] = {}
        self.items = self._flat(line.all("math"))

    def value(self) -> float:
        items = [item for item in self.items if not (item.tag == "mo" and item.text == "=")]
        return self._row(items)

    # -- a row of items -------------------------------------------------------------------------------

    def _flat(self, nodes: list[Node]) -> list[Node]:
        """Items of a row with rows within rows opened."""
        items: list[Node] = []
        for node in nodes:
            if node.tag in ("math", "mrow", "mstyle"):
                items += self._flat([child for child in node.children if isinstance(child, Node)])
            elif node.tag != "mspace":
                items.append(node)
        return items

    def _row(self, items: list[Node]) -> float:
        self_items, place = items, 0
        total, place = self._sum(self_items, place)
        assert place == len(items), f"read {place} of {[item.text for item in items]}"
        return total

    def _sum(self, items: list[Node], at: int) -> tuple[float, int]:
        total, sign = 0.0, 1.0
        if at < len(items) and self._is(items[at], "−", "+"):
            sign, at = (-1.0 if items[at].text == "−" else 1.0), at + 1
        while True:
            term, at = self._product(items, at)
            total += sign * term
            if at == len(items) or not self._is(items[at], "+", "−"):
                break
            sign, at = (-1.0 if items[at].text == "−" else 1.0), at + 1
        if at < len(items) and items[at].text == "mod":
            divisor, at = self._product(items, at + 1)
            total = total % divisor
        return total, at

    def _product(self, items: list[Node], at: int) -> tuple[float, int]:
        total, at = self._factor(items, at)
        while at < len(items) and items[at].text != "mod":
            item = items[at]
            if self._is(item, "·", "⋅"):
                at += 1
            elif item.tag == "mo" and not self._opens(item) and item.text not in ("∑",):
                break
            more, at = self._factor(items, at)
            total *= more
        return total, at

    def _factor(self, items: list[Node], at: int) -> tuple[float, int]:
        item = items[at]
        called = self._function(item)
        if called:
            function, power = called
            arguments, after, raised = self._arguments(items, at + 1)
            return function(*arguments) ** (power * raised), after
        if self._opens(item):
            inner, after = self._inside(items, at)
            return self._fenced(item.text, inner), after
        if item.tag in ("munderover", "msubsup") and item.text.startswith("∑"):
            return self._added(items, at)
        return self._one(item), at + 1

    def _arguments(self, items: list[Node], at: int) -> tuple[list[float], int, float]:
        """What follows a function's name: its arguments, the place after them, and a power that is put on all."""
        item, raised = items[at], 1.0
        if item.tag == "msup":
            base, exponent = (child for child in item.children if isinstance(child, Node))
            within = self._flat([base])
            if self._opens(within[0]):
                return self._listed(self._inside(within, 0)[0]), at + 1, self._row(self._flat([exponent]))
        if self._opens(item):
            inner, after = self._inside(items, at)
            if item.text == "(":
                return self._listed(inner), after, raised
            return [self._fenced(item.text, inner)], after, raised
        value, after = self._factor(items, at)
        return [value], after, raised

    def _listed(self, items: list[Node]) -> list[float]:
        """The values of a list between commas."""
        lists: list[list[Node]] = [[]]
        depth = 0
        for item in items:
            depth += self._opens(item) - self._closes(item)
            if item.text == "," and item.tag == "mo" and depth == 0:
                lists.append([])
            else:
                lists[-1].append(item)
        return [self._row(each) for each in lists]

    def _inside(self, items: list[Node], at: int) -> tuple[list[Node], int]:
        depth = 0
        for end in range(at, len(items)):
            depth += self._opens(items[end]) - self._closes(items[end])
            if depth == 0:
                return items[at + 1 : end], end + 1
        raise AssertionError("a fence is not closed")

    def _fenced(self, fence: str, inner: list[Node]) -> float:
        value = self._row(inner)
        return {"⌈": math.ceil, "⌊": math.floor, "|": abs}.get(fence, float)(value)

    def _added(self, items: list[Node], at: int) -> tuple[float, int]:
        sign, below, above = (child for child in items[at].children if isinstance(child, Node))
        assert sign.text == "∑"
        name, _, first = below.text.replace(" ", "").partition("=")
        last, total, after = self._row(self._flat([above])), 0.0, at
        for step in range(int(first.replace("−", "-")), int(last) + 1):
            self.index[name] = step
            term, after = self._product(items, at + 1)
            total += term
        return total, after

    # -- one item -------------------------------------------------------------------------------------

    def _function(self, item: Node) -> tuple[Callable[..., float], float] | None:
        power = 1.0
        if item.tag == "msup":
            base, exponent = (child for child in item.children if isinstance(child, Node))
            if base.tag == "mi" and len(base.text) > 1:
                item, power = base, self._row(self._flat([exponent]))
        name = "atan2" if item.tag == "msub" and item.text.replace(" ", "") == "atan2" else item.text
        if name in FUNCTIONS:
            return FUNCTIONS[name], power
        if name in TURNING:
            return lambda x: TURNING[name](x * self.turn), power
        if name in TURNED:
            return lambda *x: TURNED[name](*x) / self.turn, power
        return None

    def _one(self, item: Node) -> float:
        parts = [self._flat([child]) for child in item.children if isinstance(child, Node)]
        if item.tag == "mfrac":
            return self._row(parts[0]) / self._row(parts[1])
        if item.tag == "msqrt":
            return math.sqrt(self._row([each for part in parts for each in part]))
        if item.tag == "mroot":
            return self._row(parts[0]) ** (1 / self._row(parts[1]))
        if item.tag == "msup":
            return float(self._row(parts[0]) ** self._row(parts[1]))
        if item.text in ("π", "e"):
            return {"π": math.pi, "e": math.e}[item.text]
        if item.text in self.index:
            return self.index[item.text]
        return number(item.text)

    def _is(self, item: Node, *signs: str) -> bool:
        return item.tag == "mo" and item.text in signs

    def _opens(self, item: Node) -> bool:
        return item.tag == "mo" and item.text in OPEN and not (item.text == "|" and self._closes(item))

    def _closes(self, item: Node) -> bool:
        if item.tag != "mo":
            return False
        return item.text in ")]⌉⌋" or (item.text == "|" and item.attributes.get("form") == "postfix")
