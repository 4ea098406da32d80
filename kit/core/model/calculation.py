"""What cases work with: the words and numbers of a model, its formulas as tapes, its derivation as TeX.

A `Statement` is one that a page states, in sympy; a `StoredModel` was stated before and is read from a file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Any

from kit.core.errors import near_misses
from kit.core.model.case import Case, work
from kit.core.model.compiled import Arrays, compute
from kit.core.model.inputs import Input
from kit.core.model.stated import Typed
from kit.core.model.terms import Caution, Given, Limit, Mistake, ModelError, Pick, Relation, Wish, called, in_words
from kit.core.summary import some, summary

if TYPE_CHECKING:
    import sympy as sp

    from kit.core.model.steps import Step
    from kit.core.model.tape import Tape
    from kit.core.tables import Table


class Calculation:
    """Quantities, relations, limits and cautions of one question."""

    name: str
    title: str
    question: str
    picture: str
    assumptions: tuple[str, ...]
    sources: tuple[str, ...]
    givens: dict[str, Given]
    picks: dict[str, Pick]
    relations: dict[str, Relation]
    limits: dict[str, Limit]
    cautions: list[Caution]
    wishes: dict[str, Wish]
    inputs: dict[str, Input]
    mistakes: list[Mistake]

    @property
    def point(self) -> Tape:
        """All relations, in order, from all givens, in order; base units."""
        raise NotImplementedError

    @property
    def verdicts(self) -> Tape:
        """Each limit's value and allowed value, then each caution's condition, from all symbols' values."""
        raise NotImplementedError

    @property
    def mistaken(self) -> Tape:
        """All results, in order, after one mistake after the other, from all givens, in order; base units."""
        raise NotImplementedError

    @property
    def steps(self) -> tuple[Step, ...]:
        """All relations, in order, typeset."""
        raise NotImplementedError

    def require_done(self) -> None:
        """Refuse to compute with what is not closed; see `Statement`."""

    def at(
        self,
        *,
        beyond: Iterable[str] = (),
        tables: Mapping[str, Table] | None = None,
        **givens: Typed,
    ) -> Case:
        """Work the model at one point; givens not named keep the model's own values.

        A text is read in the given's unit ('1200 mm', '47 1/4 in', '600 ± 0.2 mm'); a number is in the given's
        unit; a pick takes a row's name. `beyond` names the givens that may leave their span knowingly.

        Raises:
            KitError: an unknown name, an unreadable text, a value outside its span, or no value at this point.

        >>> from kit import model
        >>> case = model("scale.cursor").at(eye_height="500 mm", eye_offset="50 mm", gap="1 mm")
        >>> case.show("parallax")
        '0.10 mm'
        """
        return work(self, givens, beyond=frozenset(beyond), tables=tables)

    def compute(self, values: Arrays, want: Sequence[str]) -> dict[str, Any]:
        """Return arrays of the quantities `want` for arrays of givens, all in base units, broadcast.

        Givens not named keep the model's own values. Points where the model has no value come back as NaN.
        """
        return compute(self, values, want)

    def __repr__(self) -> str:
        return summary(
            f"Model {self.name}: {self.question}",
            givens=some(name for name, given in self.givens.items() if given.kind != "constant"),
            picks=some(self.picks),
            results=some(self.results),
            limits=some(self.limits),
        )

    @property
    def results(self) -> dict[str, Relation]:
        """The relations that are answers, by name."""
        return {name: relation for name, relation in self.relations.items() if relation.result}

    @cached_property
    def free(self) -> dict[str, Given]:
        """The givens that a person sets, by name: all but the constants. Raises ModelError where it is not closed."""
        self.require_done()
        return {name: given for name, given in self.givens.items() if given.kind != "constant"}

    def part(self, name: str) -> Given | Relation:
        """Return the given or relation of that name.

        Raises:
            ModelError: there is none; the nearest names are listed.
        """
        part: Given | Relation = self.look_up(name, self.parts, "quantity")
        return part

    def called(self, name: str) -> str:
        """Return what a quantity or a pick is called in few words, as beside its control; else its name in words."""
        part = self.givens.get(name) or self.relations.get(name) or self.picks.get(name)
        return called(part).partition(";")[0] if part else in_words(name)

    def needed(self, want: Iterable[str]) -> list[Relation]:
        """Return, in order, the relations that the quantities named in `want` rest on, themselves included."""
        open_ = set(want)
        chain: list[Relation] = []
        for relation in reversed(self.relations.values()):
            if relation.name in open_:
                chain.append(relation)
                open_.update(relation.rests_on)
        return chain[::-1]

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The names of all givens and relations, in the order of the page."""
        return (*self.givens, *self.relations)

    @property
    def parts(self) -> dict[str, Given | Relation]:
        """All givens and relations by name, in the order of the page."""
        return {**self.givens, **self.relations}

    @property
    def symbol_tex(self) -> dict[sp.Symbol, str]:
        """The printed form of every symbol."""
        return {part.symbol: part.tex for part in self.parts.values()}

    def look_up(self, name: str, known: Mapping[str, Any], what: str) -> Any:
        """Return `known[name]`, which is a `what` of this model.

        Raises:
            ModelError: there is none; the nearest names are listed.
        """
        if name not in known:
            hint = near_misses(name, list(known))
            raise ModelError(f"{self.name} has no {what} {name!r}{hint}")
        return known[name]
