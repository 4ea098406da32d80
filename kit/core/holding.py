"""A limit of a shape as one sentence, worded as the limits of the models are."""

from __future__ import annotations

from typing import Literal

from kit.core.build import Held
from kit.core.quantity import Display, show

HAIR = 1e-9  # relative; just met is met, whatever rounding made of it


def held(
    name: str,
    subject: str,
    value: float,
    allowed: float,
    display: Display,
    *,
    unit: str = "mm",
    sense: Literal["<=", ">="] = "<=",
    resolution: float | None = None,
    mend: str,
) -> Held:
    """Return the sentence "`subject` 3 mm of 5 mm allowed; margin 2 mm", or by how much the limit is missed.

    `value`, `allowed` and `resolution` in base units, told in `unit`; with the sense ">=", `allowed` is what is needed.
    """

    def text(base: float) -> str:
        return show(base, unit, display, resolution=resolution)

    at_most = sense == "<="
    margin = allowed - value if at_most else value - allowed
    ok = margin >= -HAIR * max(abs(value), abs(allowed))
    if ok:
        ending = f" of {text(allowed)} allowed" if at_most else f", at least {text(allowed)} needed"
        words = f"{subject} {text(value)}{ending}; margin {text(margin)}"
    else:
        bound = "more than the" if at_most else "less than the"
        words = f"{subject} {text(value)}, {text(-margin)} {bound} {text(allowed)} {'allowed' if at_most else 'needed'}"
    return Held(name, words, ok, mend)
