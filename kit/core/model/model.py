"""A model as a page states it: a statement that can take another into it, and that is closed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import sympy as sp

from kit.core.model.dimension import DimensionError, words
from kit.core.model.include import include
from kit.core.model.inputs import Input
from kit.core.model.statement import Statement
from kit.core.model.terms import Mistake, ModelError

# The keys of a part in a job file.
_PART_KEYS = ("model", "title", "note", "beyond", "wishes", "givens", "pins", "built", "record", "shape")


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

    def mistake(self, expr: sp.Expr, text: str) -> None:
        """State a typical wrong turn at the relation just stated: what is taken for its value, and what was done.

        `text` follows "It looks as if ": "width and height were swapped".

        Raises:
            ModelError: no relation was just stated, or the formula is the right one.
            DimensionError: it does not have the dimension of the relation's unit; both are named.
        """
        relation = self.relations.get(self._last)
        if relation is None:
            raise ModelError(f"{self.name}: mistake() follows the relation at which it is made")
        expr = sp.sympify(expr, strict=True)
        where = f"a mistake at {relation.name!r} of {self.name}"
        found = self.dimension_of(expr, where)
        if found is not None and found != relation.unit.dim:
            raise DimensionError(f"{where}: {expr} is {words(found)}, the relation {words(relation.unit.dim)}")
        if text in (mistake.text for mistake in self.mistakes):
            raise ModelError(f"{where}: {text!r} is stated twice")
        if expr == relation.expr:
            raise ModelError(f"{where}: {expr} is the right formula")
        self.mistakes.append(Mistake(text, relation.name, lambda: expr))

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
