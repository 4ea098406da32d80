"""The swept envelope of the demo's saw at its default cells: stated slack, time and most memory of a fresh process."""

import json
import re
import resource
import subprocess
import sys
from pathlib import Path
from time import process_time

import pytest

from kit.geometry.envelope.envelope import unswung
from kit.job import Job
from kit.job.build import build
from tests import DATA, ROOT

pytestmark = pytest.mark.bench

SLACK, SECONDS, MEMORY = 15.0, 2.0, 500.0  # mm, s and MB aimed at


def most() -> float:
    """Return the most memory in MB that this process had so far.

    Linux tells it of this program alone; `ru_maxrss` has what the process was before it became this program too.
    """
    status = Path("/proc/self/status")
    if status.exists():
        return int(re.search(r"VmHWM:\s+(\d+)", status.read_text())[1]) / 1024.0
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0


def measure() -> None:
    """Print what the envelope takes, and the job's whole part with its scan and pictures, as JSON."""
    begin = process_time()
    made = build(Job.open(Path(DATA) / "boatshed.toml"), "saw_sweep")
    assert made is not None
    found = {"part": process_time() - begin, "memory of the part": most()}
    sweep = made.data
    first = sweep.chain.joints[0]
    begin = process_time()
    ready = unswung(sweep.moves, sweep.envelope.size)
    middle = process_time()
    room = ready.swung(first.low, first.high)
    found |= {"joints": middle - begin, "swing": process_time() - middle, "memory": most()}
    print(json.dumps(found | {"size": room.size, "slack": room.slack}))


def test_the_demos_room() -> None:
    line = [sys.executable, "-c", "from tests.bench.test_envelope import measure; measure()"]
    found = json.loads(subprocess.run(line, cwd=ROOT, capture_output=True, text=True, check=True).stdout)
    print(
        f"\ncells of {found['size']:g} mm: {found['slack']:.1f} mm stated ({found['slack'] / SLACK:.2f} of the target)"
    )
    print(f"all joints but the swing {found['joints']:.2f} s ({found['joints'] / SECONDS:.2f}), "
          f"the swing {1e3 * found['swing']:.0f} ms")  # fmt: skip
    print(f"the whole part from its file {found['part']:.2f} s and {found['memory of the part']:.0f} MB at most "
          f"({found['memory of the part'] / MEMORY:.2f}); the envelope once more, beside it, "
          f"{found['memory']:.0f} MB")  # fmt: skip
    assert found["slack"] <= SLACK
