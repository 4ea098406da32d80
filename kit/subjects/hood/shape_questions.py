"""What is asked about a hood before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def nearest_board(bench: Bench) -> Question:
    """Ask which board the machine comes nearest to."""
    tightest = bench.build().rows("Clearance of each board").rows[0][0]
    sides = {
        "front": ("the front, where the handle comes out", "the handle passes below the brow"),
        "back": ("the back", "behind the post there is room left"),
        "top": ("the top", "the head rises there, but another board is nearer"),
        "left": ("the left, where the motor swings", "the motor swings low, and the board leans out there"),
    }
    return Question(
        "the saw swings 50° to each side and its head rises 40°. Which board does it come nearest to?",
        tuple(Option(text, side in tightest, why) for side, (text, why) in sides.items()),
        f"Here it is the {tightest}. The handle passes below the brow, so the front is less in the way than it looks.",
    )


def leaning_face(bench: Bench) -> Question:
    """Ask which face may lean most over the swept room."""
    free = bench.propose()
    back, front = (float(free[name].split()[0]) for name in ("slope_back", "slope_front"))
    return Question(
        "the head rises high in the middle, the motor and the post sweep wide below. Which face then leans most?",
        (
            Option("the back, behind post and hose port", back < front, "what sweeps there reaches out high up"),
            Option("the front, before the handle", front < back, "the handle reaches out at every height"),
            Option("both alike", front == back, "what sweeps before the axis has another outline than what is behind"),
        ),
        f"Proposed are {free['slope_back']} for the back and {free['slope_front']} for the front: what sweeps wide low "
        "down and little high up lets its board lean; the handle reaches out at every height.",
    )


def certified(bench: Bench) -> Question:
    """Ask how a bound over every position compares with samples."""
    proof = bench.best()
    sure, seen = (proof.check(name).base for name in ("certified", "clearance"))
    assert sure is not None
    assert seen is not None
    return Question(
        "the certified clearance is compared with the sampled one. It is",
        (
            Option("larger", sure > seen, "a bound over every position cannot beat some of these positions"),
            Option("a little smaller", sure < seen, "the bound would have to meet the sample exactly"),
            Option("the same to the last digit", sure == seen, "between the samples the machine may come nearer"),
        ),
        "The bound may lie a little below the truth, and the truth below what the sampled positions show. It is "
        "never larger.",
    )


def upright_corner(bench: Bench) -> Question:
    """Ask what tilt the corner of two upright boards needs."""
    upright = bench.case.with_(slope_front="90 deg", slope_right="90 deg")
    tilt, now = upright["tilt_front_right"].value, bench.case["tilt_front_right"].value
    return Question(
        "front and right board stand upright instead of leaning. What tilt does their corner need?",
        (
            Option(
                "less than now", tilt < now * SAME[0], "leaning boards meet at a blunter angle, which takes less tilt"
            ),
            Option("exactly 45°", abs(tilt - 45) < 1e-6, "upright boards would have to meet at another angle than 90°"),
            Option("more than 45°", tilt > 45.001, "it would take boards that meet at less than a right angle"),
        ),
        f"{bench.show('tilt_front_right')} becomes {bench.show('tilt_front_right', upright)}: two upright boards meet "
        "at a right angle.",
    )


def straight_brow(bench: Bench) -> Question:
    """Ask how large the opening under a straight brow is."""
    straight = bench.case.with_(brow="straight", brow_height="513 mm")
    ratio = straight.base["opening"] / bench.case.base["opening"]
    return Question(
        "a straight brow two thirds of the rise higher, instead of the arch. Is the opening larger?",
        (
            Option("clearly larger", ratio > 1.05, "the arch's corners are lost, but its middle is higher"),
            Option("about the same", 0.95 <= ratio <= 1.05, "the two heights do not balance here"),
            Option("clearly smaller", ratio < 0.95, "the middle of the arch is lost, but corners are won"),
        ),
        "A flat arch has two thirds of the rectangle round it: "
        f"{bench.show('opening')} and {bench.show('opening', straight)}.",
    )


def both_ends(bench: Bench) -> Question:
    """Ask whether one board has one tilt."""
    ratio = bench.case.base["tilt_front_right"] / bench.case.base["tilt_right_rear"]
    return Question(
        "the right board meets front and rear corner. Is the blade set to the same tilt for both ends?",
        (
            Option("yes, it is one board", same(ratio), "the tilt belongs to the corner, not to the board"),
            Option("no, the corners are different", not same(ratio), "both corners happen to be alike here"),
        ),
        f"At the front {bench.show('tilt_front_right')}, at the rear corner {bench.show('tilt_right_rear')}. The tilt "
        "belongs to the corner, and both boards of a corner share it.",
    )


QUESTIONS = named(nearest_board, leaning_face, certified, upright_corner, straight_brow, both_ends)
