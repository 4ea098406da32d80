"""The swept envelope of the demo's saw at its default cells: stated slack, time of this process and most memory."""

import resource
from pathlib import Path
from time import process_time

import pytest

from kit.geometry.envelope.envelope import unswung
from kit.job import Job
from kit.job.build import build
from tests import DATA

pytestmark = pytest.mark.bench

SLACK, SECONDS, MEMORY = 15.0, 2.0, 500.0  # mm, s and MB aimed at


def test_the_demos_room() -> None:
    made = build(Job.open(Path(DATA) / "boatshed.toml"), "saw_sweep")
    assert made is not None
    sweep = made.data
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    first = sweep.chain.joints[0]
    begin = process_time()
    ready = unswung(sweep.moves, sweep.envelope.size)
    middle = process_time()
    room = ready.swung(first.low, first.high)
    end = process_time()
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    took = middle - begin
    print(f"\ncells of {room.size:g} mm: {room.slack:.1f} mm stated ({room.slack / SLACK:.2f} of the target)")
    print(f"all joints but the swing {took:.2f} s ({took / SECONDS:.2f}), the swing {1e3 * (end - middle):.0f} ms")
    print(f"the whole process at most {most:.0f} MB ({most / MEMORY:.2f}), {before:.0f} MB of it before")
    assert room.slack <= SLACK
