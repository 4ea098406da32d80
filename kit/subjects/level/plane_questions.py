"""What is asked about the plane of a bed before it is shown."""

from kit.core.question import SAME, Bench, Option, Question, named, same


def where_surest(bench: Bench) -> Question:
    """Ask where the depth is known best."""
    case = bench.case
    inside = case.with_(foot_x="350 mm", foot_y="200 mm")
    out = case.with_(foot_x="350 mm", foot_y="1000 mm")
    one = case.base["u_1"]
    middle, far = inside.base["u"] < one, out.base["u"] < one
    return Question(
        "each gap is known equally well. Can the depth be known better at a foot than at the places measured?",
        (
            Option("never", not middle and not far, "in the middle three errors average out"),
            Option("in the middle of the three places", middle and not far, "nothing averages out there"),
            Option("anywhere on the bed", middle and far, "beyond the places the errors of the slopes grow"),
        ),
        f"In the middle three errors average to {bench.show('u', inside)}, less than the {bench.show('u_1')} of one "
        "gap. "
        f"Half a meter beyond the places they grow to {bench.show('u', out)}.",
    )


def seven_gaps(bench: Bench) -> Question:
    """Ask what more gaps than three bring."""
    seven = bench.build()
    ratio = seven.number("u").base / bench.case.base["u"]
    return Question(
        "seven gaps instead of three, each as sure as before. What becomes of the depth at the foot?",
        (
            Option(
                "surer, and the bed's flatness is tested, too",
                ratio < SAME[0],
                "the further gaps lie far from the foot",
            ),
            Option("as sure as before", same(ratio), "a fit through more gaps averages more errors"),
            Option("less sure: more errors come in", ratio > SAME[1], "errors of a fit average, they do not add up"),
        ),
        f"Its standard uncertainty falls from {bench.show('u')} to {seven.number('u').show(bench.display)}. And "
        "four gaps "
        "are left over: they lie so near the plane that chance alone would put them farther off in "
        f"{seven.number('chance').show(bench.display)} of cases.",
    )


QUESTIONS = named(where_surest, seven_gaps)
