"""Worksheets: exercises to print, one sheet a pupil, and the keys that go with them."""

from __future__ import annotations

import csv
import hashlib
import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import read_regular, write_atomic
from kit.sheet.page import page, safe
from kit.teach.exercise import Exercise
from kit.teach.kinds import exercises
from kit.teach.second_way import agrees
from kit.teach.task import task, way

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.core.quantity import Display

_SIGNS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"  # none that is read for another
_LENGTH = 6
_LINES = 3  # to write on
MOST = 200
MOST_TASKS = 100  # on a sheet
MOST_BYTES = 1_000_000  # of a class list

Progress = Callable[[int, int, str], None]


@dataclass(frozen=True)
class Worksheet:
    """The exercises of one pupil. `code` stands on the sheet and on its key, and follows from what is asked."""

    title: str
    seed: int
    pupil: str
    asked: tuple[Exercise, ...]

    @property
    def code(self) -> str:
        """What ties sheet and key."""
        told = "\n".join(f"{each.ask} {each.answer}" for each in self.asked)
        number = int.from_bytes(hashlib.sha256(f"{self.seed}\n{told}".encode()).digest()[:8], "big")
        signs = []
        for _ in range(_LENGTH):
            number, at = divmod(number, len(_SIGNS))
            signs.append(_SIGNS[at])
        return "".join(signs)

    def sheet(self) -> str:
        """Return the pupil's sheet as a whole HTML file: tasks and lines to write on; nothing in it tells an answer."""
        tasks = [safe(task(each, ids=f"task{n}")) for n, each in enumerate(self.asked, 1)]
        cautions = list(dict.fromkeys(words for each in self.asked for words in each.case.cautions))
        return page(
            "worksheet.html",
            title=self.title,
            footer=[self.title, self.code],
            code=self.code,
            pupil=self.pupil,
            tasks=list(zip(self.asked, tasks, strict=True)),
            lines=range(_LINES),
            cautions=cautions,
        )

    def key(self) -> str:
        """Return the key as a whole HTML file: each answer, and the way to it with the numbers put in."""
        rows = [(each, safe(way(each))) for each in self.asked]
        return page(
            "key.html",
            title=self.title,
            footer=["Key", self.title, self.code],
            code=self.code,
            pupil=self.pupil,
            rows=rows,
        )


def worksheets(
    title: str, cases: Sequence[Case], *, count: int, seeds: Sequence[int], display: Display, pupils: Sequence[str] = ()
) -> list[Worksheet]:
    """Return a sheet for each seed; only what comes out the same a second way is asked.

    Raises:
        KitError: no seed or too many, too many tasks, more pupils than seeds, or nothing that can be asked.
    """
    if not 1 <= len(seeds) <= MOST:
        raise KitError(f"{len(seeds)} sheets were asked for; from 1 to {MOST} are made at once")
    if count > MOST_TASKS:
        raise KitError(f"{count} tasks on a sheet were asked for; at most {MOST_TASKS} are drawn")
    if len(pupils) > len(seeds):
        raise KitError(f"{len(pupils)} pupils need as many seeds, not {len(seeds)}; ask for --seeds 1-{len(pupils)}")
    made = []
    for n, seed in enumerate(seeds):
        asked = exercises(cases, count, seed=seed, display=display, accept=agrees)
        made.append(Worksheet(title, seed, pupils[n] if n < len(pupils) else "", asked))
    return made


def write_worksheets(
    made: Sequence[Worksheet], folder: Path, *, key: bool = False, progress: Progress | None = None
) -> list[Path]:
    """Write the sheets into `folder`, and with `key` their keys into its folder `key`; return the files of the sheets.

    `key/answers.csv` has all answers of a class in one table.
    """
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for n, each in enumerate(made, 1):
        name = f"{each.seed:03}-{each.code}.html"
        write_atomic(folder / name, each.sheet())
        paths.append(folder / name)
        if key:
            (folder / "key").mkdir(exist_ok=True)
            write_atomic(folder / "key" / name, each.key())
        if progress:
            progress(n, len(made), name)
    if key:
        write_atomic(folder / "key" / "answers.csv", answers(made))
    return paths


def answers(made: Sequence[Worksheet]) -> str:
    """Return all answers as comma-separated values: a row a task, with the sheet's code and pupil."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(["code", "pupil", "task", "kind", "model", "answer"])
    for each in made:
        for n, asked in enumerate(each.asked, 1):
            rows.writerow([each.code, each.pupil, n, asked.kind, asked.case.model.name, asked.answer])
    return out.getvalue()


def seeds_of(text: str) -> list[int]:
    """Return the seeds that a text names: "1-30", "3", "1-5,9".

    Raises:
        KitError: the text is none of these.
    """
    found: list[int] = []
    for part in text.split(","):
        first, dash, last = part.strip().partition("-")
        if not first.isdecimal() or (dash and not last.isdecimal()) or (dash and int(last) < int(first)):
            raise KitError(f"{text!r} does not name seeds; write whole numbers like 1-30 or 1-5,9")
        if int(last or first) - int(first) >= MOST:
            raise KitError(f"{text!r} names more than {MOST} seeds; make fewer sheets at once")
        found += range(int(first), int(last or first) + 1)
    return list(dict.fromkeys(found))


def class_list(path: Path) -> list[str]:
    """Return the names of a class list: a name a line, or the first column of comma-separated values.

    Raises:
        KitError: the file cannot be read, or has no name.
    """
    try:
        text = read_regular(path, MOST_BYTES).decode("utf-8-sig")
    except (KitError, UnicodeDecodeError) as error:
        raise KitError(f"{path}: the class list cannot be read ({error}); save it as text in UTF-8") from None
    try:
        return names_of(text)
    except KitError as error:
        raise KitError(f"{path}: {error}") from None


def names_of(text: str) -> list[str]:
    """Return the names of a class list's text: a name a line, or the first column of comma-separated values.

    Raises:
        KitError: it has no name.
    """
    found = [row[0].strip() for row in csv.reader(text.splitlines()) if row and row[0].strip()]
    if not found:
        raise KitError("the class list has no name; write one a line")
    return found
