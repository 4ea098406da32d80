"""The worked sheet: one HTML file that needs neither network nor script, for the screen and for paper."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from kit.core.errors import KitError
from kit.core.files import write_atomic
from kit.core.model import Case
from kit.core.model.digest import digest
from kit.core.quantity import Display
from kit.core.summary import some
from kit.core.uncertainty import Draws, monte_carlo
from kit.core.uncertainty.budget import Correlations
from kit.core.version import __version__
from kit.job.part_names import file_name
from kit.job.verdict import standalone_verdict
from kit.sheet import build_section, sections
from kit.sheet.page import page, safe
from kit.sheet.tables import verdict_sign
from kit.sheet.words import sentence

if TYPE_CHECKING:
    from kit.core.build import Build
    from kit.core.verdict import State, Verdict
    from kit.job import Job

_TICKED = ("Geometry", "Givens", "Derivation", "Uncertainty")  # what a checker ticks off line by line
_TO_SIGN = "\u00a0" * 24  # room for a name by hand
_DRAWS = 20_000  # enough for two digits of an uncertainty, and quick


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a sheet comes from; what is empty is not printed. `date` is text, chosen by the caller."""

    job: str = ""
    part: str = ""
    title: str = ""
    date: str = ""
    revision: str = ""
    prepared_by: str = ""
    checked_by: str = ""


def part_origin(job: Job, part_id: str, *, date: str = "") -> Origin:
    """Return where the sheet of a part comes from, with the head that the job states; `date` is today's if need be."""
    head = {**job.head, "date": date or job.head.get("date") or datetime.date.today().isoformat()}
    return Origin(job.name, part_id, job.parts[part_id].title, **head)


@dataclass(frozen=True, slots=True)
class IndexEntry:
    """One sheet in the index of a book: `sign` is the class and the sign of its verdict, `words` tell it in a line."""

    title: str
    question: str
    href: str
    state: State
    sign: tuple[str, str]
    words: str
    digest: str
    fails: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @classmethod
    def of(
        cls, title: str, question: str, href: str, verdict: Verdict, digest: str, display: Display | None = None
    ) -> IndexEntry:
        """Return the entry of a sheet with that verdict."""
        fails = tuple(sentence(check.words(display)) for check in verdict.failing)
        sign, words = verdict_sign(verdict), sentence(verdict.words)
        return cls(title, question, href, verdict.state, sign, words, digest, fails, verdict.cautions)


def sheet(
    case: Case,
    *,
    display: Display | None = None,
    origin: Origin | None = None,
    correlations: Correlations | None = None,
    draws: int = _DRAWS,
    build: Build | None = None,
    verdict: Verdict | None = None,
    written: Mapping[str, Sequence[str]] | None = None,
    more: Sequence[tuple[str, str]] = (),
    short: bool = False,
) -> str:
    """Return the worked sheet of a case as a whole HTML file. The same inputs give the same text.

    `draws` is the number of Monte Carlo draws beside the budgets; 0 leaves them out. `build` is the shape that goes
    with the case, `verdict` what is known of it where a job knows more, `written` its files: links relative to the
    sheet, by what they are; `more` are further parts as HTML, each with its heading. A `short` sheet leaves out how the
    numbers come about, and all pictures of the shape but the first.
    """
    origin, judged = origin or Origin(), verdict or standalone_verdict(case, build)
    model, inputs = case.model, (build and build.inputs) or digest(case)
    answer = (
        sections.verdict_box(judged, display, more=sections.outside_list(case))
        + sections.results_table(case, display, correlations=correlations)
        + sections.checks_list(case.checks, display, level=judged.level)
    )
    drawn, remark = _drawn(case, 0 if short else draws, correlations)
    stated = build.stated if build else ()
    parts = sections.sections(
        case, display, correlations=correlations, draws=drawn, remark=remark, stated=stated, more=more, short=short
    )
    if build:
        shown = replace(build, pictures=build.pictures[:1]) if short else build
        shape = build_section.sections_of_shape(shown, display, written=written, still=short, level=judged.level)
        parts = [*shape, *parts]
    to_sign = _TO_SIGN if origin.job else ""
    block = [
        ("Job", origin.job),
        ("Part", origin.part),
        ("Date", origin.date),
        ("Revision", origin.revision),
        ("Prepared by", origin.prepared_by or to_sign),
        ("Checked by", origin.checked_by or to_sign),
        ("Model", model.name),
        ("Inputs", inputs),
        ("Fitwright", __version__),
    ]
    return page(
        "sheet.html",
        short=short,
        title=origin.title or model.title,
        footer=[_fails(judged, display), origin.job, origin.title or model.title, origin.date, f"inputs {inputs}"],
        model=model,
        origin=[(name, value) for name, value in block if value],
        answer=safe(answer),
        sections=[(heading, safe(body), heading in _TICKED) for heading, body in parts],
    )


def write_sheet(
    case: Case,
    folder: Path,
    *,
    display: Display | None = None,
    origin: Origin | None = None,
    correlations: Correlations | None = None,
    build: Build | None = None,
    verdict: Verdict | None = None,
    more: Sequence[tuple[str, str]] = (),
    short: bool = False,
) -> Path:
    """Write the worked sheet into `folder`, named after the part or else the model; return the file. See `sheet`.

    >>> from kit import model
    >>> write_sheet(model("scale.cursor").at(), Path("sheets")).name
    'scale-cursor.html'
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / file_name((origin and origin.part) or case.model.name)
    write_atomic(
        path,
        sheet(
            case,
            display=display,
            origin=origin,
            correlations=correlations,
            build=build,
            verdict=verdict,
            more=more,
            short=short,
        ),
    )
    return path


def index(
    entries: Sequence[IndexEntry],
    *,
    title: str,
    date: str = "",
    short: bool = False,
    beside: Sequence[tuple[str, str]] = (),
    cover: str = "",
    sources: Sequence[str] = (),
    faults: Sequence[str] = (),
) -> str:
    """Return the first page of a book of sheets as a whole HTML file.

    `beside` are other pages and their words, `cover` is a picture as HTML, `sources` are those of all sheets,
    `faults` what the job states and the book had to leave out.
    """
    cautions = dict.fromkeys(sentence(each) for entry in entries for each in entry.cautions)
    block = [("Date", date), ("Sheets", str(len(entries))), ("Fitwright", __version__)]
    return page(
        "index.html",
        short=short,
        title=title,
        footer=[title, date],
        origin=[(name, value) for name, value in block if value],
        entries=entries,
        beside=beside,
        cover=safe(cover),
        failing=[entry for entry in entries if entry.state == "fails"],
        cautions=list(cautions),
        sources=sources,
        faults=[sentence(each) for each in faults],
    )


def _fails(verdict: Verdict, display: Display | None) -> str:
    """Return the limits that fail, for the foot of every printed page."""
    return some((f"LIMIT FAILS: {check.words(display)}" for check in verdict.failing), most=1)


def _drawn(case: Case, draws: int, correlations: Correlations | None) -> tuple[dict[str, Draws] | None, str]:
    """Return the Monte Carlo samples, or why there are none."""
    if not draws or not any(entry.u for entry in case.entries.values()):
        return None, ""
    try:
        names = tuple(case.model.results)
        return monte_carlo(case, names, draws=draws, correlations=correlations), ""
    except KitError as error:
        return None, f"No Monte Carlo comparison: {error}."
