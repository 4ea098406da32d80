"""Jobs on which every notebook must run: the demos, an empty one, one of one part, and one with all values moved."""

import random
from collections.abc import Callable, Mapping
from pathlib import Path

from kit.core.errors import KitError
from kit.core.quantity import Quantity
from kit.job import Job
from kit.job.arrange import add_part
from kit.job.folder import copy_job, new_job
from tests import DATA

SEED = 20_260_501
SHARE = 0.2  # of its span, by which a given is moved at most


def boat_shed(folder: Path) -> Job:
    """The metric demo."""
    return copy_job(DATA / "boatshed.toml", folder=folder)


def school_shop(folder: Path) -> Job:
    """The demo in inches."""
    return copy_job(DATA / "schoolshop.toml", folder=folder)


def empty(folder: Path) -> Job:
    """A job without parts."""
    return new_job("Nothing yet", folder=folder)


def one_part(folder: Path) -> Job:
    """A job of one part."""
    job = new_job("A fence", "in", folder=folder)
    add_part(job, "stop.deflection", "Fence")
    return job


def moved(folder: Path) -> Job:
    """The metric demo with every number moved by a seeded amount within its span.

    A number whose move leaves the model without a value stays: that no cell fails then is tested by the others.
    """
    job, rng = boat_shed(folder), random.Random(SEED)
    for id in job.parts:
        case = job.case(id)
        for name, given in case.model.free.items():
            entry = job.parts[id].givens.get(name)
            if given.kind != "real" or (entry and entry.link):
                continue
            low, high = given.span
            base = min(max(case.base[name] + rng.uniform(-SHARE, SHARE) * (high - low), low), high)
            try:
                job.set(id, name, str(Quantity.from_base(base, given.unit, case.entries[name].spread.half)))
            except KitError:
                continue
    job.save()
    return job


JOBS: Mapping[str, Callable[[Path], Job]] = {
    "boat shed": boat_shed,
    "school shop": school_shop,
    "empty": empty,
    "one part": one_part,
    "moved": moved,
}
