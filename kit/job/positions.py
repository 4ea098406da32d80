"""Where things stand in TOML text: a scanner beside the parser, which tells values but not their places.

It reads text that `tomllib` has accepted, so it need not judge, only find. A path is a tuple of keys; the items
of an array and of an array of tables have their number in it.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from tomllib import loads

Path = tuple[str | int, ...]

_BLANK = re.compile(r"[ \t]*")
_VOID = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
# A string of three quotation marks may end in up to two more that belong to it.
_STRING = {
    '"""': re.compile(r'"""(?:[^"\\]|\\.|"(?!""))*"{3,5}', re.DOTALL),
    "'''": re.compile(r"'''(?:[^']|'(?!''))*'{3,5}", re.DOTALL),
    '"': re.compile(r'"(?:[^"\\]|\\.)*"'),
    "'": re.compile(r"'[^']*'"),
}
_PLAIN = re.compile(r"[^,\]}#\r\n]*")


@dataclass(frozen=True, slots=True)
class Spot:
    """A value at text[start:end], its key (or, in an array, itself) at `key`; in the table headed by `head`."""

    path: Path
    key: int
    start: int
    end: int
    kind: str  # "plain", "array" or "inline", an inline table
    head: Head
    inline: bool  # whether it stands within braces or brackets


@dataclass(slots=True)
class Head:
    """A table's header at text[start:end], or the top of the file; `last` is where its last value ends.

    A table that only the headers of its own tables imply has the place of the first of them.
    """

    path: Path
    start: int
    end: int
    last: int
    implied: bool = False


@dataclass
class Places:
    """All spots and headers of one text, by path, and the first place of tables that only dotted keys make."""

    text: str
    spots: dict[Path, Spot] = field(default_factory=dict)
    heads: dict[Path, Head] = field(default_factory=dict)
    dotted: dict[Path, Spot] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._lines = [0, *(match.end() for match in re.finditer("\n", self.text))]

    def line(self, offset: int) -> tuple[int, int]:
        """Return line and column, from 1, of a place in the text."""
        line = bisect_right(self._lines, offset)
        return line, offset - self._lines[line - 1] + 1

    def of(self, path: Path, *, value: bool = False) -> tuple[int, int]:
        """Return line and column of what stands at `path`, or of the nearest that holds it.

        The key is found, or with `value` the value, where there is one.
        """
        for end in range(len(path), 0, -1):
            here = path[:end]
            if here in self.spots:
                spot = self.spots[here]
                return self.line(spot.start if value and end == len(path) else spot.key)
            if here in self.heads:
                return self.line(self.heads[here].start)
            if here in self.dotted:
                return self.line(self.dotted[here].key)
        return 1, 1


def scan(text: str) -> Places:
    """Return where everything in valid TOML `text` stands."""
    return _Scanner(text).places


def past_void(text: str, at: int) -> int:
    """Return the place after blanks, line ends and comments that stand at `at`."""
    match = _VOID.match(text, at)
    return match.end() if match else at


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.places = Places(text)
        self.counts: dict[Path, int] = {}
        self.head = Head((), 0, 0, 0)
        self.places.heads[()] = self.head
        self.skip(_VOID)
        while self.at < len(text):
            if text[self.at] == "[":
                self.header()
            else:
                self.pair(self.head.path, inline=False)
                self.head.last = self.at
            self.skip(_VOID)

    def skip(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self.text, self.at)
        if match is None:
            raise AssertionError(f"no {pattern.pattern} at {self.at}: the text is not valid TOML")
        self.at = match.end()
        return match[0]

    def header(self) -> None:
        start = self.at
        many = self.text.startswith("[[", start)
        self.at += 2 if many else 1
        keys = [name for name, _ in self.keys()]
        self.at += 2 if many else 1
        path: Path = ()
        for depth, name in enumerate(keys, start=1):
            path = (*path, name)
            if many and depth == len(keys):
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
        self.head = Head(path, start, self.at, self.at)
        self.places.heads[path] = self.head
        for end in range(1, len(path)):  # the first header of what it holds stands for a table without its own
            self.places.heads.setdefault(path[:end], Head(path[:end], start, start, start, implied=True))

    def keys(self) -> list[tuple[str, int]]:
        """Read a key with its dots; return each part with its place."""
        found = []
        while True:
            self.skip(_BLANK)
            start = self.at
            if self.text[start] in "\"'":
                quoted = self.skip(_STRING[self.text[start]])
                found.append((loads(f"k = {quoted}")["k"], start))
            else:
                found.append((self.skip(_BARE), start))
            self.skip(_BLANK)
            if self.text[self.at] != ".":
                return found
            self.at += 1

    def pair(self, base: Path, *, inline: bool) -> None:
        keys = self.keys()
        self.at += 1  # the equals sign
        self.skip(_BLANK)
        path = (*base, *(name for name, _ in keys))
        spot = self.value(path, keys[0][1], inline=inline)
        for end in range(len(base) + 1, len(path)):
            self.places.dotted.setdefault(path[:end], spot)

    def value(self, path: Path, key: int, *, inline: bool) -> Spot:
        start, kind = self.at, "plain"
        first = self.text[start]
        if first in "\"'":
            marks = first * 3 if self.text.startswith(first * 3, start) else first
            self.skip(_STRING[marks])
        elif first == "[":
            kind = "array"
            self.items(path)
        elif first == "{":
            kind = "inline"
            self.braces(path)
        else:
            self.at = start + len(self.skip(_PLAIN).rstrip())
        spot = Spot(path, key, start, self.at, kind, self.head, inline)
        self.places.spots[path] = spot
        return spot

    def items(self, path: Path) -> None:
        self.at += 1
        self.skip(_VOID)
        number = 0
        while self.text[self.at] != "]":
            self.value((*path, number), self.at, inline=True)
            number += 1
            self.skip(_VOID)
            if self.text[self.at] == ",":
                self.at += 1
                self.skip(_VOID)
        self.at += 1

    def braces(self, path: Path) -> None:
        self.at += 1
        self.skip(_VOID)
        while self.text[self.at] != "}":
            self.pair(path, inline=True)
            self.skip(_VOID)
            if self.text[self.at] == ",":
                self.at += 1
                self.skip(_VOID)
        self.at += 1
