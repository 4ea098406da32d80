"""Reading quantities as people write them: "23 3/4 in", "1' 6-1/2\\"", "38° 30'", "600 ± 0.2 mm".

    quantity = measure [± number [unit]] ["(" sign measure ")"]
    measure  = [sign] number [unit {number unit}]      parts: feet and inches, degrees and minutes
    number   = decimal [× 10^n] | [whole (blank | "-")] whole "/" whole

Every token is looked at a fixed number of times; nothing of the text is ever evaluated.
"""

from math import isfinite

from kit.core.quantity.errors import QuantityError, UnreadError, said
from kit.core.quantity.quantity import Quantity
from kit.core.quantity.tokens import END, VULGAR, Token, tokens
from kit.core.quantity.units import Unit, read_unit, starts_unit, unit

# Parts that may follow a first part: how many of each make one of the first, and the number they stay below.
_PARTS = {"ft": (("in", 12, 12),), "deg": (("arcmin", 60, 60), ("arcsec", 3600, 60))}
_LENGTH_MARK = {"'": "ft", '"': "in"}
_NUMERIC = ("number", "vulgar")
_ANGLE_MARK = {"'": "arcmin", '"': "arcsec"}


def parse(text: str, field: Unit | str | None = "mm") -> Quantity:
    """Return the quantity that `text` says; a bare number takes the unit of the `field`.

    Without a field any unit is taken, and a bare number is a plain number. A correction as `show` writes it,
    "23 3/4 in (+0.004 in)", is added to the value.

    Raises:
        QuantityError: no quantity, or one of another dimension than the field's.

    >>> parse("23 3/4 in")
    Quantity('23 3/4 in')
    >>> parse("600 ± 0.2").half
    0.2
    >>> parse("38", "deg").base  # radians
    0.6632251157578453
    """
    wanted = unit(field) if isinstance(field, str) else field
    allowed = f"; this field takes {wanted.kind} such as {wanted.example}" if wanted else ""
    given: object = text
    if isinstance(given, str) and not given.strip():
        raise QuantityError("Nothing was typed" + allowed)
    try:
        return _Reader(text, wanted).quantity()
    except UnreadError as fault:
        raise fault.about(text, allowed) from None


class _Reader:
    """A recursive descent over the tokens of one text."""

    def __init__(self, text: str, field: Unit | None) -> None:
        self.tokens = tokens(text)
        self.text = text
        self.field = field or unit("")
        self.any = field is None
        self.at = 0

    def peek(self, ahead: int = 0) -> Token:
        return self.tokens[self.at + ahead] if self.at + ahead < len(self.tokens) else END

    def quantity(self) -> Quantity:
        value, typed = self.measure()
        half: float | None = None
        of_half: Unit | None = None
        if self.peek().kind == "pm":
            self.at += 1
            half, of_half = self.number()[0], self.unit_here(_LENGTH_MARK)
        shown = typed or of_half or self.field
        self.check(shown)
        if half is not None and of_half is not None and of_half != shown:
            if not of_half.takes(shown) and not shown.takes(of_half):
                raise UnreadError(f"has a value in {shown.text} and after ± one in {of_half.text or 'none'}")
            half *= of_half.factor / shown.factor
        if self.peek().text == "(":
            value += self.correction(shown)
        if self.peek().kind != "end":
            raise UnreadError(self.surplus())
        for number in (shown.to_base(value), (half or 0.0) * shown.factor):
            if not isfinite(number):
                raise UnreadError("is too large a number")
        bare = typed is None and of_half is None and shown.text != ""
        return Quantity(value, shown, half, bare, self.text)

    def check(self, typed: Unit) -> None:
        if self.any or self.field.takes(typed):
            return
        if typed.offset and self.field.dim == typed.dim:
            raise UnreadError(f"is a reading in {typed.text}, and a difference is wanted: type it in K")
        feet = typed.text == "ft" and self.field.angle == 1
        hint = "; write 0° 30' or 30 arcmin, as a prime without degrees before it is a foot" if feet else ""
        raise UnreadError(f"is in {typed.text}, {typed.kind}" if typed.text else "is a plain number", hint)

    def correction(self, shown: Unit) -> float:
        """Read "(+0.004 in)"; return it in the unit shown."""
        self.at += 1
        sign = self.peek().text
        if sign not in ("+", "-"):
            raise UnreadError("has a parenthesis that holds no correction with its sign")
        value, typed = self.measure()
        if typed is None or not shown.takes(typed) or self.peek().text != ")":
            raise UnreadError("has a correction in parentheses that is not one number with a unit of the same kind")
        self.at += 1
        return value * typed.factor / shown.factor

    def measure(self) -> tuple[float, Unit | None]:
        """Read a number and its unit, or feet and inches, or degrees, minutes and seconds."""
        negative = self.peek().text == "-"
        if self.peek().text in ("+", "-"):
            self.at += 1
        value, whole = self.number()
        typed = self.unit_here(_LENGTH_MARK)
        if typed is not None and typed.text in _PARTS:
            value, typed = self.parts(value, whole, typed)
        return -value if negative else value, typed

    def parts(self, total: float, whole: bool, first: Unit) -> tuple[float, Unit]:
        """Read the inches after feet, in inches; or minutes, seconds after degrees."""
        marks = _ANGLE_MARK if first.angle else _LENGTH_MARK
        last, in_first = first, 1
        allowed = {name: (count, below) for name, count, below in _PARTS[first.text]}
        while allowed and self.another_part(first):
            if not whole:
                raise UnreadError(f"has a fraction of {last.text} and smaller parts after it")
            number, whole = self.number()
            part = self.unit_here(marks)
            if part is None or part.text not in allowed:
                raise UnreadError(
                    f"has a part after the {last.text} whose unit is not {' or '.join(map(repr, allowed))}",
                    "; write it like 38° 30' 15\"" if first.angle else "; write it like 1' 6 1/2\"",
                )
            count, below = allowed[part.text]
            if number >= below:
                raise UnreadError(f"has {number:.6g} {part.text} after the {last.text}, where it must be below {below}")
            total, last, in_first = total * (count / in_first) + number, part, count
            allowed = {name: size for name, size in allowed.items() if size[0] > count}
        return (total / in_first, first) if first.angle else (total, last)

    def another_part(self, first: Unit) -> bool:
        """Whether a number follows; the dash of 1'-6" is passed over."""
        dash, after = self.peek(), self.peek(1)
        if first.text == "ft" and dash.text == "-" and after.kind in _NUMERIC and dash.spaced == after.spaced:
            self.at += 1
        return self.peek().kind in _NUMERIC

    def number(self) -> tuple[float, bool]:
        """Read "600", "1.2e-3", "1.234×10⁶", "5/8", "23 3/4", "23-3/4" or "23¾"; say whether it is whole."""
        token = self.peek()
        if token.kind not in _NUMERIC:
            raise UnreadError(f"has no number {'at its end' if token.kind == 'end' else 'before ' + said(token.text)}")
        if token.kind == "vulgar" or self.fraction_at(0):
            return self.fraction(0), False
        self.at += 1
        if token.is_int:
            dash, after = self.peek(), self.peek(1)
            hyphen = dash.text == "-" and not dash.spaced and not after.spaced and self.fraction_at(1)
            if hyphen or self.fraction_at(0):
                self.at += hyphen
                return self.fraction(int(token.text)), False
        digits = token.text + self.power_of_ten() if "e" not in token.text.lower() else token.text
        value = float(digits)
        if not isfinite(value) or (value == 0 and any(d in "123456789" for d in token.text.lower().split("e")[0])):
            raise UnreadError("has a number too large or too small to compute with")
        return value, token.is_int

    def fraction_at(self, ahead: int) -> bool:
        """Whether a fraction begins `ahead` tokens from here."""
        first, slash, second = self.peek(ahead), self.peek(ahead + 1), self.peek(ahead + 2)
        return first.kind == "vulgar" or (first.is_int and slash.text == "/" and second.kind == "number")

    def fraction(self, whole: int) -> float:
        """Read a fraction and add the whole number before it, in whole numbers up to one division."""
        token = self.peek()
        if token.kind == "vulgar":
            over, under = VULGAR[token.text]
            self.at += 1
        else:
            if not self.peek(2).is_int:
                raise UnreadError("has a fraction that is not made of whole numbers")
            over, under = int(token.text), int(self.peek(2).text)
            self.at += 3
        if under == 0:
            raise UnreadError("divides by zero")
        if whole and over >= under:
            raise UnreadError("has a fraction of one or more after a whole number")
        return (whole * under + over) / under

    def power_of_ten(self) -> str:
        """Read "×10⁶" or "*10^6" if it stands here; return it as "e6"."""
        times, ten, raised = self.peek(), self.peek(1), self.peek(2)
        if times.text not in ("×", "*", "x") or ten.text != "10":
            return ""
        if raised.kind == "power":
            self.at += 3
            return "e" + raised.text
        sign = self.peek(3).text if self.peek(3).text in ("+", "-") else ""
        exponent = self.peek(4 if sign else 3)
        if raised.text not in ("^", "**") or not exponent.is_int:
            return ""
        self.at += 5 if sign else 4
        return f"e{sign}{exponent.text}"

    def unit_here(self, marks: dict[str, str]) -> Unit | None:
        """Read the unit that stands here, if one does; `marks` says what a prime means."""
        if self.peek().kind == "mark":
            self.at += 1
            return unit(marks[self.tokens[self.at - 1].text])
        if not starts_unit(self.tokens, self.at):
            return None
        found, self.at = read_unit(self.tokens, self.at)
        return found

    def surplus(self) -> str:
        token, before = self.peek(), self.tokens[self.at - 1]
        if token.kind in _NUMERIC and before.kind in _NUMERIC:
            return "has two numbers in a row (no blank separates thousands, and a fraction has a slash)"
        return f"cannot be read from {said(token.text)} on"
