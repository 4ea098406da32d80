"""What the plies of a knob bring to the lists: the nut in their well, its stud and their washers."""

from __future__ import annotations

from kit.core.build import BuildInput
from kit.core.lists import Built, Lists, Need
from kit.core.quantity import show


def lists(inputs: BuildInput, _built: Built) -> Lists:
    """Return stud, nut and washers; the plies are as large as the knob's outline says, on whose list they stand."""
    v, thread = inputs.base, inputs.case.picks["thread"]
    needs = [Need(f"stud {thread}, length over the face", 1, "", (v["stud"],)), Need(f"nut {thread}", 1)]
    for given, where in (("washer", "in the knob's well"), ("face_washer", "under the knob")):
        if v[given] > 0:
            thick = show(v[given], "mm", inputs.display, resolution=0.1)
            needs.append(Need(f"washer {thread} {where}, or several, {thick} thick", 1))
    return Lists(needs=tuple(needs))
