"""Jobs beside which every notebook must run, as files: other stations, and the demo with all its values moved."""

import random
import tomllib
from pathlib import Path

from kit.core.model import Case, Given
from kit.job import Job
from kit.job.folder import new_job
from kit.job.toml_edit import render
from tests import DATA

SEED = 12
LEAST, FARTHEST = 0.05, 0.4  # of the way from what is stated to an end of the span

ONE = """format = 1

[job]
name = "One stop of my own"
units = "mm"

[parts.my_stop]
model = "stop.deflection"

[parts.my_stop.givens]
long_reach = "350 mm"
"""


def write_jobs(folder: Path) -> dict[str, Path]:
    """Write the jobs into a folder and return their files by what they are."""
    one = folder / "one.toml"
    one.write_text(ONE, encoding="utf-8")
    school = folder / "schoolshop.toml"
    school.write_bytes((DATA / school.name).read_bytes())
    return {
        "school": school,
        "empty": new_job("Nothing yet", "in", folder=folder).path,
        "one": one,
        "moved": _moved(folder),
    }


def _moved(folder: Path) -> Path:
    """Write the boat shed with every given that it states moved inside its span by a seeded amount."""
    source = DATA / "boatshed.toml"
    job, rng = Job.open(source), random.Random(SEED)
    content = tomllib.loads(source.read_text(encoding="utf-8"))
    for id, part in job.parts.items():
        case = job.case(id)
        for name, entry in part.givens.items():
            if entry.text and name in case.model.givens:
                content["parts"][id]["givens"][name] = _elsewhere(case, case.model.givens[name], rng)
    path = folder / "moved.toml"
    path.write_text("\n".join(f"{key} = {render(value)}" for key, value in content.items()), encoding="utf-8")
    return path


def _elsewhere(case: Case, given: Given, rng: random.Random) -> str:
    """Return another value of a given as it would be typed, in its own unit."""
    here = case.base[given.name]
    if given.kind == "choice":
        return rng.choice([name for name, code in given.options.items() if code != round(here)])
    low, high = given.span
    end = low if here >= high else high if here <= low else rng.choice(given.span)
    there = here + rng.uniform(LEAST, FARTHEST) * (end - here)
    if given.kind == "count":
        there = round(there) if round(there) != here else here + (1 if end > here else -1)
    return given.show(there)
