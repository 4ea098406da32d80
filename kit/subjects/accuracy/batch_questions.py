"""What is asked about test cuts before it is shown."""

from math import sqrt

from kit.core.question import Bench, Option, Question, named, near
from kit.subjects.accuracy.batch_build import givens_of

FOUR = (420.31, 420.28, 420.35, 420.30)  # mm, invented


def two_parts(bench: Bench) -> Question:
    """Ask how sure two parts are of an error."""
    pair = bench.case.with_(cuts="2 parts")
    times = pair.base["bias_expanded"] / bench.case.base["bias_expanded"]
    parts = bench.case.base["parts"] / pair.base["parts"]
    return Question(
        "only two parts were cut, with the same spread between them. How sure is the setting's error then?",
        (
            Option("less sure by the root of the parts", near(times, sqrt(parts)), "so it is if the scatter is known"),
            Option("less sure by the number of parts", near(times, parts), "a mean gains by the root of its parts"),
            Option("far less sure than that", times > 1.1 * parts, "two parts would have to know their own scatter"),
        ),
        f"Two parts hardly know their own scatter: Student's factor is {bench.show('student', pair)} instead of "
        f"{bench.show('student')}, and the error is known to {bench.show('bias_expanded', pair)} instead of "
        f"{bench.show('bias_expanded')}.",
    )


def four_own(bench: Bench) -> Question:
    """Ask whether four parts prove that a setting is off."""
    measured = bench.case.changed({"target": "420 mm", **givens_of(FOUR, bench.display)})
    off = abs(measured.base["bias"]) > measured.base["bias_expanded"]
    return Question(
        "these four agree better with each other than the job's, but are further off. Does the setting need a "
        "correction?",
        (
            Option("no, four parts prove little", not off, "they agree so well that the factor for four is covered"),
            Option("yes, surely", off, "their mean is not known well enough"),
            Option("only chance can tell", False, "the factor for four parts says how far chance reaches"),
        ),
        f"They are {bench.show('bias', measured)} long, known to {bench.show('bias_expanded', measured)}: Student's "
        "factor "
        f"for four parts is already in it. Set {bench.show('set_to', measured)}.",
    )


QUESTIONS = named(two_parts, four_own)
