"""Inputs that are one value: a quantity, a number, a word, a text, a file."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from kit.core.errors import near_misses
from kit.core.model.inputs import Input, Path, Reading, bare, short
from kit.core.quantity import Display, Quantity, QuantityError, parse, show, show_in, unit


@dataclass(frozen=True, kw_only=True)
class Amount(Input):
    """A quantity in the field's unit, within a span in that unit; `sure`: it needs its ±.

    `other_unit`: a quantity of that kind serves as well, as the way of a joint may be an angle or a length.
    """

    in_unit: str = "mm"
    other_unit: str = ""
    span: tuple[float, float] | None = None
    default: str | None = None
    sure: bool = False

    kind = "amount"

    def read(self, raw: Any, at: Path, reading: Reading) -> Quantity | None:
        """Return the quantity; it may stand in a table with its origin."""
        raw = bare(self.name, raw, at, reading, f'"12 {self.in_unit}"')
        if raw is None:
            return None
        if isinstance(raw, bool) or not isinstance(raw, str | int | float):
            reading.fault(at, f"{self.name} is {short(raw)}", f'write a quantity such as "12 {self.in_unit}"')
            return None
        try:
            found = self._parsed(str(raw))
        except QuantityError as error:
            message, _, remedy = str(error).partition("; ")
            reading.fault(at, f"{self.name}: {message}", remedy or f'write such as "12 {self.in_unit}"')
            return None
        if self.span is not None:
            low, high = (unit(self.in_unit).to_base(end) for end in self.span)
            slack = 1e-12 * max(abs(low), abs(high))
            if not low - slack <= found.base <= high + slack:
                ends = " to ".join(show_in(end, found.unit) for end in (low, high))
                reading.fault(at, f"{self.name} is {found}", f"allowed is {ends}")
                return None
        if self.sure and not found.half_base:
            label = show_in(found.base, found.unit)
            reading.fault(at, f"{self.name} is {found}, without its uncertainty", f'write such as "{label} ± 0.5"')
            return None
        return found

    def _parsed(self, text: str) -> Quantity:
        try:
            return parse(text, self.in_unit)
        except QuantityError:
            if self.other_unit:
                with suppress(QuantityError):
                    return parse(text, self.other_unit)
            raise

    def missing(self) -> Quantity | None:
        """Return the default."""
        return None if self.default is None else parse(self.default, self.in_unit)

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        more: dict[str, Any] = {"unit": self.in_unit, "default": self.default, "sure": self.sure}
        more |= {"other_unit": self.other_unit} if self.other_unit else {}
        return super().schema() | more | ({"span": list(self.span)} if self.span else {})

    def words(self, value: Quantity, display: Display | None = None) -> str:
        """Return the quantity in the reader's units."""
        of = value.unit if self.other_unit else unit(self.in_unit)
        return show(value.base, of, display, half=value.half_base)


@dataclass(frozen=True, kw_only=True)
class Count(Input):
    """A whole number within a span."""

    span: tuple[int, int] = (1, 1_000_000)
    default: int | None = None

    kind = "count"

    def read(self, raw: Any, at: Path, reading: Reading) -> int | None:
        """Return the number; it may stand in a table with its origin."""
        low, high = self.span
        raw = bare(self.name, raw, at, reading, str(low))
        if raw is None:
            return None
        if isinstance(raw, bool) or not isinstance(raw, int) or not low <= raw <= high:
            reading.fault(at, f"{self.name} is {short(raw)}", f"write a whole number from {low} to {high}")
            return None
        return raw

    def missing(self) -> int | None:
        """Return the default."""
        return self.default

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"span": list(self.span), "default": self.default}


@dataclass(frozen=True, kw_only=True)
class Choice(Input):
    """One of a few words; with `number`, a whole number from 1 up serves as well."""

    options: tuple[str, ...]
    default: str | None = None
    number: bool = False

    kind = "choice"

    def read(self, raw: Any, at: Path, reading: Reading) -> str | int | None:
        """Return the word, or the number."""
        if isinstance(raw, str) and raw in self.options:
            return raw
        if self.number and isinstance(raw, int) and not isinstance(raw, bool) and raw >= 1:
            return raw
        near = near_misses(str(raw), list(self.options)).removeprefix("; ")
        more = ", or a whole number" if self.number else ""
        reading.fault(at, f"{self.name} is {short(raw)}", near or f"write one of {', '.join(self.options)}{more}")
        return None

    def missing(self) -> str | None:
        """Return the default."""
        return self.default

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"options": list(self.options), "default": self.default}


@dataclass(frozen=True, kw_only=True)
class Flag(Input):
    """True or false; false where nothing is stated."""

    kind = "flag"

    def read(self, raw: Any, at: Path, reading: Reading) -> bool | None:
        """Return it."""
        if not isinstance(raw, bool):
            reading.fault(at, f"{self.name} is {short(raw)}", "write true or false")
            return None
        return raw

    def missing(self) -> bool:
        """Return false."""
        return False

    def words(self, value: bool, display: Display | None = None) -> str:
        """Return yes or no."""
        return "yes" if value else "no"


@dataclass(frozen=True, kw_only=True)
class Text(Input):
    """A text; `refers` names the rows, or the joined text of what it may name, for a menu."""

    default: str | None = None
    refers: str = ""

    kind = "text"

    def read(self, raw: Any, at: Path, reading: Reading) -> str | None:
        """Return the text."""
        if not isinstance(raw, str) or not raw:
            reading.fault(at, f"{self.name} is {short(raw)}", "write a text in quotes")
            return None
        return raw

    def missing(self) -> str | None:
        """Return the default."""
        return self.default

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | ({"refers": self.refers} if self.refers else {})


@dataclass(frozen=True, kw_only=True)
class File(Text):
    """The path of a file beside the job, with one of a few endings."""

    endings: tuple[str, ...] = ()

    kind = "file"

    def read(self, raw: Any, at: Path, reading: Reading) -> str | None:
        """Return the path as it is written; it may stand in a table with its origin."""
        raw = bare(self.name, raw, at, reading, '"…"')
        found = None if raw is None else super().read(raw, at, reading)
        if found is not None and self.endings and not found.lower().endswith(self.endings):
            reading.fault(at, f"{self.name} is {found!r}", f"give a file that ends in {', '.join(self.endings)}")
            return None
        return found

    def schema(self) -> dict[str, Any]:
        """Return the input as plain data."""
        return super().schema() | {"endings": list(self.endings)}


@dataclass(frozen=True, kw_only=True)
class Bound(Amount):
    """A quantity, or the name of a given of the page, with or without a minus before it."""

    kind = "bound"

    def read(self, raw: Any, at: Path, reading: Reading) -> Quantity | str | None:  # type: ignore[override]
        """Return the quantity, or the given's name with its minus."""
        if isinstance(raw, str) and raw.removeprefix("-") in reading.names:
            return raw
        if isinstance(raw, str) and raw.removeprefix("-").isidentifier():
            near = near_misses(raw.removeprefix("-"), list(reading.names)).removeprefix("; ")
            remedy = near or f'write a quantity such as "30 {self.in_unit}", or a given\'s name'
            reading.fault(at, f"{self.name} is {raw!r}, which is no given of this page", remedy)
            return None
        return super().read(raw, at, reading)

    def words(self, value: Quantity | str, display: Display | None = None) -> str:
        """Return the quantity, or the given's name."""
        return value.replace("_", " ") if isinstance(value, str) else super().words(value, display)


@dataclass(frozen=True, kw_only=True)
class Numbers(Input):
    """A list of so many bare numbers."""

    count: int = 3

    kind = "numbers"

    def read(self, raw: Any, at: Path, reading: Reading) -> tuple[float, ...] | None:
        """Return the numbers; they may stand in a table with their origin."""
        raw = bare(self.name, raw, at, reading, "[0, 0, 1]")
        if raw is None:
            return None
        good = isinstance(raw, list) and len(raw) == self.count
        if not good or not all(isinstance(each, int | float) and not isinstance(each, bool) for each in raw):
            reading.fault(at, f"{self.name} is {short(raw)}", f"write its {self.count} numbers, such as [0, 0, 1]")
            return None
        return tuple(map(float, raw))

    def words(self, value: Sequence[float], display: Display | None = None) -> str:
        """Return the numbers, joined."""
        return ", ".join(f"{number:g}" for number in value)
