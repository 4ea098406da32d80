"""Measured parts one by one: their mean and scatter for the model, predicted against measured, and the next batch."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.verdict import Check, Shown, fact
from kit.drawing.scene import Layer, Scene, ratio
from kit.drawing.table_files import csv_output
from kit.subjects.accuracy.small_samples import Sample, all_within, sample

TITLE = "Measured parts"


def build(inputs: BuildInput) -> Build:
    """Return what the measured parts say; without any, nothing but how to enter them.

    Raises:
        KitError: a measured part that is no length, or a next batch without a part.
    """
    lengths = [part.base for part in inputs.stated["lengths"]]
    if not lengths:
        return Build(cautions=("Enter measured parts, one by one, as lengths.",))
    found, v, display = sample(lengths), inputs.base, inputs.display
    bias, half = found.mean - v["target"], _half(inputs, found)
    count = inputs.stated["next"] or len(lengths)
    chance = all_within(v["allowed"], v["estimate"], v["estimate_u"], found.deviation, count)
    measured = _table(lengths, v["target"], display)
    return Build(
        numbers=(
            Number("mean", "mean of the parts", found.mean, half=found.mean_half, resolution=0.001),
            Number("deviation", "standard deviation of the parts", found.deviation, resolution=0.001),
            Number("low", "least true deviation, 95 %", found.low, resolution=0.001),
            Number("high", "largest true deviation, 95 %", found.high, resolution=0.001),
            Number("bias", "measured error of the setting", bias, half=half, resolution=0.01),
            Number(
                "predicted",
                "predicted error of the setting",
                v["predicted"],
                half=2 * v["predicted_u"],
                resolution=0.01,
            ),
            Number(
                "chance",
                f"chance that {count} more parts at this setting are all within tolerance",
                chance,
                "%",
                resolution=0.001,
            ),
        ),
        checks=_limits(inputs, found, lengths),
        pictures=(
            Picture(
                "parts",
                "Measured and predicted",
                "each part as a dot, their mean with its bar, the predicted error with its own, between the lines of "
                "the tolerance",
                partial(_picture, inputs, found, tuple(lengths)),
            ),
        ),
        tables=(measured,),
        outputs=(csv_output("parts", "measured parts, for a spreadsheet", measured),),
        data=found,
    )


def propose(inputs: BuildInput) -> dict[str, str]:
    """Return the givens that the measured parts of the job say. Raises as `givens_of`."""
    return givens_of([part.base for part in inputs.stated["lengths"]], inputs.display)


def givens_of(parts: Sequence[float], display: Display) -> dict[str, str]:
    """Return the model's givens for measured `parts` (mm): mean, deviation, and Student's factors.

    Raises:
        KitError: fewer than two parts, or all alike.
    """
    found = sample(parts)
    if not found.deviation > 0:
        raise KitError(f"all {found.count} parts measure alike; measure them finer, or their scatter stays unknown")
    unit, size, places = ("in", 25.4, 5) if display.system == "in" else ("mm", 1.0, 3)
    return {
        "mean": f"{found.mean / size:.{places}f} {unit}",
        "deviation": f"{found.deviation / size:.{places}f} {unit}",
        "parts": str(found.count),
        "student": f"{found.mean_half / found.mean_u:.4f}",
        "least": f"{found.low / found.deviation:.4f}",
        "most": f"{found.high / found.deviation:.4f}",
    }


def _half(inputs: BuildInput, found: Sample) -> float:
    """Return the expanded uncertainty of the measured error, as the model states it for these parts."""
    v = inputs.base
    return (
        float(
            inputs.case.compute(
                {
                    "deviation": found.deviation,
                    "parts": found.count,
                    "student": found.mean_half / found.mean_u,
                },
                ("bias_expanded",),
            )["bias_expanded"]
        )
        if found.deviation
        else 2 * v["tool_u"]
    )


def _limits(inputs: BuildInput, found: Sample, lengths: Sequence[float]) -> tuple[Check, ...]:
    v = inputs.base

    def seen(*bases: float) -> tuple[Shown, ...]:
        return tuple(Shown(base, resolution=0.001) for base in bases)

    same = (
        abs(found.mean - v["mean"]) <= 0.05 * found.deviation + 1e-9
        and abs(found.deviation - v["deviation"]) <= 0.05 * found.deviation + 1e-9
        and found.count == round(v["parts"])
    )
    out = [number for number, length in enumerate(lengths, 1) if abs(length - v["target"]) > v["allowed"]]
    which = f"parts {', '.join(map(str, out))} of {len(lengths)} are" if len(out) > 1 else f"part {(out or [0])[0]} is"
    return (
        fact(
            "entered",
            same,
            f"the model has mean {{}} and deviation {{}} of {v['parts']:.0f} parts, the list {{}} and {{}} of "
            f"{found.count}",
            "press Propose, or type what the list says",
            *seen(v["mean"], v["deviation"], found.mean, found.deviation),
        ),
        fact(
            "within",
            not out,
            f"{which} outside the tolerance of ± {{}}" if out else f"all {len(lengths)} parts are within ± {{}}",
            "set the new length and cut again",
            *seen(v["allowed"]),
        ),
    )


def _table(lengths: Sequence[float], target: float, display: Display) -> Table:
    rows = (
        (
            str(number),
            show(each, "mm", display, resolution=0.001),
            show(each - target, "mm", display, resolution=0.001),
        )
        for number, each in enumerate(lengths, 1)
    )
    return Table(TITLE, ("Part", "Length", "Longer than set"), tuple(rows))


def _picture(inputs: BuildInput, found: Sample, lengths: Sequence[float], display: Display) -> Scene:
    """Return the errors of the parts along a line, magnified, below them mean and prediction with their bars."""
    v = inputs.base
    errors = [each - v["target"] for each in lengths]
    bias, half = found.mean - v["target"], _half(inputs, found)
    allowed, predicted, wide = v["allowed"], v["predicted"], 2 * v["predicted_u"]
    far = max(allowed, abs(bias) + half, abs(predicted) + wide, *map(abs, errors))
    larger = ratio(60.0 / far)

    def seen(base: float) -> str:
        return show(base, "mm", display, resolution=0.001)

    scene = Scene(
        "Measured and predicted",
        f"{found.count} parts: {seen(bias)} longer than set in the mean, give or take {seen(half)}; predicted "
        f"{seen(predicted)} give or take {seen(wide)}.",
    )
    row = 9.0
    for sign in (-1, 1):
        x = sign * larger * allowed
        scene.line((x, -3.4 * row), (x, 1.2 * row), Layer.HIDDEN)
    scene.line((0.0, -3.4 * row), (0.0, 1.2 * row), Layer.CENTER)
    for number, error in enumerate(errors):
        scene.circle((larger * error, 0.2 * row * (number % 3)), 1.1, fill="strong")
    left = -larger * far
    bars = (
        (-1.0, bias, half, "measured"),
        (-2.0, predicted, wide, "predicted"),
        (-3.0, v["estimate"], 2 * v["estimate_u"], "together"),
    )
    for level, at, reach, words in bars:
        y = level * row
        scene.line((larger * (at - reach), y), (larger * (at + reach), y))
        scene.circle((larger * at, y), 1.1, fill="strong")
        scene.text((left, y), words, "left", gap=3.0)
    scene.text((left, 0.2 * row), "parts", "left", gap=3.0)
    low = -3.4 * row
    scene.dim((0.0, low), (larger * allowed, low), -8, show(allowed, "mm", display), along="horizontal")
    scene.explain(Layer.HIDDEN, f"tolerance; errors drawn {larger:g} times")
    scene.explain(Layer.CENTER, "length that was set")
    return scene
