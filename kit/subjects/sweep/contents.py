"""Where a machine moves: how far a point of it reaches, and what poses between poses may hide."""

from kit.core.subject import Chapter, Subject


def point() -> Subject:
    """The page sweep.point."""
    from kit.subjects.sweep import point_figure, point_questions

    return Subject(point_figure.draw, questions=point_questions.QUESTIONS)


def step() -> Subject:
    """The page sweep.step."""
    from kit.subjects.sweep import step_build, step_figure, step_intake, step_lists, step_questions

    return Subject(
        step_figure.draw,
        build=step_build.build,
        tasks=step_build.TASKS,
        propose=step_build.propose,
        intake=step_intake.INTAKE,
        questions=step_questions.QUESTIONS,
        lists=step_lists.lists,
        at_machine=True,
    )


CHAPTER = Chapter(
    "sweep",
    "Where the machine moves",
    begin=("point", "step"),
    makes={"step": ("swept envelope",)},
    point=point,
    step=step,
)
