"""TeX to MathML: the structure that the MathML Core recommendation prescribes for each construct, and slots."""

from pathlib import Path

import pytest

from kit import subjects
from kit.core.model import Case, derivation, slot
from kit.sheet.carried import carried
from kit.sheet.mathml import filled, mathml, width
from tests.sheet.reading import Node, read
from tests.sheet.subset_font import ITALICS, LETTERS, SIGNS

# TeX, and the shape that MathML Core gives it: names of elements, text of tokens.
SHAPES = [
    (r"\sqrt{a}", "msqrt(mi:a)"),
    (r"\sqrt[3]{a}", "mroot(mi:a mn:3)"),
    (r"\frac{a}{b}", "mfrac(mi:a mi:b)"),
    (r"a^{2}", "msup(mi:a mn:2)"),
    (r"a_{1}^{2}", "msubsup(mi:a mn:1 mn:2)"),
    (r"F_{\mathrm{h}}", "msub(mi:F mtext:h)"),
    (r"\delta_{\mathrm{max}}", "msub(mi:δ mtext:max)"),
    (r"\int\limits_{0}^{L} x", "munderover(mo:∫ mn:0 mi:L) mi:x"),
    (r"\left(a + b\right)", "mo:( mi:a mo:+ mi:b mo:)"),
    (r"\left\lceil \frac{a}{b} \right\rceil", "mo:⌈ mfrac(mi:a mi:b) mo:⌉"),
    (r"\begin{cases} a & \text{for}\: b \\ c & \text{otherwise} \end{cases}",
     "mo:{ mtable(mtr(mtd(mi:a) mtd(mtext:for mspace: mi:b)) mtr(mtd(mi:c) mtd(mtext:otherwise)))"),
    (r"\left[\begin{matrix}a & b\\c & d\end{matrix}\right]",
     "mo:[ mtable(mtr(mtd(mi:a) mtd(mi:b)) mtr(mtd(mi:c) mtd(mi:d))) mo:]"),
    (r"\max\left(a, b\right)", "mi:max mo:( mi:a mo:, mi:b mo:)"),
    (r"\operatorname{atan}_{2}\left(a\right)", "msub(mi:atan mn:2) mo:( mi:a mo:)"),
    (r"\sin^{2}{\left(\beta \right)}", "msup(mi:sin mn:2) mo:( mi:β mo:)"),
    (r"\bar{y}", "mover(mi:y mo:¯)"),
]  # fmt: skip


def shape(node: Node) -> str:
    inner = [child for child in node.children if isinstance(child, Node)]
    if node.tag in ("mrow", "math"):
        return " ".join(map(shape, inner))
    return f"{node.tag}({' '.join(map(shape, inner))})" if inner else f"{node.tag}:{node.text}"


@pytest.mark.parametrize(("tex", "expected"), SHAPES)
def test_a_construct_has_the_shape_of_mathml_core(tex: str, expected: str) -> None:
    assert shape(read(mathml(tex)).one("math")) == expected


def test_what_tex_writes_upright_is_upright() -> None:
    """A single letter in mi is italic by MathML Core 2.2; in mtext it is not."""
    assert "<mi>h</mi>" not in mathml(r"F_{\mathrm{h}}")


def test_a_minus_is_a_sign_or_a_difference() -> None:
    signs = read(mathml(r"= - a - \left(- b - c\right)")).all("mo")
    forms = [sign.attributes.get("form") for sign in signs if sign.text == "−"]
    assert forms == ["prefix", None, "prefix", None]


def test_a_long_sum_becomes_pieces_that_wrap_and_a_short_one_stays_whole() -> None:
    long = mathml(" + ".join(rf"\frac{{a_{{{n}}}^{{2}}}}{{b_{{{n}}}\,c_{{{n}}}\,d_{{{n}}}}}" for n in range(9)))
    pieces = read(long).all("math")
    assert len(pieces) == 9
    assert all(piece.all("mo")[0].has("form", "infix") for piece in pieces[1:])
    assert len(read(mathml("a + b - c = d")).all("math")) == 1


def test_slots_take_numbers_and_nothing_else_changes(stop: Case) -> None:
    for line in (line for line in carried(stop).lines.values() if line.template):
        template, numbers = line.template, line.slots
        by_hand = mathml(template)
        for name, text in numbers.items():
            by_hand = by_hand.replace(slot(name), text)
        assert filled(template, numbers) == by_hand
        assert "⟦" not in by_hand


def test_numbers_are_escaped() -> None:
    html = filled(rf"\text{{{slot('a')}}}", {"a": "<b>&"})
    assert read(html).one("mtext").text == "<b>&"
    assert "<b>" not in html


def test_a_formula_is_set_once_and_only_filled_afterwards(stop: Case, monkeypatch: pytest.MonkeyPatch) -> None:
    """A control moves many times a second; the converter takes milliseconds a formula."""
    lines = [line for line in carried(stop).lines.values() if line.template][:10]
    assert lines
    before = [filled(line.template, line.slots) for line in lines]

    def convert(*_: object, **__: object) -> str:
        raise AssertionError("a formula is converted again")

    monkeypatch.setattr("latex2mathml.converter.convert", convert)
    monkeypatch.setattr("kit.sheet.mathml.mathml", convert)
    assert [filled(line.template, line.slots) for line in lines] == before
    other = [filled(line.template, dict.fromkeys(line.slots, "987.6 mm")) for line in lines if line.template]
    assert other
    assert all("987.6" in each for each in other)


def test_width_counts_the_wider_of_numerator_and_denominator() -> None:
    """Half an em a character, an em an operator: by hand."""
    assert width(mathml(r"\frac{\text{abcd}}{\text{ab}}")) == pytest.approx(2.0)
    assert width(mathml(r"a + b")) == pytest.approx(2.0)
    assert width("words alone") == 0.0


def test_the_font_has_every_character_of_every_formula() -> None:
    kept = {chr(code) for part in LETTERS + ITALICS for code in part} | set(SIGNS)
    used: set[str] = set()
    for name in subjects.names():
        model = subjects.model(name)
        numbers = carried(model.at()).lines
        for step in derivation(model):
            for tex in (step.formula, step.relation.tex, *(line.tex for line in step.lines)):
                used |= set(read(mathml(tex)).text)
            put_in = numbers[step.relation.name]
            used |= set(read(filled(put_in.template, put_in.slots)).text) if put_in.template else set()
        for given in model.givens.values():
            used |= set(read(mathml(given.tex)).text)
    assert used - kept == set()


def test_the_font_file_is_small() -> None:
    """At most 50 KiB when embedded in base 64, four characters for three bytes."""
    font = Path(__file__).resolve().parents[2] / "kit" / "sheet" / "font" / "math.woff2"
    assert font.stat().st_size * 4 / 3 < 50 * 1024
