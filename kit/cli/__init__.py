"""The command `fitwright`: open the notebooks, compute a model, check a job, write the station book.

Exit codes: 0 fine, 1 a limit fails, 2 bad input, 130 interrupted.
"""

from __future__ import annotations

import argparse
import gc
import io
import os
import re
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from kit.cli.completion import SHELLS, Offered, script
from kit.cli.listing import details, overview, rows
from kit.cli.plain import print_json
from kit.core.errors import KitError
from kit.core.version import __version__

if TYPE_CHECKING:
    from kit.core.quantity import Display
    from kit.core.verdict import Verdict

Run = Callable[[argparse.Namespace], int]

FINE, FAILS, BAD, INTERRUPTED = 0, 1, 2, 130
RARELY = 1_000_000
"""Objects after which what is garbage is looked for: a command makes much, nearly all of it lasts, and it ends soon."""


def command() -> int:
    """Run the command as a process of its own and return its exit code."""
    gc.set_threshold(RARELY)
    code = main()
    gc.freeze()  # the system takes all at once what Python would go through piece by piece
    return code


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit code."""
    _open_streams()
    try:
        try:
            options = _parser().parse_args(arguments)
            code: int = options.run(options)
        finally:
            sys.stdout.flush()
        return code
    except BrokenPipeError:  # who read us has read enough
        _mute(sys.stdout, sys.stderr)
        return FINE
    except KeyboardInterrupt:
        return INTERRUPTED
    except KitError as error:
        return _refuse(str(error))
    except OSError as error:
        return _refuse(f"{error.filename or 'what it prints'}: {error.strerror or error}")


def _open_streams() -> None:
    """Let what is printed go nowhere where a stream is closed, and show a question mark for a sign that one lacks."""
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            setattr(sys, name, io.TextIOWrapper(io.FileIO(nowhere, "w"), encoding="utf-8", write_through=True))
        stream = getattr(sys, name)
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def _mute(*streams: TextIO) -> None:
    """Let what is still to be printed go nowhere."""
    for stream in streams:
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _refuse(sentence: str) -> int:
    """Say why not, and return the exit code; where nobody can read it, that alone tells."""
    try:
        print(f"fitwright: {sentence}", file=sys.stderr, flush=True)
    except OSError:
        _mute(sys.stderr)
    return BAD


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="fitwright", description=__doc__.splitlines()[0])
    parser.add_argument("--version", action="version", version=f"fitwright {__version__}")
    commands = parser.add_subparsers(metavar="COMMAND", required=True)

    def add(name: str, run: Run, purpose: str, example: str | None = None) -> argparse.ArgumentParser:
        told = f"{purpose[:1].upper()}{purpose[1:]}."
        command = commands.add_parser(name, help=purpose, description=told, epilog=example)
        command.set_defaults(run=run)
        return command

    command = add("open", _open, "open the notebooks in JupyterLab, in a folder of your own")
    command.add_argument("--folder", type=Path, default=Path("station"), help="where to work (default: station)")
    command.add_argument("--job", type=Path, help="the job file to work on, where it lies; without it the last one")
    command.add_argument("notebook", nargs="?", default="00_start.ipynb", help="the notebook to begin with")
    command.add_argument("--no-browser", action="store_true", help="print the address instead of opening it")

    command = add("list", _list, "list all models, a line each; of those that are named, what they ask and answer")
    command.add_argument("models", nargs="*", metavar="MODEL", help="tell all of these")
    command.add_argument("--details", action="store_true", help="tell all of every model")
    _reader(command)

    example = "Example: fitwright work stop.deflection long_reach='47 1/4 in' --find key_length play_tip='0.1 mm'"
    command = add("work", _work, "compute one model, or find the given for a wanted result", example)
    command.add_argument("model", metavar="MODEL", help="its name, as `fitwright list` has it")
    command.add_argument("givens", nargs="*", metavar="GIVEN=VALUE", help="a value with its unit, or a table row")
    command.add_argument(
        "--find", nargs=2, metavar=("NAME", "RESULT=VALUE"), help="the given that makes a result take a value"
    )
    command.add_argument(
        "--beyond",
        action="append",
        default=[],
        metavar="NAME",
        help="allow this given outside its span",
    )
    _reader(command)

    command = add("table", _table, "show the rows of a table, each with its sources; without a name, list the tables")
    command.add_argument("table", nargs="?", metavar="NAME", help="such as woods")
    command.add_argument("--units", choices=("mm", "in"), help="show in millimeters or in inches")

    command = add("check", _check, "report every fault of a job file, and every limit that fails or is unsure")
    command.add_argument("job", type=Path, metavar="JOB", help="a job file (TOML)")
    _programs(command)

    command = add("compare", _whole("compare"), "tell what differs between two jobs: givens, results, limits, verdicts")
    command.add_argument("first", type=Path, metavar="JOB", help="a job file (TOML)")
    command.add_argument("second", type=Path, metavar="OTHER", help="another; numbers are shown as the first does")
    _programs(command)

    command = add("lists", _whole("lists"), "tell what a job weighs, what is bought for it and what is cut")
    command.add_argument("job", type=Path, metavar="JOB", help="a job file (TOML)")
    _programs(command)

    command = add("order", _whole("order"), "tell in what order a job's tasks are done, and when all is ready")
    command.add_argument("job", type=Path, metavar="JOB", help="a job file (TOML)")
    _programs(command)

    command = add("built", _whole("built"), "set what was measured of the built parts beside what is predicted")
    command.add_argument("job", type=Path, metavar="JOB", help="a job file (TOML)")
    _programs(command)

    example = "Example: fitwright shop --add 'saw tilt' --from my.toml bin_joint.tilt"
    command = add(
        "shop", _whole("shop"), "tell what a shop's earlier jobs say of its saw, tape, printer; add to it", example
    )
    command.add_argument("record", nargs="?", type=Path, metavar="FILE", help="the record (default: shop.toml)")
    command.add_argument("--add", metavar="NAME", help="add an entry to what is known of this")
    command.add_argument(
        "--from",
        dest="source",
        nargs=2,
        metavar=("JOB", "PART.RESULT"),
        help="what was measured less what was predicted there",
    )
    command.add_argument("--off", metavar="VALUE", help="the difference itself, such as '0.1 deg'")
    command.add_argument("--note", default="", help="a word on it")
    _programs(command)

    command = add("book", _whole("book"), "write every sheet of a job and an index; what is unchanged there is left")
    command.add_argument("job", type=Path, metavar="JOB", help="a job file (TOML)")
    _written(command)
    command.add_argument("--full", action="store_true", help="also how each number comes about, and all pictures")
    command.add_argument("--single", type=Path, metavar="FILE", help="write the whole book into one file, too")
    command.add_argument("--over", action="store_true", help="write over files that are no book's, without asking")

    command = add("sheet", _sheet, "write the worked sheet of one part of a job")
    command.add_argument("job", type=Path, metavar="JOB", help="a job file (TOML)")
    command.add_argument("part", metavar="PART", help="its name in the file")
    _written(command)
    command.add_argument("--short", action="store_true", help="leave out derivations and uncertainty budgets")

    example = "Example: fitwright worksheet bevel.frame --count 12 --seeds 1-30 --key --out sheets"
    command = add("worksheet", _worksheet, "write exercises to print, a sheet a pupil, and their keys", example)
    command.add_argument("of", metavar="MODEL|JOB", help="a model, or a job file whose parts are asked about")
    command.add_argument("--count", type=int, default=6, help="tasks on a sheet (default: 6)")
    command.add_argument("--seeds", default="1", metavar="N-M", help="a sheet for each, such as 1-30 (default: 1)")
    command.add_argument("--names", type=Path, metavar="FILE", help="a class list, a name a line: a sheet for each")
    command.add_argument("--key", action="store_true", help="write the keys too, into the folder key")
    command.add_argument("--units", choices=("mm", "in"), help="show in millimeters or in inches")
    command.add_argument("--out", type=Path, required=True, metavar="DIR", help="where to write")

    example = "Example: fitwright lesson 80_long_stop --out long_stop.html"
    command = add("lesson", _lesson, "write a lesson as one file that is read and answered without a kernel", example)
    command.add_argument("notebook", help="a notebook's name, or its file")
    command.add_argument("--job", type=Path, help="the job that it works on; its example without one")
    command.add_argument("--out", type=Path, required=True, metavar="FILE", help="the file to write")

    example = 'For bash, write into ~/.bashrc: eval "$(fitwright completion bash)"'
    command = add("completion", _completion, "print a script with which a shell completes this command", example)
    command.add_argument("shell", choices=SHELLS)
    command.set_defaults(commands=commands.choices)
    return parser


def _written(command: argparse.ArgumentParser) -> None:
    command.add_argument("--out", type=Path, required=True, metavar="DIR", help="where to write")
    command.add_argument(
        "--failing", action="store_true", help="write drawings and solids of parts whose limits fail too, each marked"
    )


def _reader(command: argparse.ArgumentParser) -> None:
    command.add_argument("--units", choices=("mm", "in"), help="show in millimeters or in inches")
    _programs(command)


def _programs(command: argparse.ArgumentParser) -> None:
    command.add_argument("--json", action="store_true", help="for other programs; the layout is documented")


def _display(options: argparse.Namespace) -> Display | None:
    from kit.core.quantity import Display

    return Display(system=options.units) if options.units else None


def _open(options: argparse.Namespace) -> int:
    from kit.ui.lab import open_lab

    return open_lab(options.folder, options.notebook, job=options.job, browser=not options.no_browser)


def _list(options: argparse.Namespace) -> int:
    from kit.subjects import model, names

    display = _display(options)
    models = [model(name) for name in options.models or names()]
    if options.json:
        from kit.core.record import stated

        print_json({"models": [stated(each, display) for each in models]})
        return FINE
    if not options.models and not options.details:
        print(*overview(models), sep="\n")
        return FINE
    for each in models:
        print(*details(each, display), "", sep="\n")
    return FINE


def _table(options: argparse.Namespace) -> int:
    from kit.core.tables import names, table

    if options.table is None:
        print(*(f"{name:<16} {len(table(name))} rows" for name in names()), sep="\n")
    else:
        print(*rows(table(options.table), _display(options)), sep="\n")
    return FINE


def _completion(options: argparse.Namespace) -> int:
    from kit.core.tables import names as tables
    from kit.subjects import names as models

    named = {"list": models(), "work": models(), "worksheet": models(), "table": tables(), "completion": SHELLS}
    offered = {
        name: Offered(named.get(name, ()), tuple(sorted(set(re.findall(r"--[\w-]+", command.format_usage())))))
        for name, command in options.commands.items()
    }
    print(script(options.shell, offered), end="")
    return FINE


def _pair(text: str, what: str) -> tuple[str, str]:
    name, equals, value = text.partition("=")
    if not equals or not name.strip():
        raise KitError(f"{text!r} is not {what}; write it like length='1200 mm'")
    return name.strip(), value


def _work(options: argparse.Namespace) -> int:
    from kit.core.model.case import work
    from kit.core.uncertainty.answers import answered
    from kit.subjects import model

    chosen, display = model(options.model), _display(options)
    givens: dict[str, Any] = {}
    for text in options.givens:
        name, value = _pair(text, "a given and its value")
        if name in givens:
            raise KitError(f"{name} is given twice; give it once")
        givens[name] = value
    case = work(chosen, givens, beyond=frozenset(options.beyond))
    found = None
    if options.find:
        from kit.core.model import find

        unknown, wanted = options.find
        result, target = _pair(wanted, "a result and the value it is to take")
        found = find(case, unknown, result, target)
        case = found.into(case)
    if options.json:
        from kit.core.record import sought, worked

        print_json(worked(case, display) | ({"found": sought(found, display)} if found else {}))
    else:
        print(chosen.question)
        for name, entry in case.entries.items():
            assumed = f" (no unit typed, {entry.given.unit.text} taken)" if entry.bare else ""
            print(f"  {name:<24} {entry.show(display)}{assumed}")
        for name, relation in chosen.results.items():
            print(f"  -> {name:<21} {answered(case, relation, display)}")
        for check in case.checks:
            print(f"  {check.outcome()}: {check.words(display)}")
        for sentence in (*case.outside, *case.cautions):
            print(f"  caution: {sentence}")
        if found:
            print(f"  found: {found.words(display)}")
    return FINE if case.ok and (found is None or found.how != "none") else FAILS


def _check(options: argparse.Namespace) -> int:
    from kit.core.record import judged
    from kit.job.check import check_all

    checked = check_all(options.job)
    findings, verdicts, faults, display = checked.findings, checked.verdicts, checked.faults, checked.display
    if options.json:
        print_json(
            {
                "job": str(options.job),
                "findings": [finding.record() for finding in findings],
                "parts": {id: judged(verdict) for id, verdict in verdicts.items()},
            }
        )
    else:
        for finding in findings:
            print(f"{options.job}:{finding}")
        for id, verdict in verdicts.items():
            for check in (*verdict.failing, *verdict.unsure):
                print(f"{id}: {check.outcome(verdict.level)}: {check.words(display, verdict.level)}")
            for words in verdict.open:
                print(f"{id}: not fully checked: {words}")
        print(f"{options.job}: {_summary(len(faults), list(verdicts.values()))}")
    if faults:
        return BAD
    return FINE if all(verdict.ok for verdict in verdicts.values()) else FAILS


def _whole(name: str) -> Run:
    """Return what a command of a whole job does; it is loaded when it is run."""

    def run(options: argparse.Namespace) -> int:
        from kit.cli.station import COMMANDS

        return COMMANDS[name](options)

    return run


def _summary(faults: int, verdicts: list[Verdict]) -> str:
    """Return the last line of a check: faults of the file, or how many parts fail, are unsure, or not fully checked."""
    if faults:
        return "1 fault" if faults == 1 else f"{faults} faults"
    failing = sum(not verdict.ok for verdict in verdicts)
    unsure = sum(verdict.ok and bool(verdict.unsure) for verdict in verdicts)
    part_open = sum(verdict.ok and bool(verdict.open) for verdict in verdicts)
    counts = [f"{failing} {'fails' if failing == 1 else 'fail'} a limit"] if failing else []
    counts += [f"{unsure} {'holds its' if unsure == 1 else 'hold their'} limits, but not surely"] if unsure else []
    counts += [f"{part_open} {'is' if part_open == 1 else 'are'} not fully checked"] if part_open else []
    examples, values = sum(v.examples for v in verdicts), sum(len(v.origins) for v in verdicts)
    yours = f"; {examples} of {values} values are examples, not yet yours" if examples else ""
    return f"no fault in the file; of {len(verdicts)} parts {', '.join(counts) or 'all hold their limits'}{yours}"


def _sheet(options: argparse.Namespace) -> int:
    from kit.job import Job
    from kit.sheet.book_parts import write_part

    job = Job.open(options.job)
    job.model(options.part)  # refuses a part that the job has not
    page = write_part(job, options.part, options.out, failing=options.failing, short=options.short)
    print(f"{options.out / page.href}: {page.words}")
    return FAILS if page.state == "fails" else FINE


def _worksheet(options: argparse.Namespace) -> int:
    from kit.cli.teaching import write

    for path in write(options, _display(options)):
        print(path)
    return FINE


def _lesson(options: argparse.Namespace) -> int:
    from kit.cli.teaching import write_lesson

    print(write_lesson(options))
    return FINE
