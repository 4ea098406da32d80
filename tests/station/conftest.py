"""Small jobs to look at as a whole."""

from collections.abc import Callable
from pathlib import Path

import pytest

from kit.job import Job

Write = Callable[..., Job]


@pytest.fixture
def stated(tmp_path: Path) -> Write:
    """Return `stated(text, name="a", units="mm")`: the job of these parts."""

    def write(text: str, name: str = "a", units: str = "mm") -> Job:
        path = tmp_path / f"{name}.toml"
        path.write_text(f'format = 2\n[job]\nname = "{name}"\nunits = "{units}"\n{text}', encoding="utf-8")
        return Job.open(path)

    return write
