"""A question is one whose answer is worked out: exactly one option holds, and each other says why not."""

import pytest

from kit.core.errors import KitError
from kit.core.question import Option, Question


def asked(*holding: bool, why_not: str = "it is shorter") -> Question:
    return Question("which?", tuple(Option(f"rod {n}", holds, why_not) for n, holds in enumerate(holding)), "measured")


@pytest.mark.parametrize("holding", [(False, False), (True, True), (True,), ()])
def test_no_question_has_none_or_two_answers_or_no_choice(holding: tuple[bool, ...]) -> None:
    with pytest.raises(KitError, match="of which one holds"):
        asked(*holding)


def test_options_are_told_apart_and_say_why_not() -> None:
    with pytest.raises(KitError, match="differ"):
        Question("which?", (Option("a", True), Option("a", False, "no")), "")
    with pytest.raises(KitError, match=r"'rod 0'.*says not why"):
        asked(False, True, why_not="")


def test_a_seed_decides_the_order_and_nothing_else() -> None:
    question = asked(False, False, True, False)
    orders = {question.shuffled(str(seed)).options for seed in range(40)}
    assert len(orders) > 10
    assert {frozenset(order) for order in orders} == {frozenset(question.options)}
    assert question.shuffled("4") == question.shuffled("4")
    assert question.shuffled("4").answer == "rod 2"
