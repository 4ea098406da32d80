"""A model: a statement that can be closed, computed at a point, computed over arrays, and taken into another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import sympy as sp

from kit.core.model.case import Case, work
from kit.core.model.compiled import Arrays, compute
from kit.core.model.include import include
from kit.core.model.inputs import Input
from kit.core.model.stated import Typed
from kit.core.model.statement import Statement
from kit.core.model.terms import ModelError
from kit.core.summary import some, summary

if TYPE_CHECKING:
    from kit.core.tables import Table

_PART_KEYS = ("model", "title", "note", "beyond", "givens", "built", "record", "shape")  # of a part in a job file


class Model(Statement):
    """A page's statement from its first quantity to `done()`, which checks and closes it; then it is computed."""

    def ask(self, *inputs: Input) -> None:
        """State what is asked of a person beyond givens: lists, options, files; see `kit.core.model.inputs`.

        Raises:
            ModelError: two have one name, or one has the name of a pick or of a key of a job's part.
        """
        self.require_open()
        for each in inputs:
            if each.name in (*self.inputs, *self.picks, *_PART_KEYS):
                raise ModelError(f"{self.name}: {each.name!r} cannot name an input; it is taken")
            self.inputs[each.name] = each

    def include(
        self, other: Statement, *, prefix: str, label: str, bind: Mapping[str, sp.Expr] | None = None
    ) -> dict[str, sp.Symbol]:
        """Take another model's relations into this one; its givens are bound or become givens here.

        `prefix` goes before names, `label` under printed symbols; either may be empty. Returns the included
        symbols by the names they had. Limits and cautions stay with the other model.

        Raises:
            DimensionError: a given is bound to an expression of another dimension.
        """
        return include(self, other, prefix, label, dict(bind or {}))

    def done(self) -> Model:
        """Check the statement as a whole and close it.

        Raises:
            ModelError: a value outside its span, a given that nothing uses, no result, or one without a value.
        """
        self.require_open()
        for given in self.givens.values():
            low, high = given.span
            if not low <= given.base <= high:
                raise ModelError(f"{self.name}: {given.name!r} starts outside its span, {given.span_text()}")
        used: set[sp.Basic] = set()
        for expr in self._all_expressions():
            used |= expr.free_symbols
        idle = [given.name for given in self.givens.values() if given.symbol not in used]
        if idle:
            raise ModelError(f"{self.name}: no relation uses {', '.join(idle)}")
        if not self.results:
            raise ModelError(f"{self.name}: no relation is stated as a result")
        self._closed = True
        return self

    def _all_expressions(self) -> Iterable[sp.Basic]:
        yield from (relation.expr for relation in self.relations.values())
        for limit in self.limits.values():
            yield from (limit.value, limit.allowed)
        yield from (caution.when for caution in self.cautions)

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

    def __repr__(self) -> str:
        return summary(
            f"Model {self.name}: {self.question}",
            givens=some(name for name, given in self.givens.items() if given.kind != "constant"),
            picks=some(self.picks),
            results=some(self.results),
            limits=some(self.limits),
        )

    def compute(self, values: Arrays, want: Sequence[str]) -> dict[str, Any]:
        """Return arrays of the quantities `want` for arrays of givens, all in base units, broadcast.

        Givens not named keep the model's own values. Points where the model has no value come back as NaN.
        """
        return compute(self, values, want)
