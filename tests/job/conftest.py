"""Job files for the tests, on two small models put among the subjects."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from kit import subjects
from tests.job import models
from tests.small_subjects import works  # noqa: F401  (a fixture)

JOB = """\
# The shed's own job.
format = 2

[job]
name = "Shelves"   # on the label
units = "in"
denominator = 16

[machine]
depth = { value = "18 ± 0.1 mm", measured = 2026-05-02, how = "caliper" }

[tables.woods."boat-shed ash"]
modulus_along = "11.9 ± 0.6 GPa"
source = "bent between two trestles"

[parts.shelf]
model = "test.shelf"
title = "Long shelf"
wood = "boat-shed ash"

[parts.shelf.givens]
# measured twice
length = { value = "700 ± 0.2 mm", spread = "normal", k = 2, measured = 2026-05-02, how = "steel rule" }
height = { from = "machine.depth" }
load = 60          # N
tilt = { from = "ring.miter" }
width = "2 in"

# The ring comes after.
[parts.ring]
model = "test.ring"

[parts.ring.givens]
sides = 8
"""


LENGTH = '{ value = "700 ± 0.2 mm", spread = "normal", k = 2, measured = 2026-05-02, how = "steel rule" }'


@pytest.fixture(scope="package", autouse=True)
def small_models() -> Iterator[None]:
    before = subjects.PAGES, subjects.MODELS
    models.install()
    yield
    subjects.PAGES, subjects.MODELS = before


@pytest.fixture
def write(tmp_path: Path) -> Callable[..., Path]:
    """Return `write(text)`: the path of a job file with that text, its line ends as given."""

    def to_file(text: str = JOB) -> Path:
        path = tmp_path / "shelves.toml"
        path.write_bytes(text.encode())
        return path

    return to_file
