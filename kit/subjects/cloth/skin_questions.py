"""What is asked about a skin before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, near, same

FLAT = 0.01  # degrees of twist that no eye sees


def without_stretching(bench: Bench) -> Question:
    """Ask whether cloth spans two arcs in different planes."""
    flat = bench.best().check("flat_1").ok
    return Question(
        "the front runs from the sill, an arc, up to the rail, another arc in another plane. Can it be made of cloth "
        "without stretching?",
        (
            Option("no, it is bent in two directions", not flat, "only the crown is: the front has straight lines"),
            Option("yes, if its straight lines are chosen well", flat, "no choice of lines lets it lie flat here"),
            Option("only if both arcs are equal", False, "straight lines also join arcs of unlike radius"),
        ),
        "Between two curves there is a surface of straight rulings along each of which one plane touches both. "
        "Cloth lies "
        "on it without force. The crown has no such rulings: it is bent both ways.",
    )


def doubled_rulings(bench: Bench) -> Question:
    """Ask what doubling the rulings does to the folds."""
    proved = bench.best().check("flat_1")
    return Question(
        "the rulings between sill and rail are doubled, and doubled again. What does the largest fold between them do?",
        (
            Option("it stays", not proved.ok, "so it is on a crumpled surface, however fine it is made"),
            Option("it halves each time", proved.ok, "the turn is not shared out: the surface is twisted"),
        ),
        f"Here {proved.words(bench.display)}. Had equal shares of sill and rail been joined, every length would be "
        "kept "
        "just as well, and the folds would stay: the notebook on the drop chute shows both.",
    )


def stiffer_cloth(bench: Bench) -> Question:
    """Ask what helps a cloth that takes less strain."""
    limits = {"warp_limit": "0.35 %", "weft_limit": "0.35 %"}
    first = bench.build(**limits).rows("Darts and seams").rows[0]
    told = " ".join(first)
    return Question(
        "a stiffer cloth takes only 0.35 % in both directions. What is the least that helps?",
        (
            Option(
                "nothing, it will wrinkle", "dart" not in told and "seam" not in told, "a cut takes the surplus out"
            ),
            Option("a dart", "dart" in told, "a dart takes out too little here"),
            Option("a seam through the middle of the crown", "seam" in told, "it helps, but less does already"),
        ),
        "A dome has too much cloth at its edges. A dart takes it out there and is sewn first; the kit proposes one "
        "after "
        "the other until both threads are within their limits.",
    )


def finer_stitches(bench: Bench) -> Question:
    """Ask how much thread finer stitches take."""
    fine = bench.case.with_(stitch="1.5 mm")
    times = fine.base["thread_rate"] / bench.case.base["thread_rate"]
    return Question(
        "you stitch twice as fine, 1.5 mm instead of 3 mm. Does the seam take twice the thread?",
        (
            Option("yes", near(times, 2), "the thread along the cloth stays as long as the seam"),
            Option("no, only a little more", SAME[1] < times < 1.8, "the way in and out of the cloth is most of it"),
            Option("no, less", times < SAME[0], "there are more ways in and out, so it cannot be less"),
        ),
        f"The length along the cloth stays; only the way in and out doubles: {bench.show('thread_rate')} becomes "
        f"{bench.show('thread_rate', fine)}. And fine stitches perforate coated cloth like a stamp.",
    )


def one_piece(bench: Bench) -> Question:
    """Ask whether flat walls need seams between them."""
    flat = same(1 + bench.build().number("twist").base) and bench.build().number("warp").base < FLAT
    return Question(
        "five flat walls are cut flat. Could they be cut in one piece, without a seam?",
        (
            Option("yes, folded at the posts", flat, "the walls are not flat, so a fold would not close"),
            Option("no, the posts lean", not flat, "a leaning post is still one straight line that both walls share"),
        ),
        "Neighboring walls share a straight post, so they lie side by side flat, as the paper model does. Seams "
        "are there "
        "for the width of the roll, for the grain, and because a long piece is hard to turn under a machine.",
    )


QUESTIONS = named(without_stretching, doubled_rulings, stiffer_cloth, finer_stitches, one_piece)
