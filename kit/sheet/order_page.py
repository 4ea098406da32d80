"""The order of work of a job, with a bar for each task, and the settings of its machines as cards of A6."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from html import escape

from kit.core.quantity import Display, show
from kit.drawing.network_svg import Box, network_svg
from kit.job import Job
from kit.job.tasks import Task
from kit.sheet.words import sentence
from kit.station.cards import Card
from kit.station.order import DAY, Order, Step

Titles = Callable[[str], str]
"""A part's title as HTML, linked where its sheet lies beside."""

NO_TASKS = "this job states no tasks: add them on its page, or write them under [[work.tasks]] in its file"
_HEADS = ("No.", "Task", "After", "Work", "Dries", "When", "Days", "With", "Look before you go on")


def order_html(order: Order, title: Titles) -> str:
    """Return the order of work as HTML: a line a task, with boxes to tick."""
    if not order.steps:
        return faults_html(order) or f"<p>{sentence(NO_TASKS)}</p>"
    whole = max(order.ready, 1.0)
    rows = "".join(_row(number, step, whole, order, title) for number, step in enumerate(order.steps, 1))
    heads = "".join(f'<th scope="col">{head}</th>' for head in _HEADS)
    return (
        f"{faults_html(order)}<section><h2>Order of work</h2><p>{escape(finish(order))}</p>"
        '<div class="fw-scroll" role="group" aria-label="Order of work" tabindex="0"><table class="fw-table fw-order">'
        "<caption>A bar is work, a thin line what dries or rests; ◆ marks a task without whose speed nothing is ready "
        f"sooner</caption><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div></section>"
        f"<section><h2>What comes after what</h2>{network_html(order)}</section>"
    )


def faults_html(order: Order) -> str:
    """Return what of the tasks cannot be followed, as HTML; nothing where all can."""
    items = "".join(f"<li>{escape(sentence(each))}</li>" for each in order.faults)
    return f"<section><h2>Tasks to mend</h2><ul>{items}</ul></section>" if items else ""


def network_html(order: Order, ids: str = "network") -> str:
    """Return the tasks as a network: each in a box below those that it waits for, the longest way drawn heavy."""
    numbers = _numbers(order)
    boxes = [_boxed(step, numbers, order) for step in order.steps]
    way = ", ".join(str(numbers[name]) for name in order.critical)
    words = f"Boxes of tasks, each below those that it waits for. The longest way goes through the tasks {way}."
    drawn = network_svg(boxes, order.critical, title="Network of tasks", words=words, ids=ids)
    caption = (
        "Each task stands below those that it waits for, with its number in the table; what follows from other lines "
        "is left out. Heavy lines and ◆ mark the longest way: without its speed nothing is ready sooner."
    )
    return f'<figure class="fw-networks">{drawn}<figcaption>{caption}</figcaption></figure>'


def _numbers(order: Order) -> dict[str, int]:
    return {step.task.name: number for number, step in enumerate(order.steps, 1)}


def _boxed(step: Step, numbers: Mapping[str, int], order: Order) -> Box:
    task = step.task
    mark = "◆ " if task.name in order.critical else ""
    dry = f"dries {_hours(task.dry)}" if task.dry else ""
    helped = f"{task.helpers} to help" if task.helpers else ""
    note = ", ".join(filter(None, (_takes(task), dry, helped, when(step))))
    return Box(task.name, f"{mark}{numbers[task.name]} {task.name}", note, order.waits[task.name])


def finish(order: Order) -> str:
    """Return in a sentence how much work it is and when all is ready."""
    days = sorted({_day(order.shortest), _day(order.longest)})
    when = f"on day {days[0]}" if len(days) == 1 else f"between day {days[0]} and day {days[-1]}"
    return f"{_hours(order.work)} of work for one; all is ready {when}, with all tasks at their shortest or longest."


def _day(time: float) -> int:
    return int(max(0.0, time - 1e-6) // DAY) + 1


def _hours(time: float) -> str:
    return show(time, "h", resolution=360.0)


def _takes(task: Task) -> str:
    return _hours(task.takes) + (f" ± {_hours(task.half)}" if task.half else "")


def when(step: Step) -> str:
    """Return the days on which a task is worked."""
    first, last = _day(step.begin + 1.0), _day(step.end)
    return f"day {first}" if last <= first else f"days {first} to {last}"


def _row(number: int, step: Step, whole: float, order: Order, title: Titles) -> str:
    task = step.task
    mark = " ◆" if task.name in order.critical else ""
    part = f"<br>{title(task.part)}" if task.part else ""
    numbers = _numbers(order)
    after = ", ".join(str(numbers[name]) for name in task.after) or "–"
    people = f"{task.helpers} to help" if task.helpers else ""
    check = f"☐ {sentence(task.check)}" if task.check else ""
    left, wide, rest = (100 * each / whole for each in (step.begin, step.end - step.begin, step.ready - step.end))
    bar = (
        f'<span class="fw-bar" style="margin-left:{left:.1f}%;width:{max(wide, 1.0):.1f}%"></span>'
        f'<span class="fw-rest" style="width:{rest:.1f}%"></span>'
    )
    cells = (
        f"☐ {number}",
        f"{escape(task.name)}{mark}{part}",
        after,
        _takes(task),
        _hours(task.dry) if task.dry else "–",
        when(step),
        f'<div class="fw-bars" aria-hidden="true">{bar}</div>',
        escape("; ".join(filter(None, (task.tools, people)))) or "–",
        escape(check),
    )
    return f"<tr>{''.join(f'<td>{cell}</td>' for cell in cells)}</tr>"


def cards_html(made: Sequence[Card], job: Job) -> str:
    """Return a card of A6 for each setting, numbered in the order in which the machine is set."""
    return "".join(_cards(made, job))


def _cards(made: Sequence[Card], job: Job) -> Iterator[str]:
    before: dict[str, str] = {}
    machine = ""
    for number, card in enumerate(made, 1):
        values = {name: _value(base, unit, job.display) for name, base, unit in card.values}
        known = before if card.machine == machine else {}
        rows = "".join(_value_row(name, text, new=known.get(name) != text) for name, text in values.items())
        parts: dict[str, list[str]] = {}
        for part, cut in card.cuts:
            parts.setdefault(part, []).append(f"<li>☐ {escape(cut)}</li>")
        cuts = "".join(
            f"<p>{escape(job.parts[part].title or part)}</p><ul>{''.join(items)}</ul>" for part, items in parts.items()
        )
        yield (
            f'<section class="fw-card"><h2>{number} of {len(made)}: {escape(card.machine)}</h2>'
            f'<table class="fw-table"><caption>→ is set anew</caption><tbody>{rows}</tbody></table>{cuts}'
            "<p>Unplug the machine while you set it. A test cut in scrap comes first.</p></section>"
        )
        before, machine = values, card.machine


def _value_row(name: str, text: str, *, new: bool) -> str:
    return f'<tr><th scope="row">{escape(name)}</th><td>{"→ " if new else ""}{escape(text)}</td></tr>'


def _value(base: float, unit: str, display: Display) -> str:
    return show(base, unit, display, resolution=0.0005 if unit == "deg" else 0.05)
