"""What the kit does with both demo jobs and every model, to show that a restructuring changes none of it.

Run as a script, before and after, from any folder:

    python tests/behavior.py record before.json
    python tests/behavior.py compare before.json after.json

The kit is driven through its command alone, found by the project's file; only the proofs, which are printed nowhere,
are asked for in Python, see `proofs`. A record is lists of lines by item. `compare` takes each line apart into numbers,
which must agree within 1e-9 of their size, and words, where a number stands as `#`, with its decimals if it is printed.
It tells each difference, and ends with 1 if there is one.
"""

from __future__ import annotations

import csv
import json
import os
import re
import sys
import tempfile
import tomllib
from collections.abc import Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from difflib import SequenceMatcher
from hashlib import sha256
from importlib import import_module
from io import StringIO
from math import isclose
from pathlib import Path
from typing import Any

import ezdxf.filemanagement
import pypdf
import trimesh
from lxml import html

ROOT = Path(__file__).resolve().parents[1]
DEMOS = ("boatshed", "schoolshop")
SHOWN = 4  # differences printed of one item
EXCLUDED = (
    "the day in the head of a sheet, handles and times in DXF and PDF files: they tell when, not what",
    "styles of sheets, and the script that draws a view in space: of a view its data are recorded",
    "pixels of pictures and long coded data of views: of each a checksum is recorded",
    "the largest difference met in a proof: rounding noise; how, and at how many points, is recorded",
    "'Pack' with the nesting library, bound by time: no book asks for it",
    "notebooks, panels, lessons, and what `list` and `work` print for people",
)
LATE = "time was over"  # words of a search that was ended by the clock

Lines = list[str]
Record = dict[str, Lines]

_FLOAT = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_NUMBER = re.compile(r"(?<![\w.])[-−+]?(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?(?:[eE][-+]?\d{1,2})?(?!\w)")
_PATH = re.compile(r"(?:[-\d.]+ )+(?:m|l|c|re|cm)\b")  # in a stream of a PDF: where a line goes
_BLOCK = re.compile("caption|dd|div|dt|figcaption|figure|h[1-6]|li|p|section|table|tr")
_SHAPE = re.compile("d|points|[xyr][12xy]?|c[xy]|width|height|viewbox|transform|stroke-(width|dasharray)")


def record() -> Record:
    """Return what the kit does now: every model at its defaults, its proofs; checks, sheets and files of the demos."""
    os.chdir(ROOT)
    sys.path.insert(0, str(ROOT))
    found: Record = {}
    for model in json.loads(_said("list", "--json")[1])["models"]:
        name = model["name"]
        print(name, file=sys.stderr)
        found[f"models/{name}/list"] = list(_leaves(model))
        found[f"models/{name}/work"] = _answer("work", name, "--json")
        found[f"models/{name}/proofs"] = proofs(name)
    for demo in DEMOS:
        print(demo, file=sys.stderr)
        job = f"data/{demo}.toml"
        found[f"{demo}/check"] = _answer("check", job, "--json")
        with tempfile.TemporaryDirectory() as folder:
            code, said = _said("book", job, "--out", folder)
            found[f"{demo}/book"] = [f"code {code}", *said.replace(folder, "BOOK").splitlines()]
            for path in sorted(Path(folder).glob("*.html")):
                found |= {f"{demo}/{path.stem}/{what}": lines for what, lines in _sheet(path).items()}
            for path in sorted(Path(folder).glob("files/**/*.*")):
                found[f"{demo}/files/{path.name}"] = _file(path)
    return found


def proofs(name: str) -> Lines:
    """Return how each line of a model's derivation is proved. The one place that knows where the kit keeps this.

    Raises:
        ProofError: a line is not true.
    """
    from kit.core.model import prove
    from kit.subjects import model

    found = prove(model(name))
    return [f"{each.relation} line {each.line + 1}: {each.how} at {each.points} points" for each in found]


def _said(*arguments: str) -> tuple[int, str]:
    """Run the command; return its exit code and what it printed."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    module, function = project["scripts"]["fitwright"].split(":")
    out = StringIO()
    with redirect_stdout(out), redirect_stderr(out):
        code: int = getattr(import_module(module), function)(arguments)
    return code, out.getvalue()


def _answer(*arguments: str) -> Lines:
    """Return the exit code of a command with ``--json``, and all that its answer says; or why there is none."""
    code, said = _said(*arguments)
    told = _leaves(json.loads(said)) if said.startswith("{") else said.splitlines()
    return [f"code {code}", *told]


def _leaves(value: Any, where: str = "") -> Iterator[str]:
    """Yield a line for each value in what JSON tells; for long text in one word, its checksum."""
    if isinstance(value, dict | list):
        for key, each in value.items() if isinstance(value, dict) else (("[]", each) for each in value):
            yield from _leaves(each, f"{where}.{key}".lstrip("."))
    else:
        coded = isinstance(value, str) and len(value) > 80 and " " not in value
        yield f"{where} {sha256(value.encode()).hexdigest() if coded else value}"


def _sheet(path: Path) -> Record:
    """Return digest, limits, cautions, text and drawings of a sheet of a book; of its index the text."""
    page = html.parse(path, html.HTMLParser(encoding="utf-8")).find(".//main")
    found: Record = {"digest": []}
    for row in page.findall(".//dl[@class='fw-origin']/div"):
        term, told = (each.text_content() for each in row)
        if term == "Inputs":
            found["digest"].append(told)
        if term in ("Inputs", "Date"):
            row.getparent().remove(row)
    if path.stem != "index" and len(found["digest"]) != 1:
        raise LookupError(f"{path.name} tells {len(found['digest'])} digests of its inputs")
    for what in ("limits", "cautions"):
        found[what] = [line for each in page.findall(f".//ul[@class='fw-{what}']/li") for line in _text(each)]
    found["drawings"] = [line for svg in page.iter("svg") for line in _drawn(svg)]
    for frame in page.iter("iframe"):
        for data in html.fromstring(frame.get("srcdoc")).iterfind(".//script[@type='application/json']"):
            found["drawings"] += _leaves(json.loads(data.text), "view")
    return found | {"text": _text(page)}


def _text(element: Any) -> Lines:
    """Return the words in an element outside of drawings, one line a paragraph, row of a table or item of a list."""
    lines = [""]

    def walk(each: Any) -> None:
        breaks = [""] if _BLOCK.fullmatch(str(each.tag)) else []
        lines.extend(breaks)
        if each.tag not in ("svg", "iframe"):
            lines[-1] += f" {each.text or ''}"
            for child in each:
                walk(child)
        lines.extend(breaks)
        lines[-1] += f" {each.tail or ''}"

    walk(element)
    return [" ".join(words.split()) for words in lines if words.strip()]


def _drawn(svg: Any) -> Iterator[str]:
    """Yield a line for each mark of a drawing: its coordinates, then its words."""
    for each in svg.iter("*"):
        told = [f"{name} {value}" for name, value in each.items() if _SHAPE.fullmatch(name)]
        told = [_FLOAT.sub(lambda number: f" {_flat(float(number[0]))} ", shape) for shape in told]
        told += _leaves(each.get("xlink:href"), "picture") if each.tag == "image" else []
        words = " ".join([*told, "" if each.tag == "style" else each.text or ""]).split()
        if words:
            yield " ".join([each.tag, *words])


def _flat(value: Any) -> str:
    """Return coordinates, or whatever else a DXF entity has, as words; numbers to 1e-6, none of them -0."""
    if isinstance(value, float):
        return f"{round(value, 6) + 0.0:.6f}"
    return str(value) if isinstance(value, str | int) else " ".join(map(_flat, value))


def _file(path: Path) -> Lines:
    """Return what a file of a shape holds.

    Raises:
        LookupError: a kind of file that is not known here.
    """
    match path.suffix:
        case ".svg":
            return list(_drawn(html.fromstring(path.read_bytes())))
        case ".dxf":
            drawing = ezdxf.filemanagement.readfile(path)
            lines = [f"units {drawing.header['$INSUNITS']}"]
            for entity in drawing.modelspace():
                told = sorted(entity.dxfattribs(drop={"handle", "owner"}).items())
                points: list[Any] = list(getattr(entity, "get_points", list)())  # of a polyline, with bulges
                lines.append(f"{entity.dxftype()} {_flat(told)} {_flat(points)}".rstrip())
            return lines
        case ".pdf":
            pages = pypdf.PdfReader(path).pages
            lines = [f"{len(pages)} pages"]
            for page in pages:
                lines += [f"page {_flat(map(float, page.mediabox))}", *page.extract_text().splitlines()]
                resources: Any = page["/Resources"]
                forms = [form.get_object() for form in resources.get("/XObject", {}).values()]
                for stream in (page.get_contents(), *forms):
                    lines += _PATH.findall(stream.get_data().decode("latin-1"))
            return lines
        case ".csv":
            with path.open(encoding="utf-8-sig", newline="") as file:
                return [" | ".join(row) for row in csv.reader(file)]
        case ".stl" | ".3mf":
            mesh: Any = trimesh.load(path, force="mesh")
            size = f"volume {mesh.volume}", f"area {mesh.area}", f"bounds {_flat(mesh.bounds.tolist())}"
            return [*size, f"bodies {mesh.body_count}", f"triangles {len(mesh.faces)}"]
    raise LookupError(f"{path.name}: no way to read this kind of file")


def compare(before: Record, after: Record) -> int:
    """Print each difference of two records and how much is equal; return 1 if anything differs, else 0."""
    items = list(before | after)
    equal = compared = numbers = words = 0
    for item in items:
        if item not in before or item not in after:
            print(f"item     {item}: only {'before' if item in before else 'after'}")
            continue
        rounded = not re.match(r"models/|.*\.(stl|3mf)", item)
        old, new = before[item], after[item]
        wrong = _tell("numbers", item, _numbers(old), _numbers(new)) if old != new else 0
        other = _tell("words", item, _worded(old, rounded), _worded(new, rounded)) if old != new else 0
        equal += not wrong and not other
        compared, numbers, words = compared + len(_numbers(old)), numbers + wrong, words + other
    print(f"{equal} of {len(items)} items equal; {compared} numbers compared")
    print(f"{numbers} differences in numbers, {words} in words")
    return 0 if equal == len(items) else 1


_Told = list[tuple[str, str]]  # what is compared, and the line in which it stands


def _numbers(lines: Lines) -> _Told:
    plain = str.maketrans({",": None, "−": "-"})
    return [(each[0].translate(plain), line) for line in lines for each in _NUMBER.finditer(line)]


def _worded(lines: Lines, rounded: bool) -> _Told:
    def sign(number: re.Match[str]) -> str:
        return "#." + "#" * len(number[0].partition(".")[2]) if rounded else "#"

    return [(_NUMBER.sub(sign, line), line) for line in lines]


def _same(one: tuple[str, str], other: tuple[str, str]) -> bool:
    numbers = [float(told) for told, _ in (one, other) if _FLOAT.fullmatch(told)]
    return one[0] == other[0] or (len(numbers) == 2 and isclose(*numbers, rel_tol=1e-9))


def _tell(what: str, item: str, old: _Told, new: _Told) -> int:
    """Print the first differences, place by place, or aligned if one side has more; return how many there are."""
    spans = [(n, n + 1, n, n + 1) for n in range(len(old))]
    if len(old) != len(new):
        aligned = SequenceMatcher(None, [told for told, _ in old], [told for told, _ in new])
        spans = [(i, j, k, n) for tag, i, j, k, n in aligned.get_opcodes() if tag != "equal"]
    sides = [(old[i:j], new[k:n]) for i, j, k, n in spans]
    found = [(a, b) for a, b in sides if len(a) != len(b) or not all(map(_same, a, b))]
    for gone, come in found[:SHOWN]:
        one, other = (" ¦ ".join(told for told, _ in side)[:100] for side in (gone, come))
        print(f"{what:<8} {item}: {one!r} -> {other!r} in {(gone or come)[0][1][:100]!r}")
    if len(found) > SHOWN:
        print(f"{what:<8} {item}: {len(found) - SHOWN} more")
    return len(found)


def main(arguments: Sequence[str]) -> int:
    """Record or compare, as told; return the exit code."""
    match arguments:
        case ["record", out]:
            target = Path(out).absolute()
            found = record()
            target.write_text(json.dumps(found, ensure_ascii=False, indent=0) + "\n", encoding="utf-8")
            numbers = sum(len(_numbers(lines)) for lines in found.values())
            print(f"{target}: {len(found)} items, {numbers} numbers")
            print("\n".join(f"left out: {what}" for what in EXCLUDED))
            for item in (item for item, lines in found.items() if any(LATE in line for line in lines)):
                print(f"not repeatable, ended by the clock: {item}; record again on a quieter machine")
            return 0
        case ["compare", before, after]:
            return compare(*(json.loads(Path(each).read_text(encoding="utf-8")) for each in (before, after)))
    print(__doc__, file=sys.stderr)
    return 2


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
