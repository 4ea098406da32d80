"""Both demos' sheets, checked as a checker would: each printed line is worked anew from the digits printed in it."""

import math
import re
from collections.abc import Iterator

import pytest

from kit.job import Job
from kit.sheet.write import part_origin, sheet
from tests import ROOT
from tests.sheet.calculator import Calculator, half_a_digit, number, pressed
from tests.sheet.reading import Node, read

SLACK = 1 + 1e-6  # of half a digit: a tie may be rounded either way
DIVISOR = {"rectangular": math.sqrt(3), "triangular": math.sqrt(6)}
Fault = str


@pytest.fixture(scope="module", params=[pytest.param("boatshed", marks=pytest.mark.long), "schoolshop"])
def pages(request: pytest.FixtureRequest) -> dict[str, Node]:
    """The sheets of a demo job by part."""
    job = Job.open(ROOT / "data" / f"{request.param}.toml")
    return {
        id: read(sheet(job.case(id), display=job.display, origin=part_origin(job, id), draws=0)) for id in job.parts
    }


def off(worked: float, printed: str, more: float = 0.0) -> bool:
    return abs(worked - number(printed)) > half_a_digit(printed) * SLACK + more


def second_digit(size: float) -> float:
    """What one unit of a number's second digit is worth."""
    return float(10.0 ** (math.floor(math.log10(size)) - 1))


def bears_degrees(text: str) -> bool:
    return "°" in text.replace("°C", "").replace("°F", "")


def worked_lines(step: Node) -> Iterator[tuple[str, bool]]:
    """Yield each line of numbers of a step in words, and whether what is printed does not follow from it."""
    result = step.one(css="fw-comes-out").one(css="fw-right").text
    exact, _, answered = result.partition("≈")
    values = [text.strip() for text in exact.split("=") if text.strip()]
    for turned in step.all(css="fw-turned"):
        _, keys, text = (each.strip() for each in turned.text.split("="))
        yield turned.text, off(pressed(keys), text)
    for line in step.all(css="fw-numbers"):
        degrees = bears_degrees(line.text) or bears_degrees(values[0])
        yield f"{line.text} {result}", off(Calculator(line, degrees=degrees).value(), values[0])
    if len(values) > 1:
        yield result, off(pressed(values[0]), values[1])
    if answered:
        yield result, not follows(answered.strip(), values[-1])


def follows(answer: str, carried: str) -> bool:
    """An answer is the number carried, rounded: to its last digit, which may be a ten, or to an inch fraction."""
    value = number(carried)
    if "/" in answer.split(" in")[0]:
        return abs(number(answer) - value) <= max(1 / 64, 0.005) * SLACK or "(" not in answer
    digits = re.split("[ ×°]", answer)[0]
    zeros = 0 if "." in digits else len(digits) - len(digits.rstrip("0"))
    return abs(number(answer) - value) <= half_a_digit(answer) * 10**zeros * SLACK + half_a_digit(carried)


def test_every_line_of_every_derivation_follows_from_its_printed_digits(pages: dict[str, Node]) -> None:
    steps = [(id, step) for id, page in pages.items() for step in page.all("li", css="fw-step")]
    lines = [(id, *line) for id, step in steps for line in worked_lines(step)]
    assert len(lines) > 500
    assert [line[:2] for line in lines if line[2]] == []


def key(text: str) -> str:
    return f"{number(text):.12g}"


def stated(cell: str) -> list[str]:
    """The numbers that a cell of the givens states: "80.0 ± 0.25°", "5 29/32 in (in formulas 5.9055 in)"."""
    value, _, in_formulas = cell.partition(" (in formulas ")
    plain = re.sub(r" ± [^ ]+( \d+/\d+)?", "", value)
    return [text for text in (plain, in_formulas) if re.match(r"[−-]?\d", text)]


def test_every_number_put_in_stands_above_it(pages: dict[str, Node]) -> None:
    """In the table of givens, or where it came out, or as it was converted in this step."""
    missing = []
    for id, page in pages.items():
        above = {key(text) for cell in page.one("table", css="fw-givens").all("td") for text in stated(cell.text)}
        for step in page.all("li", css="fw-step"):
            here = above | {key(each.text.split("=")[-1].strip()) for each in step.all(css="fw-turned")}
            put_in = [text.text for line in step.all(css="fw-numbers") for text in line.all("mtext")]
            missing += [
                (id, step.text[:40], text)
                for text in put_in
                if re.match(r"\(?−?\d", text) and text != "180°" and key(text) not in here
            ]
            result = step.one(css="fw-comes-out").one(css="fw-right").text
            above |= {key(each.strip()) for each in re.split("[=≈]", result) if each.strip()}
    assert missing == []


def test_every_budget_adds_up(pages: dict[str, Node]) -> None:
    """Standard uncertainty from the half-width, contribution from sensitivity, and the root of the sum of squares."""
    faults, rows = [], 0
    for id, page in pages.items():
        for table in page.all("table", css="fw-budget"):
            contributions = []
            for row in table.one("tbody").all("tr"):
                cells = [cell.text for cell in row.all("td")]
                contributions.append(number(cells[-2]))
                if len(cells) < 5:
                    continue
                shape, _, half = cells[2].partition(" ± ")
                k = re.search(r"k = ([\d.]+)", cells[2])
                each = number(half) / (float(k[1]) if k else DIVISOR[shape])
                rows += 1
                if off(each, cells[3]) or off(abs(number(cells[4])) * number(cells[3]), cells[5]):
                    faults.append((id, row.text))
            foot = table.one("tfoot")
            u, words = foot.all("td")[0].text, foot.one("th").text
            k = re.search(r"k = ([\d.]+)", words)
            expanded = words.rpartition("± ")[2]
            assert k
            doubled = abs(float(k[1]) * number(u) - number(expanded)) - float(k[1]) * half_a_digit(u)
            if off(math.hypot(*contributions), u) or doubled > second_digit(number(expanded)) / 2 * SLACK:
                faults.append((id, foot.text))
    assert rows > 100
    assert faults == []


def test_no_answer_has_more_digits_than_its_uncertainty(pages: dict[str, Node]) -> None:
    """2716.3 mm² ± 318 mm² is not."""
    faults = []
    for id, page in pages.items():
        for row in page.one("table", css="fw-results").one("tbody").all("tr"):
            value, spread = (cell.text for cell in row.all("td", css="fw-number"))
            if spread.startswith("±") and "/" not in value.split(" in")[0]:
                last = second_digit(number(spread.removeprefix("± ")))
                if "." in value and 2 * half_a_digit(value) < last * (1 - 1e-9):
                    faults.append((id, row.text))
    assert faults == []
