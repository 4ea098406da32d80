"""A session killed while it saves leaves the old or the new file, whole."""

import os
import random
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from kit.job import Job
from tests.job.conftest import JOB

KILLS = 30


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_a_file_is_whole_whenever_the_saving_session_is_killed(write: Callable[..., Path]) -> None:
    """Sessions write radius 101, 102, … in a loop; each is killed at a random moment after its first save."""
    path = write(JOB.replace("sides = 8", 'radius = "100 mm"'))
    rng = random.Random(1)
    job = Job.open(path)
    job.set("ring", "radius", "101 mm")  # the model is compiled before the forks
    before = 100
    for _ in range(KILLS):
        saved, tell = os.pipe()
        child = os.fork()
        if child == 0:
            save_for_ever(path, tell)
        os.close(tell)
        assert os.read(saved, 1), "the session saves"
        time.sleep(rng.uniform(0, 0.02))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        os.close(saved)
        content = path.read_text()
        number = int(content.partition('radius = "')[2].partition(" mm")[0])
        assert content == JOB.replace("sides = 8", f'radius = "{number} mm"')
        assert number > before
        before = number
    assert Job.open(path).case("ring").ok


def save_for_ever(path: Path, tell: int) -> None:
    """Save again and again, and tell after each time."""
    try:
        job = Job.open(path)
        number = int(job.parts["ring"].givens["radius"].text.split()[0])
        while True:
            number += 1
            job.set("ring", "radius", f"{number} mm")
            job.save()
            os.write(tell, b".")
    finally:
        os._exit(1)
