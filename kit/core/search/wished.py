"""What is wished of a design: as its model states it, as a job adds it, or any quantity as a person asks for it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from kit.core.errors import KitError, near_misses
from kit.core.model import Wish

if TYPE_CHECKING:
    from kit.core.model import Calculation


def wish_of(model: Calculation, text: str | Wish) -> Wish:
    """Return a wish of a model from its words: one that it states, or "least" or "most" with a given or a result.

    Raises:
        KitError: it does not begin so, or names no quantity of the model.

    >>> from kit import model
    >>> wish_of(model("scale.cursor"), "least parallax")
    <wish: least shift of the reading, away from the eye (least parallax)>
    """
    if isinstance(text, Wish):
        return text
    if text in model.wishes:
        return model.wishes[text]
    sense, _, rest = text.strip().partition(" ")
    name = rest.strip().replace(" ", "_")
    known = {**model.results, **{each: given for each, given in model.free.items() if given.kind != "choice"}}
    if sense not in ("least", "most"):
        stated = ", ".join(model.wishes) or f"least {next(iter(model.results))}"
        raise KitError(f"the wish {text!r} does not begin with least or most; write it such as {stated}")
    if name not in known:
        raise KitError(f"{model.name} has no {name!r} to wish for{near_misses(name, list(known))}")
    return Wish(f"{sense} {model.called(name)}", name, sense == "least")


def wishes(model: Calculation, more: Iterable[str] = ()) -> list[Wish]:
    """Return what can be wished of a model: what it states, `more` of a job, then least and most of every result.

    Raises:
        KitError: a wish of the job that names nothing of the model.
    """
    found = [*model.wishes.values(), *(wish_of(model, text) for text in more)]
    every = (wish_of(model, f"{sense} {name}") for name in model.results for sense in ("least", "most"))
    stated = {(wish.of, wish.least) for wish in found}
    return [*found, *(wish for wish in every if (wish.of, wish.least) not in stated)]
