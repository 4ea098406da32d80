"""A pupil's answers: one file of his own, a line an answer, and what a class answered, read from a folder of them.

The format is JSON Lines: each line is an object with the fields of `Answer`. Any program that reads JSON can read it.
"""

from __future__ import annotations

import csv
import io
import json
import os
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, fields
from datetime import datetime
from pathlib import Path

from kit.core.errors import KitError
from kit.core.files import read_regular, write_atomic

FOLDER = "answers"
ENDING = ".jsonl"
MOST = 5_000_000  # bytes of a pupil's file
LONGEST = 60  # letters of a name
_MEMORY = ".fitwright-pupil.json"
_HUB = "JUPYTERHUB_USER"  # a hub's users are known to it by name


@dataclass(frozen=True, slots=True)
class Answer:
    """What a pupil answered: `kind` is predict, measure, or an exercise's; `mistake` names the wrong turn if known."""

    pupil: str
    when: str
    kind: str
    model: str
    asked: str
    said: str
    right: bool
    mistake: str = ""


def sign_in(pupil: str, folder: Path | None = None) -> str:
    """Keep the answers given in a folder under a pupil's name from now on; an empty name keeps none. Return the name.

    Raises:
        KitError: a name that is too long or has signs that are not shown.
    """
    name = " ".join(pupil.split())
    if len(name) > LONGEST or not name.isprintable():
        raise KitError(f"a name of {len(name)} letters is given; write one of at most {LONGEST}, in plain letters")
    write_atomic((folder or Path.cwd()) / _MEMORY, json.dumps({"pupil": name}))
    return name


def signed_in(folder: Path | None = None) -> str:
    """Return under which name answers are kept in a folder: a hub's user has signed in already; empty if under none."""
    try:
        found = json.loads(((folder or Path.cwd()) / _MEMORY).read_text(encoding="utf-8"))["pupil"]
    except (OSError, ValueError, KeyError, TypeError):
        return os.environ.get(_HUB, "")
    return found if isinstance(found, str) else ""


def keep(
    kind: str, model: str, asked: str, said: str, right: bool, mistake: str = "", *, folder: Path | None = None
) -> Path | None:
    """Add an answer to the file of who has signed in, which is whole at any moment; None where nobody has.

    Raises:
        KitError: the file has become too large.
        OSError: it cannot be written.
    """
    folder = folder or Path.cwd()
    pupil = signed_in(folder)
    if not pupil:
        return None
    when = datetime.now().astimezone().isoformat(timespec="seconds")
    path = _file(folder / FOLDER, pupil)
    before = path.read_text(encoding="utf-8") if path.exists() else ""
    line = json.dumps(asdict(Answer(pupil, when, kind, model, asked, said, right, mistake)), ensure_ascii=False)
    if len(before) + len(line) > MOST:
        raise KitError(f"{path.name} is larger than {MOST / 1e6:.0f} MB; move it away to begin a new one")
    path.parent.mkdir(parents=True, exist_ok=True)
    write_atomic(path, f"{before}{line}\n")
    return path


def _file(folder: Path, pupil: str) -> Path:
    """Return the file of a pupil: named after him, and no one else's who is spelled alike."""
    plain = re.sub(r"[^\w]+", "_", pupil.lower()).strip("_") or "pupil"
    number = 1
    while True:
        path = folder / (f"{plain}{ENDING}" if number == 1 else f"{plain}_{number}{ENDING}")
        if not path.exists() or _pupil_of(path) in ("", pupil):
            return path
        number += 1


def _pupil_of(path: Path) -> str:
    found, _ = read_answers(path)
    return found[0].pupil if found else ""


def read_answers(path: Path) -> tuple[list[Answer], list[str]]:
    """Return the answers of a file, and a sentence for each line that is none."""
    answers, faults = [], []
    try:
        text = read_regular(path, 2 * MOST).decode("utf-8")
    except KitError as error:
        return [], [f"{error}; it was left out"]
    except UnicodeDecodeError as error:
        return [], [f"{path.name}: cannot be read ({error})"]
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        try:
            answers.append(_answer(json.loads(line)))
        except (ValueError, TypeError, KeyError, RecursionError):
            faults.append(f"{path.name}, line {number}: not an answer; it was left out")
    return answers, faults


def _answer(stated: dict[str, object]) -> Answer:
    """Return an answer from a line's object. Raises TypeError for a field of another type."""
    texts = {name: stated[name] for name in (each.name for each in fields(Answer)) if name != "right"}
    if not isinstance(stated["right"], bool) or not all(isinstance(text, str) for text in texts.values()):
        raise TypeError("a field of another type")
    return Answer(right=stated["right"], **texts)  # type: ignore[arg-type]  # all are texts, as was just looked at


def read_class(folder: Path) -> tuple[list[Answer], list[str]]:
    """Return all answers in a folder and those below it, in the order of their time, and what could not be read.

    Raises:
        KitError: no such folder, or none of its files has answers.
    """
    if not folder.is_dir():
        raise KitError(f"there is no folder {str(folder)!r}; name the one in which the pupils' files lie")
    paths = sorted(path for path in folder.rglob(f"*{ENDING}") if path.is_file())
    if not paths:
        raise KitError(f"{str(folder)!r} has no file ending in {ENDING}; collect the pupils' files from {FOLDER}")
    answers, faults = [], []
    for path in paths:
        found, wrong = read_answers(path)
        answers += found
        faults += wrong
    return sorted(answers, key=lambda each: each.when), faults


@dataclass(frozen=True, slots=True)
class Standing:
    """How a pupil stands: questions answered, right at once, right in the end."""

    pupil: str
    asked: int
    at_once: int
    in_the_end: int


def standings(answers: Iterable[Answer]) -> list[Standing]:
    """Return how each pupil stands, by name; each question counts once, however often it was answered."""
    tries: dict[str, dict[tuple[str, str], list[bool]]] = {}
    for each in answers:
        tries.setdefault(each.pupil, {}).setdefault((each.model, each.asked), []).append(each.right)
    return [
        Standing(pupil, len(asked), sum(done[0] for done in asked.values()), sum(any(done) for done in asked.values()))
        for pupil, asked in sorted(tries.items())
    ]


def common_mistakes(answers: Iterable[Answer], most: int = 20) -> list[tuple[int, Answer]]:
    """Return wrong answers with how many pupils gave them, the most common first; a mistake known by name counts."""
    wrong: dict[tuple[str, str, str], Answer] = {}
    pupils: Counter[tuple[str, str, str]] = Counter()
    seen = set()
    for each in answers:
        what = (each.model, each.mistake and each.kind, each.mistake or each.said)
        if each.right or (each.pupil, what) in seen:
            continue
        seen.add((each.pupil, what))
        wrong.setdefault(what, each)
        pupils[what] += 1
    return [(count, wrong[what]) for what, count in pupils.most_common(most)]


def as_csv(answers: Sequence[Answer]) -> str:
    """Return answers as comma-separated values; no cell begins so that a spreadsheet would take it for a formula."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow([each.name for each in fields(Answer)])
    for each in answers:
        rows.writerow([_plain(value) for value in asdict(each).values()])
    return out.getvalue()


def _plain(value: object) -> str:
    text = ("yes" if value else "no") if isinstance(value, bool) else str(value)
    return f"'{text}" if re.match(r"[=+@\t\r]|-(?![\d.])", text) else text
