"""Broken inputs, drawn from a seed: jobs made of the demo's parts, meshes and tables, each with a few things wrong."""

import random
import re
import tomllib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import trimesh

from tests import DATA

JOBS = ("boatshed.toml", "schoolshop.toml")
KINDS = ("ply", "stl", "obj", "glb", "3mf")
TABLES = sorted((DATA / "tables").glob("*.csv"))

WORDS = (
    "", "-1", "0", "1e400", "-1e-300", "nan", "inf", "9" * 400, "true", "2999-12-31", "12:30:00", "{}", "[]", "[[]]",
    '"12 parsecs"', '"1/0 in"', '"±"', '"5 ± -1 mm"', '"5 ± 1e9 mm"', '"1\' 99 7/0\\""', '"\\u0000"', '"\\ud800"',
    "'''",
    '"../../../../etc/passwd"', '"/dev/zero"', '"CON"', '"' + "x" * 5000 + '"', '{ from = "machine.nothing" }',
    '{ value = "5 mm", k = 0 }', '{ value = "5 mm", measured = 12:00:00 }', '{ value = "5 mm", spread = "odd" }',
)  # fmt: skip


def job(rng: random.Random) -> str:
    """Return the text of a job: some parts of a demo job with what stands around them, and a few mutations."""
    text = (DATA / rng.choice(JOBS)).read_text(encoding="utf-8")
    head, *blocks = re.split(r"(?m)^(?=\[parts\.[\w-]+\]$)", text)
    ids = [block[7 : block.index("]")] for block in blocks]
    stated = dict(zip(ids, blocks, strict=True))
    picked, ahead = set(), rng.sample(ids, rng.randint(1, 3))
    while ahead:  # with the parts that they rest on, so that the reader finds them whole
        picked.add(id := ahead.pop())
        named = re.findall(r'= *\[?"([\w-]+)"|from = "([\w-]+)\.', stated[id])
        ahead += {name for pair in named for name in pair if name in stated} - picked
    whole = _tasks_of(head, picked) + "".join(block for id, block in stated.items() if id in picked)
    for _ in range(rng.randint(1, 4)):
        whole = rng.choice(_OF_TEXT)(whole or "\n", rng)
    return whole


def _tasks_of(head: str, picked: set[str]) -> str:
    """Take out the tasks on parts that are not picked, and those that come after one of them."""
    kept: set[str] = set()

    def task(block: re.Match[str]) -> str:
        told = tomllib.loads(block[0])["work"]["tasks"][0]
        if told.get("part") not in {None, *picked} or not kept >= set(told.get("after", [])):
            return ""
        kept.add(told["name"])
        return block[0]

    return re.sub(r"(?ms)^\[\[work\.tasks\]\]$.*?(?=^\[|\Z)", task, head)


def _value(text: str, rng: random.Random, words: tuple[str, ...] = WORDS) -> str:
    """Put something else, one of `words`, where a value stands."""
    places = [match.span(1) for match in re.finditer(r"(?m)= *(.+)$", text)]
    if not places:
        return text
    start, end = rng.choice(places)
    return text[:start] + rng.choice(words) + text[end:]


def _number(text: str, rng: random.Random) -> str:
    """Put another number where one stands in a value: of its kind, so that more than the reader sees it."""
    places = [match.span() for match in re.finditer(r"(?m)(?<== \")\d[\d.]*|(?<== )\d[\d.]*$", text)]
    if not places:
        return text
    start, end = rng.choice(places)
    old = text[start:end]
    return text[:start] + rng.choice(("0", f"-{old}", f"{old}00", f"0.00{old}", f"{old}1", "1", "1e9")) + text[end:]


def _line_out(text: str, rng: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    del lines[rng.randrange(len(lines))]
    return "".join(lines)


def _line_twice(text: str, rng: random.Random) -> str:
    lines = text.splitlines(keepends=True)
    lines.insert(rng.randrange(len(lines)), rng.choice(lines))
    return "".join(lines)


def _letter(text: str, rng: random.Random) -> str:
    at = rng.randrange(len(text))
    return text[:at] + rng.choice(" \n\t\"'[]{}=.,#±°½x0\x00\x1b\u202e") + text[at + rng.randint(0, 2) :]


def _cut(text: str, rng: random.Random) -> str:
    return text[: rng.randrange(len(text))]


def _renamed(text: str, rng: random.Random) -> str:
    """Give a key or a table another name."""
    places = [match.span(1) for match in re.finditer(r"(?m)^\[*([\w.\"-]+)(?= *=|\])", text)]
    if not places:
        return text
    start, end = rng.choice(places)
    names = ("index", "con", "Index", "a" * 300, "parts", "job", "machine", "format", "x.y", '"../out"', "model")
    name = rng.choice(names)
    return text[:start] + name + text[end:]


def _linked(text: str, rng: random.Random) -> str:
    """Link a given to a quantity of some part, of itself perhaps."""
    parts = re.findall(r"(?m)^\[parts\.([\w-]+)\]", text) or ["x"]
    given = rng.choice(re.findall(r"(?m)^(\w+) *=", text) or ["y"])
    return _value(text, rng, (f'{{ from = "{rng.choice(parts)}.{given}" }}',))


_OF_TEXT: tuple[Callable[[str, random.Random], str], ...] = (
    *[_value] * 4, *[_number] * 8, _line_out, _line_twice, _letter, _letter, _cut, _renamed, _renamed, _linked,
)  # fmt: skip


def mesh(rng: random.Random) -> tuple[str, bytes]:
    """Return the name and the bytes of a mesh's file with a few things wrong."""
    kind = rng.choice(KINDS)
    if kind == "ply" and rng.random() < 0.5:
        data = bytearray((DATA / "scan" / "saw_square.ply").read_bytes()[: rng.choice((400, 4000, 400_000))])
    else:
        exported = trimesh.creation.box(extents=(10, 20, 30)).export(file_type=kind)
        data = bytearray(exported.encode() if isinstance(exported, str) else exported)
    for _ in range(rng.randint(1, 6)):
        at = rng.randrange(len(data))
        match rng.randrange(5):
            case 0:
                data[at] = rng.randrange(256)
            case 1:
                del data[at : at + rng.randint(1, 40)]
            case 2:
                data[at:at] = rng.randbytes(rng.randint(1, 40))
            case 3:
                del data[at:]
                data += b"\n"
            case _:
                number = re.search(rb"\d+", bytes(data[at:]))
                if number:
                    start, end = (at + place for place in number.span())
                    data[start:end] = rng.choice((b"99999999999", b"-1", b"1e999", b"nan", b""))
        if not data:
            data = bytearray(b"\n")
    return f"scan.{kind}", bytes(data)


def stream(data: bytes) -> BytesIO:
    """Return bytes as an open file."""
    return BytesIO(data)


def table(rng: random.Random) -> tuple[str, bytes]:
    """Return the name and the bytes of a table's file with a few things wrong."""
    path = rng.choice(TABLES)
    text = path.read_text(encoding="utf-8")
    for _ in range(rng.randint(1, 5)):
        cells = [match.span() for match in re.finditer(r"[^,\n]+", text)]
        start, end = rng.choice(cells) if cells else (0, 0)
        wrong = rng.choice(("", "-1", "1e400", "nan", '"', ",", "\n", "ſ", "\x00", "x" * 3000, "1,5", "read", "0"))
        text = text[:start] + wrong + text[end:]
    return path.stem, text.encode() if rng.random() < 0.95 else text.encode("utf-16")


def readable(text: str) -> bool:
    """Whether a text is TOML at all: most mutations should get further than that."""
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError):
        return False
    return True


def copied(folder: Path) -> Path:
    """Return a folder for jobs with what the demo jobs name beside it."""
    for name in ("scan", "rubbing"):
        (folder / name).symlink_to(DATA / name, target_is_directory=True)
    return folder
