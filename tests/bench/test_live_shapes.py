"""Every control of every part with a shape, in both demo jobs: from a moved given to the shape's numbers and pictures.

What a panel does is done without a browser: the case with the moved given, the build, its numbers and the two pictures
that are seen, as text for the page. Printed for reading, never failing by time.
"""

import gc
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from statistics import median, quantiles
from time import process_time

import pytest

from kit.core.build import BuildInput
from kit.core.errors import KitError
from kit.drawing.space import STANDARD
from kit.job import Job
from kit.job.build import build_input
from kit.sheet import build_section
from kit.subjects import subject
from tests import DATA

pytestmark = pytest.mark.bench

MOVES = 4
SIZE = (640, 420)  # as the panel draws
TARGET = 0.1  # s, median; twice that for 95 of 100


def parts() -> Iterator[tuple[str, str]]:
    """Every part of the demo jobs whose subject has a shape."""
    for name in ("boatshed", "schoolshop"):
        job = Job.open(Path(DATA) / f"{name}.toml")
        for part in job.parts:
            if subject(job.parts[part].model).build is not None:
                yield name, part


def moved(asked: BuildInput, given: str, number: int) -> BuildInput | None:
    """Return the input with a given moved a little, by one for a count; None where it cannot be."""
    entry = asked.case.entries[given]
    way = (number // 2 + 1) * (1 if number % 2 else -1)
    if entry.given.options:
        return None
    if entry.given.kind == "count":
        value: float = round(entry.base) + way
    else:
        value = (entry.base * (1.0 + 0.004 * way) if entry.base else 0.01 * abs(way)) / entry.given.unit.factor
    try:
        return replace(asked, case=asked.case.with_(**{given: value}), quick=True)
    except KitError:
        return None


def seen(asked: BuildInput) -> float:
    """Return the seconds of this process from the moved given to all that the page is sent."""
    work = subject(asked.case.model.name)
    assert work.build is not None
    begin = process_time()
    build = work.build(asked)
    build_section.found(build, asked.display)
    for number, picture in enumerate(build.pictures[:2]):
        build_section.live_picture(picture, asked.display, ids=f"shape{number}", size=SIZE, camera=STANDARD["corner"])
    return process_time() - begin


def test_every_control_of_every_shape() -> None:
    medians, all_times = [], []
    for job, part in parts():
        asked = build_input(Job.open(Path(DATA) / f"{job}.toml"), part)
        seen(asked)
        gc.freeze()  # as the panel does
        for given in asked.case.entries:
            took = []
            for number in range(MOVES):
                next_one = moved(asked, given, number)
                try:
                    if next_one is not None:
                        took.append(seen(next_one))
                except KitError:
                    continue  # what cannot be made is told in a sentence
            if took:
                worst = quantiles(took, n=20)[-1] if len(took) > 1 else took[0]
                medians.append(median(took))
                all_times += took
                print(f"\n{job:10} {part:18} {given:22} {1e3 * median(took):6.0f} ms, p95 {1e3 * worst:6.0f} ms, "
                      f"{median(took) / TARGET:.2f} of the target median", end="")  # fmt: skip
    within = sum(each <= TARGET for each in medians)
    print(f"\n{len(medians)} controls: {within} within {1e3 * TARGET:.0f} ms; all moves: "
          f"median {1e3 * median(all_times):.0f} ms, p95 {1e3 * quantiles(all_times, n=20)[-1]:.0f} ms")  # fmt: skip
