"""A few characters that stand for all inputs of a case, so that a printed sheet can be matched with its job."""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING

from kit.core.version import __version__

if TYPE_CHECKING:
    from kit.core.model.case import Case, Entry


def digest(case: Case) -> str:
    """Return 12 hexadecimal digits that change with the model, the version of the kit, and every number given.

    Two cases that state the same quantities in other words ("1.2 m", "1200 mm"), or with other remarks on
    where they come from, have the same digest.
    """
    inputs = {
        "kit": __version__,
        "model": case.model.name,
        "picks": dict(case.picks),
        "beyond": sorted(case.beyond),
        "givens": {name: _input(entry) for name, entry in case.entries.items()},
    }
    return sha256(json.dumps(inputs, sort_keys=True).encode()).hexdigest()[:12]


def _input(entry: Entry) -> list[str]:
    # Ten digits: the last ones of a value worked out elsewhere may differ from machine to machine.
    spread = entry.spread
    numbers = [f"{number:.9e}" for number in (entry.base, spread.half, spread.k, spread.dof)]
    return [*numbers, spread.shape]
