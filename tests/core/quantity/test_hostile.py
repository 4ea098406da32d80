"""Hostile text: at least 100,000 seeded strings, out of which only a quantity or the one error may come.

The work that a text makes is counted in function calls, which no other load of the machine changes.
"""

import random
import sys
from collections.abc import Iterator
from math import isfinite
from types import FrameType

import pytest

from kit.core.quantity import Quantity, QuantityError, Unit, parse, unit

SEED = 20240229
FIELDS = tuple(unit(name) for name in ("mm", "in", "deg", "N", "GPa", "%", "", "degC", "K", "1/K", "mm^4", "N·m"))
VALID = {
    "23 3/4 in": "mm", "23-3/4\"": "mm", "1' 6 1/2\"": "in", "5/8": "in", "600 mm": "mm",
    "0.6 m": "mm", "1.2e-3 m": "mm",
    "38 deg": "deg",
    "38° 30' 15\"": "deg", "60 N": "N", "12 lbf": "N", "1.8 Msi": "GPa", "12.3 GPa": "GPa", "12 %": "%",
    "600 ± 0.2 mm": "mm", "600 mm +/- 0.2 mm": "in", "23 3/4 ± 1/64 in": "mm", "23¾ in": "mm", "−1 1/2 in": "mm",
    "20 degC": "degC", "68 °F ± 1 K": "degC", "12×10⁻⁶ 1/K": "1/K", "1.234×10⁶ mm⁴": "mm^4", "5 in-lbf": "N·m",
    "7 kg·m²/s^2": "N·m", "23 3/4 in (+0.004 in)": "mm", "5 N/(mm·m)": "GPa",
}  # fmt: skip
TEXTS = tuple(VALID)
INJECTED = (
    "__import__('os').system('id')", "9**9**9", "eval('1')", "lambda: 0", "{0.__class__}", "%s%s%s", "${7*7}",
    "<script>alert(1)</script>", "'; DROP TABLE woods; --", "0x1F mm", "1j mm", "1e400", "1_0 mm", "os.environ",
    "..", "\\N{BULLET}", "inf mm", "nan", "1/0 in", "-0 mm", "1/-1", "10^10^10 mm", "$(id)", "`id`", "\x1b[31m5 mm",
)  # fmt: skip
ALPHABET = "0123456789 ./-+*^()'\"°±×·eEx%,mminftdegNlbK¾½²⁶⁻′″\u2009µ"


def any_character(source: random.Random) -> str:
    return chr(source.choice((source.randrange(0x80), source.randrange(0x3000), source.randrange(0x110000))))


def mutated(source: random.Random, valid: str) -> str:
    text = list(valid)
    for _ in range(source.choice((1, 1, 1, 2, 3, 4))):
        at = source.randrange(len(text) + 1)
        act = source.randrange(5)
        if act == 0:
            text[at : at + 1] = []
        elif act == 1:
            text.insert(at, source.choice(ALPHABET))
        elif act == 2:
            text[at:at] = text[max(0, at - 3) : at]
        elif act == 3:
            text[at : at + 1] = any_character(source)
        else:
            text += list(source.choice(TEXTS))
    return "".join(text)


def hostile(source: random.Random) -> tuple[str, Unit]:
    """Return a text and a field to type it in: for a text near a valid one that one's field, often."""
    kind, valid, field = source.randrange(20), source.choice(TEXTS), source.choice(FIELDS)
    if kind < 9:
        return mutated(source, valid), unit(VALID[valid]) if source.random() < 0.8 else field
    if kind < 14:
        return "".join(source.choice(ALPHABET) for _ in range(source.randint(0, 25))), field
    if kind < 16:
        return "".join(any_character(source) for _ in range(source.randint(0, 20))), field
    if kind == 16:
        return source.choice(INJECTED) + source.choice(("", " ", valid)), field
    if kind == 17:
        return "".join(source.choice("+-−± (") for _ in range(source.randint(1, 30))) + valid, unit(VALID[valid])
    if kind == 18:
        return "".join(source.choice("0123456789./e") for _ in range(source.randint(1, 250))) + " mm", field
    return source.choice(ALPHABET) * source.randint(1, 400), field


def outcome(text: str, field: Unit) -> Quantity | None:
    """Return what is read, None for the one error; any other exception is the test's failure."""
    try:
        return parse(text, field)
    except QuantityError as error:
        sentence = str(error)
    if not sentence.isprintable() or len(sentence) > 320:
        pytest.fail(f"no sentence to show: {sentence!r}")
    return None


def test_only_a_quantity_or_the_one_error_comes_out_of_100_000_hostile_strings() -> None:
    source = random.Random(SEED)
    read = 0
    for _ in range(100_000):
        text, field = hostile(source)
        found = outcome(text, field)
        if found is not None:
            read += 1
            assert isfinite(found.base)
            assert found.half is None or (isfinite(found.half) and found.half >= 0)
            assert field.takes(found.unit)
    assert 5_000 < read < 50_000  # near enough to quantities to reach all of the grammar, and hostile


def test_only_a_unit_or_the_one_error_comes_out_of_hostile_unit_names() -> None:
    source = random.Random(SEED + 1)
    for _ in range(10_000):
        text, _field = hostile(source)
        try:
            found = unit(text)
        except QuantityError:
            continue
        assert unit(found.text) is found


def calls_made(text: str) -> int:
    """Return how many Python and built-in functions the reading of a text calls."""
    count = 0

    def counting(frame: FrameType, event: str, argument: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(counting)
    try:
        outcome(text, FIELDS[0])
    finally:
        sys.setprofile(None)
    return count


def repeated() -> Iterator[str]:
    for piece in ("1", "1 ", "1/", "(", ")", "'", "1'", "1° ", "-", "+/-", "mm·", "mm ", "/mm", "(+1 mm)", "¾", "⁶",
                  "×10⁶", "1×10^6", "N/(", "q", "q ", " ", "±1", "e", ".", "\u0301", "x10^"):  # fmt: skip
        for head in ("", "1 ", "600 mm", "38° "):
            yield (head + piece * 200)[:200]


def test_the_work_is_bounded_by_the_length_of_the_text() -> None:
    # The dearest single step is a list of near misses, about a thousand calls whatever the length.
    source = random.Random(SEED + 2)
    for text in [*repeated(), *(hostile(source)[0] for _ in range(3000))]:
        assert calls_made(text) <= 2500 + 10 * min(len(text), 200), text


@pytest.mark.parametrize("piece", ["1 ", "N/(", "mm·", "+/-", "'", "q", "\ud800", "9" * 50])
def test_a_text_beyond_the_cap_is_not_even_scanned(piece: str) -> None:
    just_beyond, far_beyond = (calls_made((piece * size)[:size]) for size in (201, 100_000))
    assert far_beyond <= just_beyond + 20
