"""The shop record: how far off a saw's setting, a tape, a printer came out, job by job, and the ± that this is worth.

One TOML file, shared by jobs. It never changes a job: what it offers, a person states there.
"""

from __future__ import annotations

import math
import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from kit.core.errors import KitError
from kit.core.files import read_regular, write_atomic
from kit.core.quantity import Display, QuantityError, Unit, show, unit
from kit.job.toml_edit import put

NAME, VARIABLE, FORMAT = "shop.toml", "FITWRIGHT_SHOP", 1
MOST = 5_000_000  # bytes
COVERAGE = 0.95
_TEXTS = ("date", "job", "what", "note")


@dataclass(frozen=True, slots=True)
class Entry:
    """How far something came out from what was wanted or predicted, in base units, and where that was seen."""

    off: float
    date: str = ""
    job: str = ""
    what: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Spread:
    """What a shop knows of one thing: its entries, and what they are worth. Numbers in base units."""

    name: str
    unit: Unit
    entries: tuple[Entry, ...]

    @property
    def mean(self) -> float:
        """How far off it came out on average."""
        return math.fsum(each.off for each in self.entries) / len(self.entries)

    @property
    def deviation(self) -> float:
        """The standard deviation of the entries, with one degree of freedom less than these; of one it is unknown."""
        mean = self.mean
        if not self.dof:
            return math.nan
        return math.sqrt(math.fsum((each.off - mean) ** 2 for each in self.entries) / self.dof)

    @property
    def dof(self) -> int:
        """Degrees of freedom."""
        return len(self.entries) - 1

    @property
    def u(self) -> float:
        """The standard uncertainty of the next one, its mean set right: s √(1 + 1/n), as the mean is not known either.

        Source: JCGM 100:2008 (GUM), 4.2.2 and 4.2.3, the two variances added as of independent quantities.
        """
        return self.deviation * math.sqrt(1 + 1 / len(self.entries))

    @property
    def half(self) -> float:
        """Within how far of the mean the next one lies, 95 in 100 times: Student's t times `u`. Source: GUM, G.3.2."""
        return self._t * self.u

    @property
    def biased(self) -> bool:
        """Whether the mean is farther from 0 than chance brings it 95 in 100 times. Source: GUM, G.3.2."""
        return abs(self.mean) > self._t * self.deviation / math.sqrt(len(self.entries))

    @property
    def _t(self) -> float:
        from scipy.special import stdtrit

        return float(stdtrit(self.dof, (1 + COVERAGE) / 2))

    def words(self, display: Display | None = None) -> str:
        """Return what it is worth for the next job, as it is stated there."""
        if len(self.entries) < 2:
            return "one entry tells no spread; add a second one"
        if not self.u:
            return "all entries are alike, which tells no spread; read them finer"

        def told(base: float) -> str:
            return show(base, self.unit, display, resolution=self.half / 100 or None)

        half = told(2 * self.u)
        sentence = (
            f'state ± {half} with spread = "normal", k = 2, dof = {self.dof}; 95 in 100 lie within ± {told(self.half)} '
            f"of the mean {told(self.mean)}"
        )
        return f"{sentence}, which is no chance: set it right by that" if self.biased else sentence


@dataclass(frozen=True, slots=True)
class Shop:
    """A shop's record as read."""

    path: Path
    spreads: Mapping[str, Spread]


def shop_file(folder: Path) -> Path:
    """Return where the record lies: what FITWRIGHT_SHOP names, or shop.toml in a folder."""
    return folder / (os.environ.get(VARIABLE) or NAME)


def read_shop(path: Path) -> Shop:
    """Return a record; an empty one where there is no file yet.

    Raises:
        KitError: it cannot be read: what is wrong, in a sentence.
    """
    return Shop(path, {name: _spread(name, raw) for name, raw in _spreads(_text(path), path).items()})


def add_entry(path: Path, name: str, off: float, of: Unit, entry: Mapping[str, str]) -> Shop:
    """Write an entry into a record, which is made if need be, and return the record; `off` in base units.

    Raises:
        KitError: the record cannot be read, the unit is of another kind, or the very same entry stands there.
        OSError: it cannot be written.
    """
    name = name.strip()
    if not name or not name.isprintable():
        raise KitError("what came out needs a name; write one such as 'saw tilt'")
    if not math.isfinite(off):
        raise KitError(f"the difference is {off}; only a number can be kept")
    text = _text(path) or f"format = {FORMAT}\n"
    known = read_shop(path).spreads.get(name)
    if known is not None and (known.unit.dim, known.unit.angle) != (of.dim, of.angle):
        raise KitError(f"{name} is kept in {known.unit.text}, and {of.text} is of another kind; take another name")
    told = {key: entry[key] for key in _TEXTS if entry.get(key)}
    told.setdefault("date", date.today().isoformat())
    kept = known.unit if known else of
    new = {"off": float(f"{off / kept.factor:.9g}"), **told}
    raw = list(_spreads(text, path).get(name, {}).get("entries", []))
    if "what" in new and _where(new) in [_where(each) for each in raw]:
        raise KitError(f"{name} has this entry already: {new['what']} of {new.get('job', 'a job')}, {new['date']}")
    if known is None:
        text = put(text, ("spreads", name, "unit"), of.text)
    write_atomic(path, put(text, ("spreads", name, "entries"), [*raw, new]))
    return read_shop(path)


def _where(entry: Mapping[str, Any]) -> dict[str, Any]:
    return {key: entry.get(key, "") for key in ("date", "job", "what")}


def _text(path: Path) -> str:
    return read_regular(path, MOST).decode("utf-8", "replace") if path.exists() else ""


def _spreads(text: str, path: Path) -> Mapping[str, Any]:
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise KitError(f"{path.name} cannot be read as TOML: {error}; correct that line") from error
    if data.get("format", FORMAT) != FORMAT:
        raise KitError(f"{path.name} has format {data['format']}; this kit reads format {FORMAT}")
    found = data.get("spreads", {})
    if not isinstance(found, Mapping) or not all(isinstance(each, Mapping) for each in found.values()):
        raise KitError(f'{path.name}: spreads must be tables, such as [spreads."saw tilt"]')
    return found


def _spread(name: str, raw: Mapping[str, Any]) -> Spread:
    try:
        of = unit(raw["unit"])
        entries = tuple(_entry(each, of) for each in raw["entries"])
    except QuantityError as error:
        raise KitError(f"shop record, {name}: {error}") from error
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise KitError(
            f'shop record, {name}: needs unit = "deg" and entries = [{{ off = 0.1, date = "2026-05-02" }}] ({error})'
        ) from error
    if not entries:
        raise KitError(f"shop record, {name}: has no entries; take it out, or add one")
    return Spread(name, of, entries)


def _entry(raw: Mapping[str, Any], of: Unit) -> Entry:
    if isinstance(raw["off"], bool) or not isinstance(raw["off"], int | float) or not math.isfinite(raw["off"]):
        raise ValueError(f"off is {raw['off']!r}, and must be a number")
    return Entry(float(raw["off"]) * of.factor, *(str(raw.get(key, "")) for key in _TEXTS))
