"""One trial each of what people, disks and systems do to the kit: it returns what came of it, in a word.

No trial may end in an exception that is none of ours, run longer than a minute, lose a file or write one elsewhere.
"""

import contextlib
import io
import os
import random
import signal
import subprocess
import sys
import time
from hashlib import sha256
from pathlib import Path

from kit.cli import main
from kit.core.errors import KitError
from kit.core.tables.read_csv import read_table
from kit.core.tables.schemas import SCHEMAS
from kit.geometry.mesh.reader import read
from kit.job import Job
from kit.job.errors import JobChanged
from tests.abuse import broken

LONGEST = 60.0  # s: of this process where it works by itself, so that a busy machine is no hang

SMALL = """format = 2
[job]
name = "Small"
[parts.stop]
model = "stop.deflection"
[parts.stop.givens]
long_reach = "600 ± 1 mm"
[parts.ring]
model = "bevel.setting"
[parts.ring.givens]
[parts.pad]
model = "level.pads"
"""


class AbuseError(AssertionError):
    """Something happened that must not."""


def lying(folder: Path) -> dict[str, str]:
    """Return the digests of all files in a folder, by their paths in it; what a link leads to is not looked at."""
    found = {}
    for path in folder.rglob("*"):
        if path.is_file() and not path.is_symlink():
            found[path.relative_to(folder).as_posix()] = sha256(path.read_bytes()).hexdigest()
    return found


def broken_job(rng: random.Random, folder: Path, *, build: bool) -> str:
    """Check a broken job by the command, or all of it with what is built."""
    text = broken.job(rng)
    path = folder / "job.toml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    before, start = lying(folder), time.process_time()
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out):
        if build:
            code = main(["check", str(path)])
        else:
            from kit.job.check import check

            code = 2 if any(finding.severity == "fault" for finding in check(path)) else 0
    if time.process_time() - start > LONGEST:
        raise AbuseError(f"more than {LONGEST:g} s")
    if lying(folder) != before:
        raise AbuseError("a check wrote a file")
    return ("no TOML" if not broken.readable(text) else "a fault is told") if code == 2 else "checked"


def broken_mesh(rng: random.Random, _folder: Path) -> str:
    """Read a broken mesh."""
    name, data = broken.mesh(rng)
    start = time.process_time()
    try:
        read(broken.stream(data), name)
    except KitError:
        return "refused"
    finally:
        if time.process_time() - start > LONGEST:
            raise AbuseError(f"more than {LONGEST:g} s")
    return "read"


def broken_table(rng: random.Random, folder: Path) -> str:
    """Read a broken table."""
    name, data = broken.table(rng)
    path = folder / f"{name}.csv"
    path.write_bytes(data)
    try:
        read_table(path, SCHEMAS[name])
    except KitError:
        return "refused"
    return "read"


def kit(*arguments: str, limit: int | None = None) -> subprocess.Popen[bytes]:
    """Start the command; `limit` is the largest file in bytes that it can write, as on a disk that is full."""
    code = "import sys; from kit.cli import main; raise SystemExit(main(sys.argv[1:]))"
    if limit is not None:
        code = f"import resource; resource.setrlimit(resource.RLIMIT_FSIZE, ({limit}, {limit})); {code}"
    return subprocess.Popen([sys.executable, "-c", code, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE)


def killed_book(rng: random.Random, folder: Path) -> str:
    """Kill a book at some moment, in a folder where an older one lies; the next one is whole."""
    path, out = folder / "job.toml", folder / "book"
    path.write_text(SMALL, encoding="utf-8")
    done = kit("book", str(path), "--out", str(out))
    done.communicate(timeout=LONGEST)
    older = {name for name in lying(out) if not name.startswith(".")}
    path.write_text(SMALL.replace("600 ±", f"{rng.randint(601, 900)} ±"), encoding="utf-8")
    doomed = kit("book", str(path), "--out", str(out))
    time.sleep(rng.uniform(0.2, 4.0))
    doomed.send_signal(signal.SIGKILL)
    doomed.communicate()
    if not older <= lying(out).keys():
        raise AbuseError("a killed book took a file of the older one")
    kit("book", str(path), "--out", str(out)).communicate(timeout=LONGEST)
    kit("book", str(path), "--out", str(folder / "fresh")).communicate(timeout=LONGEST)
    whole = {name: each for name, each in lying(out).items() if not name.startswith(".")}
    if whole != {name: each for name, each in lying(folder / "fresh").items() if not name.startswith(".")}:
        raise AbuseError("the book after a killed one is not whole")
    return "whole again"


def two_savers(rng: random.Random, folder: Path) -> str:
    """Let two processes change one job, each its own given, at the same time: every change is in the file."""
    path = folder / "job.toml"
    path.write_text(SMALL, encoding="utf-8")
    code = (
        "import sys, time; from kit.job import Job\n"
        "job, part, name, unit = Job.open(sys.argv[1]), *sys.argv[2:]\n"
        "for n in range(20):\n    job.set(part, name, f'{20 + n} {unit}'); job.save(); time.sleep(0.01)\n"
    )
    both = [
        subprocess.Popen([sys.executable, "-c", code, str(path), *told], stderr=subprocess.PIPE)
        for told in (("stop", "push", "N"), ("ring", "rise", "mm"))
    ]
    for each in both:
        _, told = each.communicate(timeout=2 * LONGEST)
        if each.returncode:
            raise AbuseError(f"a saver ended: {told.decode()[-300:]}")
    job = Job.open(path)
    found = (job.parts["stop"].givens["push"].text, job.parts["ring"].givens["rise"].text)
    if found != ("39 N", "39 mm"):
        raise AbuseError(f"a change is lost: {found}")
    return "both kept"


def full_disk(rng: random.Random, folder: Path) -> str:
    """Write a book and save a job where no file can grow beyond a few kilobytes."""
    path, out = folder / "job.toml", folder / "book"
    path.write_text(SMALL, encoding="utf-8")
    before = lying(folder)
    done = kit("book", str(path), "--out", str(out), limit=rng.randint(100, 20_000))
    _, told = done.communicate(timeout=LONGEST)
    lines = [line for line in told.decode().splitlines() if not line[:1].isdigit()]
    if done.returncode != 2 or len(lines) != 1 or str(folder) not in lines[0]:
        raise AbuseError(f"a full disk is told so: {told.decode()[-500:]}")
    if lying(folder) != before:
        raise AbuseError("a book that does not fit left files")
    return "told"


def changed_outside(rng: random.Random, folder: Path) -> str:
    """Change a job in a session and by hand at once: one of the two is asked, nothing is lost."""
    path = folder / "job.toml"
    path.write_text(SMALL, encoding="utf-8")
    job = Job.open(path)
    job.set("stop", "long_reach", f"{rng.randint(300, 700)} ± 1 mm")
    text = broken.job(rng) if rng.random() < 0.5 else SMALL.replace("600", str(rng.randint(601, 700)))
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        job.save()
    except (JobChanged, KitError):
        if path.read_bytes() != text.encode("utf-8", "surrogatepass"):
            raise AbuseError("a save that was refused changed the file") from None
        return "asked"
    return "merged"


def leading_out(rng: random.Random, folder: Path) -> str:
    """Let links and names lead out of the job's folder: nothing is written there."""
    inside, outside = folder / "inside", folder / "outside"
    inside.mkdir()
    outside.mkdir()
    (outside / "kept.txt").write_text("kept")
    (inside / "scan.ply").symlink_to(rng.choice((outside, outside / "kept.txt", Path("/dev/zero"), outside / "no")))
    os.mkfifo(inside / "pipe.ply")
    name = rng.choice(("scan.ply", "pipe.ply", "../outside/kept.txt", "/dev/zero", "../" * 30 + "etc/passwd", "."))
    path = inside / "job.toml"
    path.write_text(f'{SMALL}[parts.sweep]\nmodel = "sweep.step"\nscan = "{name}"\n', encoding="utf-8")
    before = lying(outside)
    for command in (["check", str(path)], ["book", str(path), "--out", str(inside / "book")]):
        done = kit(*command)
        _, told = done.communicate(timeout=LONGEST)
        if b"Traceback" in told or done.returncode not in (0, 1, 2):
            raise AbuseError(told.decode()[-500:])
    if lying(outside) != before:
        raise AbuseError("something was written outside of the job's folder")
    return "stayed inside"
