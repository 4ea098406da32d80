"""What is asked about guiding a router along straightedges before it is shown."""

from kit.core.question import Bench, Option, Question, named, same

COUNTS = {2: "two", 3: "three", 4: "four"}


def passes(bench: Bench) -> Question:
    """Ask how many passes a groove takes."""
    count = round(bench.case.base["passes"])
    reasons = {
        2: "two passes reach twice the bit's width only without any overlap",
        3: "one pass fewer covers it, or one more is needed, with the overlap asked for",
        4: "with one pass fewer the overlap is already more than asked for",
    }
    return Question(
        f"the groove is {bench.show('width')} wide and the bit cuts {bench.show('bit')}. In how many passes, side "
        "by side?",
        tuple(Option(word, number == count, reasons[number]) for number, word in COUNTS.items()),
        f"Two passes reach twice a bit's width only without any overlap. With {bench.show('overlap_least')} of the bit "
        f"asked for, it takes {bench.show('passes')} passes, {bench.show('step')} from each to the next.",
    )


def turned(bench: Bench) -> Question:
    """Ask what turning an eccentric router does."""
    half = bench.case.with_(turned="180 deg")
    jog = abs(half.base["jog"])
    return Question(
        f"the bit lies {bench.show('eccentricity')} off the base's center, and the router is turned half round between "
        "the two straightedges. What happens to the groove?",
        (
            Option("it is shifted as a whole", False, "so it is when the router is not turned: both edges shift alike"),
            Option("its width changes", jog > 1e-9, "the bit would have to lie in the center of the base"),
            Option("nothing", jog <= 1e-9, "each edge is cut with the bit on another side of the base"),
        ),
        "One edge is cut with the bit on one side of the base, the other edge with it on the other: the width "
        "changes by "
        f"{bench.show('jog', half)}. Not turned, both edges are shifted alike, by {bench.show('shift')}.",
    )


def one_guide(bench: Bench) -> Question:
    """Ask what the bow of one moved straightedge does."""
    one = bench.case.with_(guides="one, moved for each pass")
    straight = one.with_(bow_near="0 mm", bow_far="0 mm")
    kept = same(one.base["width_most"] / straight.base["width_most"])
    return Question(
        "the same bowed straightedge is used for both edges, moved between the passes. Does its bow change the width?",
        (
            Option("yes, by the bow", not kept, "both edges copy the same bow, one beside the other"),
            Option("no, but the groove is bowed", kept, "the two edges would have to be bowed differently"),
        ),
        f"Both edges copy one bow: the width stays {bench.show('width_most', one)}, but the widest straight strip that "
        f"goes in has only {bench.show('clear', one)}. Between two guides the widest place is "
        f"{bench.show('width_most')}.",
    )


QUESTIONS = named(passes, turned, one_guide)
