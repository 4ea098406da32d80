"""How time and memory grow with vertices, poses, parts of a job, rows of a part, and draws: each close to linear.

Every size is measured in a process of its own, its processor time and, in another, the most memory that Python
and NumPy took for it. Printed with the slope of the logarithms: 1 is linear. The plot, growth.svg, goes to the folder
in FITWRIGHT_BENCH_FOLDER, or to a temporary one.
"""

import math
import os
import tracemalloc
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from time import process_time

import numpy as np
import pytest

from kit.core.uncertainty import monte_carlo
from kit.drawing.plots import new_figure
from kit.geometry.clearance import Body, Obstacle, sampled
from kit.job.check import check_all
from kit.subjects import model
from tests.bench.test_clearance import CHAIN, dome, saw

pytestmark = [
    pytest.mark.bench,
    pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork"),
]

Work = Callable[[], object]
Prepare = Callable[[int], Work]

LINKED = 'format = 2\n[job]\nname = "Many"\n[parts.p0]\nmodel = "stop.section"\n'
TARGET_PARTS, TARGET_SECONDS = 3000, 10.0


def cleared(vertices: int, poses: int) -> Work:
    """The clearance of a scan from a hood, at poses of two joints."""
    scan, shell = saw(vertices), dome()
    hood = Obstacle.of([("dome", np.asarray(shell.vertices), np.asarray(shell.faces))])
    shares = np.random.default_rng(1).random((poses, len(CHAIN.joints)))
    ends = np.array([(joint.low, joint.high) for joint in CHAIN.joints])
    places = CHAIN.poses(ends[:, 0] + shares * (ends[:, 1] - ends[:, 0]))
    return lambda: sampled(Body.of(scan.vertices, scan.faces), hood, places)


def linked(parts: int, folder: Path) -> Work:
    """The check of a job in which every part takes a result of the one before it."""
    path = folder / f"linked_{parts}.toml"
    texts = [
        f'[parts.p{n}]\nmodel = "stop.section"\n[parts.p{n}.givens]\nneeded = {{ from = "p{n - 1}.second_moment" }}\n'
        for n in range(1, parts)
    ]
    path.write_text(LINKED + "".join(texts), encoding="utf-8")
    return lambda: check_all(path)


def listed(rows: int, folder: Path) -> Work:
    """The check of a bed with so many gaps beyond the three of its page."""
    path = folder / f"listed_{rows}.toml"
    gaps = "".join(
        f'  {{ x = "{1000 * math.cos(n):.1f} mm", y = "{400 * math.sin(n):.1f} mm", depth = "1 ± 0.1 mm" }},\n'
        for n in range(rows)
    )
    text = f'format = 2\n[job]\nname = "Many"\n[parts.bed]\nmodel = "level.plane"\ngaps = [\n{gaps}]\n'
    path.write_text(text, encoding="utf-8")
    return lambda: check_all(path)


def drawn(draws: int) -> Work:
    """A chain of errors drawn so many times."""
    case = model("accuracy.chain").at()
    monte_carlo(case, ("part_error",), draws=100)
    return lambda: monte_carlo(case, ("part_error",), draws=draws)


def spent(prepare: Prepare, size: int) -> tuple[float, float]:
    """Return seconds of processor time and MB of memory that work of a size takes, each in a process of its own."""
    return _alone(lambda: _timed(prepare(size))), _alone(lambda: _weighed(prepare(size)))


def _timed(work: Work) -> float:
    begin = process_time()
    work()
    return process_time() - begin


def _weighed(work: Work) -> float:
    tracemalloc.start()
    work()
    return tracemalloc.get_traced_memory()[1] / 1e6


def _alone(measure: Callable[[], float]) -> float:
    """Return what a measure gives in a copy of this process, which remembers nothing of other sizes."""
    mine, theirs = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.write(theirs, str(measure()).encode())
        finally:
            os._exit(0)
    os.close(theirs)
    with os.fdopen(mine, "rb") as stream:
        answer = stream.read()
    os.waitpid(child, 0)
    assert answer, "the work ended in an error"
    return float(answer)


def slope(sizes: Sequence[int], values: Sequence[float]) -> float:
    """Return by what power of the size a value grows, over the larger half of the sizes."""
    half = len(sizes) // 2
    return float(np.polyfit(np.log(sizes[half:]), np.log(np.maximum(values[half:], 1e-6)), 1)[0])


def test_growth(tmp_path: Path) -> None:
    kinds: dict[str, tuple[Prepare, tuple[int, ...]]] = {
        "vertices, clearance at 100 poses": (partial(cleared, poses=100), (12_500, 25_000, 50_000, 100_000)),
        "poses, clearance of 25,000 vertices": (lambda n: cleared(25_000, n), (125, 250, 500, 1000)),
        "linked parts of a job, checked": (partial(linked, folder=tmp_path), (375, 750, 1500, TARGET_PARTS)),
        "rows of a part, checked": (partial(listed, folder=tmp_path), (250, 500, 1000, 2000)),
        "draws of a chain": (drawn, (100_000, 200_000, 400_000, 800_000)),
    }
    figure, axes = new_figure()
    print()
    for name, (prepare, sizes) in kinds.items():
        prepare(sizes[0] // 10)()  # all that is loaded once is loaded
        found = [spent(prepare, size) for size in sizes]
        seconds, megabytes = ([each[k] for each in found] for k in (0, 1))
        told = ", ".join(f"{size:,}: {s:.2f} s, {mb:.0f} MB" for size, (s, mb) in zip(sizes, found, strict=True))
        print(f"{name}: {told}; time grows by the power {slope(sizes, seconds):.2f}, "
              f"memory by {slope(sizes, megabytes):.2f}")  # fmt: skip
        if TARGET_PARTS in sizes:
            took = seconds[sizes.index(TARGET_PARTS)]
            print(f"  {took / TARGET_SECONDS:.2f} of the {TARGET_SECONDS:g} s wished for {TARGET_PARTS:,}")
        (line,) = axes.plot(np.array(sizes) / sizes[0], np.array(seconds) / seconds[0], "o-", label=name)
        axes.plot(
            np.array(sizes) / sizes[0], np.array(megabytes) / max(megabytes[0], 1e-6), ":", color=line.get_color()
        )
    axes.plot([1, 8], [1, 8], color="0.6", linewidth=1, label="linear")
    axes.set(xscale="log", yscale="log", xlabel="times the smallest size", ylabel="times its time; dotted, its memory")
    axes.legend()
    folder = Path(os.environ.get("FITWRIGHT_BENCH_FOLDER") or tmp_path)
    folder.mkdir(parents=True, exist_ok=True)
    figure.savefig(folder / "growth.svg")
    print(f"plot: {folder / 'growth.svg'}")
