"""Where a machine moves: how far a point of it reaches, and what poses between poses may hide."""

from kit.core.subject import Chapter, Subject


def point() -> Subject:
    """The page sweep.point."""
    from kit.subjects.sweep import point, point_figure

    return Subject(point.MODEL, point_figure.draw)


def step() -> Subject:
    """The page sweep.step."""
    from kit.subjects.sweep import step, step_build, step_figure, step_intake

    return Subject(
        step.MODEL,
        step_figure.draw,
        build=step_build.build,
        tasks=step_build.TASKS,
        propose=step_build.propose,
        intake=step_intake.INTAKE,
    )


CHAPTER = Chapter(
    "sweep",
    "Where the machine moves",
    begin=("point", "step"),
    makes={"step": ("swept envelope",)},
    point=point,
    step=step,
)
