"""All of the abuse, drawn from a seed, with counts of what came of it.

    python -m tests.abuse [--seed 1] [--share 1.0] [KIND …]

`--share` takes a part of the draws. It ends with 1 if anything happened that must not, and prints how to repeat it.
"""

import argparse
import random
import sys
import tempfile
import time
import traceback
import warnings
from collections import Counter
from collections.abc import Callable
from functools import partial
from pathlib import Path

from tests.abuse import broken, trials

Trial = Callable[[random.Random, Path], str]

KINDS: dict[str, tuple[int, Trial]] = {
    "broken jobs": (10_000, partial(trials.broken_job, build=False)),
    "broken jobs, built": (500, partial(trials.broken_job, build=True)),
    "broken meshes": (1_000, trials.broken_mesh),
    "broken tables": (1_000, trials.broken_table),
    "books killed": (30, trials.killed_book),
    "two processes save": (10, trials.two_savers),
    "full disks": (10, trials.full_disk),
    "changed by hand": (200, trials.changed_outside),
    "links that lead out": (20, trials.leading_out),
}
"""How often each is tried, and what is tried."""


def tried(kind: str, seed: int, number: int) -> str:
    """Try one kind once; return what came of it, or the exception that must not be."""
    rng = random.Random(f"{kind} {seed} {number}")
    with tempfile.TemporaryDirectory() as name, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        folder = broken.copied(Path(name))
        try:
            return KINDS[kind][1](rng, folder)
        except Exception:
            return "WRONG\n" + traceback.format_exc(limit=-4)


def run(seed: int, share: float, kinds: list[str]) -> int:
    """Try all `kinds` and print counts; return how many went wrong."""
    wrong = 0
    for kind in kinds:
        count, start = max(1, round(KINDS[kind][0] * share)), time.perf_counter()
        found: Counter[str] = Counter()
        for number in range(count):
            outcome = tried(kind, seed, number)
            found[outcome.partition("\n")[0]] += 1
            if outcome.startswith("WRONG"):
                wrong += 1
                print(f"{kind}, seed {seed}, number {number}:\n{outcome}", flush=True)
        counts = ", ".join(f"{times} {outcome}" for outcome, times in found.most_common())
        print(f"{kind}: {count} tried in {time.perf_counter() - start:.0f} s: {counts}", flush=True)
    return wrong


def command(arguments: list[str]) -> int:
    """Run what the command line asks for."""
    parser = argparse.ArgumentParser(prog="python -m tests.abuse", description=__doc__.splitlines()[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--share", type=float, default=1.0)
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=", ".join(KINDS))
    options = parser.parse_args(arguments)
    return int(run(options.seed, options.share, options.kinds or list(KINDS)) > 0)


if __name__ == "__main__":
    raise SystemExit(command(sys.argv[1:]))
