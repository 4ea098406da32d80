"""What is asked about a gap measured with cards before it is shown."""

from kit.core.question import Bench, Option, Question, largest, named, near, same


def least_sure(bench: Bench) -> Question:
    """Ask which contribution makes the depth least sure."""
    parts = {
        "u_card": ("the card that did not go in", "one thickness of a card is more than all else leaves open"),
        "u_calipers": ("the step of the calipers", "calipers read far finer than a card is thick"),
        "u_feel": ("the feel of the hand", "a few hundredths, less than a card"),
        "u_type_a": ("the scatter of five readings", "the mean of five is surer than each of them"),
    }
    most = largest(bench, *parts)
    told = ", ".join(f"{bench.case.model.relations[name].meaning} {bench.show(name)}" for name in parts)
    return Question(
        "twelve cards go in, a thirteenth does not. What makes the depth least sure?",
        tuple(Option(text, name == most, why) for name, (text, why) in parts.items()),
        f"Here: {told}.",
    )


def thin_cards(bench: Bench) -> Question:
    """Ask what thinner cards bring."""
    thin = bench.case.with_(cards=2 * round(bench.case.base["cards"]))
    left = thin.base["u_card"] / bench.case.base["u_card"]
    return Question(
        "the same gap is filled with 24 thin cards instead of 12. What becomes of the cards' part of the uncertainty?",
        (
            Option("it stays", same(left), "what is unknown lies between two cards, and these are thinner now"),
            Option("it is halved", near(left, 1 / 2), "it does not go with the thickness of one card here"),
            Option("it is quartered", near(left, 1 / 4), "it goes with the thickness of one card, not with its square"),
        ),
        f"It goes with the thickness of one card: {bench.show('u_card')} becomes {bench.show('u_card', thin)}; the "
        "whole, "
        f"{bench.show('expanded')}, becomes {bench.show('expanded', thin)}, because the rest stays.",
    )


def lower_edge(bench: Bench) -> Question:
    """Ask how a straightedge's height stiffens it."""
    low = bench.case.with_(edge_height=bench.case["edge_height"].value / 2)
    times = low.base["sag_hand"] / bench.case.base["sag_hand"]
    return Question(
        "a straightedge half as high lies over the bed. How many times more does it give way under the hand?",
        (
            Option("twice", near(times, 2), "height counts more than in proportion: each fiber's arm shrinks, too"),
            Option("four times", near(times, 4), "so it is by its own weight, because it is also half as heavy"),
            Option("eight times", near(times, 8), "stiffness would have to go with the cube of the height"),
        ),
        f"Stiffness goes with the cube of the height: {bench.show('sag_hand')} becomes "
        f"{bench.show('sag_hand', low)}. By "
        "its weight it sags four times more only, because it is also half as heavy.",
    )


def more_readings(bench: Bench) -> Question:
    """Ask what more readings bring beside a part that they do not touch."""
    case = bench.case
    more = case.with_(readings=4 * round(case.base["readings"]))
    better = case.base["expanded"] / more.base["expanded"]
    return Question(
        f"the class takes {more.base['readings']:.0f} readings instead of {case.base['readings']:.0f}. How much "
        "surer is "
        "the depth?",
        (
            Option(
                "twice as sure", near(better, 2), "only the scatter is halved, and that is a small part of the whole"
            ),
            Option(
                "four times as sure", near(better, 4), "a mean gains by the root of the readings, and the rest stays"
            ),
            Option("hardly surer", better < 1.25, "the scatter would have to be most of the uncertainty"),
        ),
        f"The scatter is halved, but one card makes {bench.show('card_share')} of the variance: "
        f"{bench.show('expanded')} "
        f"becomes {bench.show('expanded', more)}.",
    )


QUESTIONS = named(least_sure, thin_cards, lower_edge, more_readings)
