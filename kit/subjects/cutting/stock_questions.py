"""What is asked about a layout before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def quick_rule(bench: Bench) -> Question:
    """Ask how much of the cloth a quick layout uses."""
    share = bench.build().number("found_yield").base
    return Question(
        "an order of curved cloth parts is laid out by a quick rule: large parts first, each as near to the "
        "beginning as "
        "it fits. How much of the cloth becomes parts?",
        (
            Option("less than half", share < 0.5, "parts fill the gaps of others better than that"),
            Option("about three quarters", 0.65 <= share <= 0.85, "the parts of this order fit otherwise"),
            Option("more than nine tenths", share > 0.9, "curved edges seldom fit each other"),
        ),
        f"Here it is {share:.0%}. Curved edges seldom fit each other, and small parts fill only some of the gaps.",
    )


def search(bench: Bench) -> Question:
    """Ask what a search gains over the quick rule."""
    before, after = (made.number("length") for made in (bench.build(), bench.best()))
    gain = 1 - after.base / before.base
    return Question(
        "the same parts, the same roll, a search of a few seconds. By how much does the length shrink?",
        (
            Option("not at all", gain < 0.005, "the quick rule leaves gaps that a search fills"),
            Option("by some hundredths", 0.005 <= gain <= 0.15, "the parts leave other gaps than one would think"),
            Option("by half", gain > 0.4, "more than half of the cloth are parts, and parts cannot overlap"),
        ),
        f"From {before.show(bench.display)} to {after.show(bench.display)}, by {gain:.1%}. The bound is "
        f"{bench.show('bound')}: no search can go below.",
    )


def wider_kerf(bench: Bench) -> Question:
    """Ask what a kerf costs."""
    sawn = bench.case.with_(kerf="3 mm")
    longer = sawn.base["roll_length"] / bench.case.base["roll_length"] - 1
    each = 3 * bench.case.base["parts"] / bench.case.base["roll_length"]
    return Question(
        "the shears are replaced by a cutter with a kerf of 3 mm. By how much does the roll grow?",
        (
            Option("by 2 percent or so", 0.01 <= longer <= 0.04, "the outlines of this order are longer or shorter"),
            Option(
                "by 3 mm for every part", abs(longer - each) < 0.005, "a kerf runs along an outline, not once a part"
            ),
            Option("by a fifth", longer > 0.15, "half a kerf along all outlines is a narrow strip"),
        ),
        f"Half a kerf along {bench.show('outline')} of outline is {bench.show('kerf_loss', sawn)}: the roll grows by "
        f"{longer:.1%}.",
    )


def narrower_roll(bench: Bench) -> Question:
    """Ask what the margins of a narrow roll cost."""
    narrow = bench.case.with_(width="1000 mm")
    ratio = narrow.base["stock_area"] / bench.case.base["stock_area"]
    return Question(
        "the same cloth comes 1 m wide, with the same margin. Does the order take more area of it, at the same "
        "density?",
        (
            Option("more", ratio > 1, "the margins would have to be no larger share than before"),
            Option("the same", ratio == 1, "two margins are lost, however wide the roll is"),
            Option("less", ratio < 1, "a longer piece of a narrower roll has more margin, not less"),
        ),
        f"The margins are a larger share of a narrow roll: {bench.show('stock_area')} become "
        f"{bench.show('stock_area', narrow)}. Besides, large parts fit worse into a narrow roll: the density falls "
        "too.",
    )


def purse(bench: Bench) -> Question:
    """Ask whether a packed layout stays within a price."""
    found = bench.case.find("density", "cost", 32)
    packed = bench.best().number("found_density").base
    enough = packed >= found.values[0]
    return Question(
        "you have 32 in the purse. Is the density of the packed layout enough?",
        (
            Option("yes", enough, "the layout is not dense enough for that price"),
            Option("no", not enough, "the layout is denser than that price asks for"),
        ),
        f"At least {found.values[0]:.1%} is needed; the packed layout has {packed:.1%}.",
    )


def nap(bench: Bench) -> Question:
    """Ask what a nap costs that forbids parts to be turned."""
    turned = [{**row, "turns": "two way"} for row in bench.stated["parts"]]
    lengths = [made.number("length") for made in (bench.best(), bench.best(parts=turned))]
    ratio = lengths[0].base / lengths[1].base
    return Question(
        "six brackets with one slanted side. What does a nap, which forbids turning, cost?",
        (
            Option("nothing", same(ratio), "turned end for end, two slanted sides lie against each other"),
            Option("some of the length", SAME[1] < ratio < 1.8, "the gaps beside the slants are larger or smaller"),
            Option("twice the length", ratio >= 1.8, "the gap beside a slant is less than the bracket itself"),
        ),
        f"One way they take {lengths[0].show(bench.display)}, two ways {lengths[1].show(bench.display)}. Turned end "
        "for "
        "end, two brackets close to a block.",
    )


QUESTIONS = named(quick_rule, search, wider_kerf, narrower_roll, purse, nap)
