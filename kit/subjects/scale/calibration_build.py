"""A scale calibrated by any number of test cuts: the best line, which reading to trust where, and slips found."""

from __future__ import annotations

from math import ceil

import numpy as np

from kit.core.build import Build, BuildInput, Number, Picture, Table
from kit.core.errors import KitError
from kit.core.quantity import Display, show
from kit.core.verdict import Check, Shown, compare, fact
from kit.drawing.table_files import csv_output
from kit.subjects.scale.calibration_plot import calibration_scene
from kit.subjects.scale.line_fit import Array, Calibration, calibrate

TITLE = "Which reading to trust where"
STEPS = {"mm": 100.0, "in": 4 * 25.4}
RARE = 0.05  # a scatter as rare as this is no chance
MOST = 200  # rows
FAR = 3.0  # standard uncertainties; a cut farther off the line is a slip


def build(inputs: BuildInput) -> Build:
    """Return the line through all test cuts, with its tables and picture.

    Raises:
        KitError: test cuts that cannot be read, or too few of them for a line.
    """
    v, display = inputs.base, inputs.display
    readings, parts, u = _cuts(inputs)
    line, k, allowed = calibrate(readings, parts, u, rule=v["rule_u"]), v["coverage"], v["allowed"]
    table = _trust(line, inputs, float(readings.max()))
    return Build(
        numbers=(
            Number("cuts", "test cuts", readings.size, "", resolution=1),
            Number("zero", "zero error", line.zero, half=k * line.zero_u, resolution=0.01),
            Number("scale", "scale error", line.scale - 1, "mm/m", half=k * line.scale_u, resolution=1e-5),
            Number("middle", "reading where the line is surest", line.middle, resolution=1),
            Number("set_to", "reading to set for the wanted length", float(line.reading(v["target"])), resolution=0.01),
            Number("expanded", "sure to, there", k * float(line.u(line.reading(v["target"]))), resolution=0.01),
        ),
        checks=_limits(line, readings, u, k, allowed, display),
        pictures=(
            Picture(
                "line",
                "Test cuts and the best line",
                "each cut with its bar, the line through all, and the band within which the scale is known",
                lambda shown: calibration_scene(line, readings, parts, u, k, allowed, shown),
            ),
        ),
        tables=(table, _table_of_cuts(line, readings, parts, u, k, display)),
        outputs=(csv_output("trust", "which reading to trust where, for a spreadsheet", table),),
        data=line,
    )


def _cuts(inputs: BuildInput) -> tuple[Array, Array, Array]:
    """Return readings, parts and standard uncertainties of the model's two cuts and of those in the shape, mm."""
    v = inputs.base
    found = [(v["reading_1"], v["part_1"], v["cut_u"]), (v["reading_2"], v["part_2"], v["cut_u"])]
    for row in inputs.stated["cuts"]:
        found.append((row["reading"].base, row["part"].base, row["u"].base if row["u"] else v["cut_u"]))
    readings, parts, u = np.array(found, dtype=float).T
    return readings, parts, u


def _limits(
    line: Calibration, readings: Array, u: Array, k: float, allowed: float, display: Display
) -> tuple[Check, ...]:
    checks = []
    within = line.trusted(allowed * (1 + 1e-12), _coverage(k))
    checks.append(
        fact(
            "trusted",
            within is not None,
            "in the middle of the cuts the scale is known to {} of {} required",
            "make more test cuts, or measure them better",
            Shown(k * float(line.u(line.middle)), resolution=0.01),
            Shown(allowed, resolution=0.01),
        )
    )
    if readings.size > 2:
        checks.append(
            compare(
                "scatter",
                "cuts as sure as these would by chance alone scatter more with a likelihood of",
                line.chance,
                RARE,
                unit="%",
                sense=">=",
                resolution=0.01,
                mend="look for a slip, a bent scale, or state the cuts' uncertainty honestly",
            )
        )
        ratios = np.abs(line.residuals) / u
        worst = int(ratios.argmax())
        checks.append(
            compare(
                "slip",
                f"cut {worst + 1} lies farthest off the line, in its standard uncertainties by",
                float(ratios[worst]),
                FAR,
                unit="",
                resolution=0.1,
                mend="measure that part again, or cut it again",
            )
        )
    return tuple(checks)


def _coverage(k: float) -> float:
    """Return the coverage of a normal distribution within `k` standard deviations."""
    from math import erf, sqrt

    return erf(k / sqrt(2))


def _trust(line: Calibration, inputs: BuildInput, farthest: float) -> Table:
    """Return, length by length, the reading to set, how sure it is, and whether that is enough."""
    k, allowed, display = inputs.base["coverage"], inputs.base["allowed"], inputs.display
    step = inputs.stated["step"].base if inputs.stated["step"] else STEPS[display.system]
    least = 1.3 * farthest / MOST
    if not step >= least:
        raise KitError(
            f"the step is {show(step, 'mm', display)}; it must be at least {show(least, 'mm', display)}, for a "
            f"table of {MOST} rows"
        )
    count = ceil(1.3 * farthest / step - 1e-9)
    rows = []
    for number in range(1, count + 1):
        part = number * step
        reading = float(line.reading(part))
        sure = k * float(line.u(reading))
        rows.append(
            (
                show(part, "mm", display),
                show(reading, "mm", display, resolution=0.01),
                f"± {show(sure, 'mm', display, resolution=0.01)}",
                "yes" if sure <= allowed else "no: cut one there first",
            )
        )
    return Table(TITLE, ("For a part of", "Set", "Sure to", "Trusted"), tuple(rows))


def _table_of_cuts(line: Calibration, readings: Array, parts: Array, u: Array, k: float, display: Display) -> Table:
    rows = (
        (
            str(number),
            show(float(reading), "mm", display),
            show(float(part), "mm", display, resolution=0.01),
            f"± {show(k * float(own), 'mm', display, resolution=0.01)}",
            show(float(left), "mm", display, resolution=0.01),
        )
        for number, (reading, part, own, left) in enumerate(zip(readings, parts, u, line.residuals, strict=True), 1)
    )
    return Table("Test cuts", ("Cut", "Read", "Part", "Known to", "Off the line"), tuple(rows))
