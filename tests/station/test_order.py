"""The order of work: worked by hand, and its longest way against another library."""

import random
from collections.abc import Callable
from itertools import permutations

import networkx as nx
import pytest

from kit.cli import main
from kit.core.lists import Setting
from kit.job import Job
from kit.job.check import check
from kit.job.tasks import Task, Work, work_of
from kit.sheet.order_page import finish
from kit.sheet.station_pages import CARDS, LISTS, ORDER, station_pages
from kit.station.cards import cards, changes
from kit.station.order import DAY, work_order, worked_until

Write = Callable[..., Job]
H = 3600.0
PART = '[parts.shelf]\nmodel = "support.shelf"\n'
TASKS = """
[work]
day = "3 h"
[[work.tasks]]
name = "saw"
takes = "2 ± 1 h"
part = "shelf"
[[work.tasks]]
name = "glue"
takes = "0.5 h"
after = ["saw"]
dry = "12 h"
[[work.tasks]]
name = "oil <twice>"
takes = "1 h"
after = ["glue"]
check = "no rag lies in a heap"
[[work.tasks]]
name = "sew"
takes = "2 h"
"""


def task(name: str, takes: float, *after: str, dry: float = 0.0) -> Task:
    return Task(name, "", after, takes * H, 0.0, dry * H, 0, "", "")


def test_a_day_ends_and_work_goes_on_the_next_morning() -> None:
    # by hand: 3 h a day; 4 h of work begun at hour 2 take 1 h, then 3 h on the next day
    assert worked_until(2 * H, 4 * H, 3 * H) == pytest.approx(DAY + 3 * H)
    assert worked_until(3 * H, 1 * H, 3 * H) == pytest.approx(DAY + 1 * H)
    assert worked_until(5.0, 0.0, 3 * H) == 5.0


def test_what_dries_goes_on_overnight_while_other_work_is_done(stated: Write) -> None:
    order = work_order(work_of(stated(PART + TASKS).path))
    # by hand, 3 h a day. Day 1: saw 2 h, glue 0.5 h, sew 0.5 h. The glue is dry overnight. Day 2: sew 1.5 h, oil 1 h,
    # in either order.
    assert [step.task.name for step in order.steps][:2] == ["saw", "glue"]
    assert order.ready == pytest.approx(DAY + 2.5 * H)
    assert order.work == pytest.approx(5.5 * H)
    # the saw at its shortest, 1 h. Day 1: saw 1 h, glue 0.5 h, sew 1.5 h. Day 2: sew 0.5 h, oil 1 h
    assert order.shortest == pytest.approx(DAY + 1.5 * H)
    # at its longest, 3 h. Day 1: saw. Day 2: glue 0.5 h, sew 2 h; dry too late for the oil. Day 3: oil 1 h
    assert order.longest == pytest.approx(2 * DAY + 1 * H)
    assert order.critical == ("saw", "glue", "oil <twice>")
    assert finish(order) == (
        "5.5 h of work for one; all is ready between day 2 and day 3, with all tasks at their shortest or longest."
    )


def test_no_order_beats_the_longest_way_nor_breaks_what_comes_before() -> None:
    """networkx.dag_longest_path_length, over tasks drawn at random; work goes on day and night."""
    draw = random.Random(7)
    for _ in range(30):
        names = [f"t{k}" for k in range(9)]
        tasks = tuple(
            task(name, draw.uniform(0.1, 3), *(o for o in names[:k] if draw.random() < 0.3), dry=draw.choice((0, 0, 9)))
            for k, name in enumerate(names)
        )
        order = work_order(Work(DAY, tasks))
        graph = nx.DiGraph()
        for each in tasks:
            graph.add_edge(f"{each.name} in", each.name, weight=each.takes + each.dry)
            graph.add_edges_from(((other, f"{each.name} in") for other in each.after), weight=0.0)
        assert order.ready >= nx.dag_longest_path_length(graph) - 1e-6
        ready = {step.task.name: step.ready for step in order.steps}
        ends = [step.end for step in order.steps]
        assert all(step.begin >= ready[other] - 1e-6 for step in order.steps for other in step.task.after)
        assert all(step.begin >= end - 1e-6 for step, end in zip(order.steps[1:], ends, strict=False))
        assert len(ready) == len(tasks)


@pytest.mark.parametrize(
    ("tasks", "words"),
    [
        ('[[work.tasks]]\nname = "a"\ntakes = "1 h"\nafter = ["b"]\n', "there is no task 'b'"),
        ('[[work.tasks]]\nname = "a"\ntakes = "1 h"\npart = "shelv"\n', "did you mean 'shelf'"),
        ('[[work.tasks]]\nname = "a"\ntakes = "1 mm"\n', "takes"),
        ('[[work.tasks]]\ntakes = "1 h"\n', "name"),
        (
            '[[work.tasks]]\nname = "a"\ntakes = "1 h"\nafter = ["b"]\n'
            '[[work.tasks]]\nname = "b"\ntakes = "1 h"\nafter = ["a"]\n',
            "wait for each other in a circle",
        ),
    ],
)
def test_a_fault_of_the_tasks_is_told_at_its_line_and_the_book_goes_on(stated: Write, tasks: str, words: str) -> None:
    job = stated(PART + tasks)
    (found,) = [each for each in check(job.path) if each.severity == "fault"]
    assert words in str(found)
    assert found.line > 5
    pages = station_pages(job)
    assert LISTS in pages
    assert words.replace("'", "&#x27;") in pages[ORDER][1]


def test_what_can_be_followed_of_faulty_tasks_is_still_an_order(
    stated: Write, capsys: pytest.CaptureFixture[str]
) -> None:
    faulty = TASKS + (
        '[[work.tasks]]\nname = "hang"\nafter = ["oil <twice>", "sow"]\npart = "shelv"\n'
        '[[work.tasks]]\nname = "look"\ntakes = "1 h"\nafter = ["hang", "talk"]\n'
        '[[work.tasks]]\nname = "talk"\ntakes = "1 h"\nafter = ["look"]\n'
        '[[work.tasks]]\nname = "saw"\ntakes = "9 h"\n'
        '[[work.tasks]]\nname = "rest"\ntakes = "1 h"\ndry = "1 kg"\nhelpers = 1\n'
        '[[work.tasks]]\ntakes = "1 h"\n'
    )
    job = stated(PART + faulty)
    work = work_of(job.path)
    told = "\n".join(work.faults)
    said = ("takes is not stated", "'shelv'", "'sow'", "in a circle", "are called 'saw'", "dry", "name is not stated")
    assert all(told.count(each) == 1 for each in said)
    assert len(work.faults) == len(said)
    tasks = {each.name: each for each in work.tasks}
    assert list(tasks) == ["saw", "glue", "oil <twice>", "sew", "hang", "look", "talk", "rest"]
    assert (tasks["hang"].takes, tasks["hang"].part, tasks["hang"].after) == (0.0, "", ("oil <twice>",))
    assert {tasks["look"].after, tasks["talk"].after} in ({("hang",), ("look",)}, {("hang", "talk"), ()})
    assert (tasks["rest"].takes, tasks["rest"].helpers, tasks["rest"].dry) == (1 * H, 1, 0.0)
    html = station_pages(job)[ORDER][1]
    assert "Tasks to mend" in html
    assert html.count("<rect") == 8
    assert main(["order", str(job.path)]) == 2
    captured = capsys.readouterr()
    assert "'shelv'" in captured.err
    assert "hang" in captured.out


def test_the_network_leaves_out_what_follows_from_other_lines() -> None:
    order = work_order(Work(DAY, (task("a", 1), task("b", 1, "a"), task("c", 1, "a", "b"))))
    assert order.waits == {"a": (), "b": ("a",), "c": ("b",)}
    assert order.steps[2].task.after == ("a", "b")


def test_the_page_and_the_command_tell_each_task(stated: Write, capsys: pytest.CaptureFixture[str]) -> None:
    job = stated(PART + TASKS)
    html = station_pages(job)[ORDER][1]
    assert "oil &lt;twice&gt; ◆" in html
    assert "☐ No rag lies in a heap." in html
    assert main(["order", str(job.path)]) == 0
    out = capsys.readouterr().out
    assert "all is ready between day 2 and day 3" in out
    assert "no rag lies in a heap" in out
    assert main(["order", str(stated(PART, "b").path)]) == 0
    assert "states no tasks" in capsys.readouterr().out


def setting(tilt: float, miter: float, *cuts: str) -> tuple[str, Setting]:
    return "shelf", Setting("saw", (("tilt", tilt, "deg"), ("miter", miter, "deg")), cuts)


def test_settings_alike_share_a_card_and_few_values_change_from_card_to_card() -> None:
    made = cards([setting(0.1, 0.2, "a"), setting(0.3, 0.4, "b"), setting(0.1, 0.2001, "c"), setting(0.1, 0.4, "d")])
    assert len(made) == 3
    assert sorted(cut for card in made for _, cut in card.cuts) == ["a", "b", "c", "d"]
    assert changes(made) == 2
    draw = random.Random(3)
    for _ in range(20):
        wanted = [setting(draw.choice((0.1, 0.2, 0.3)), draw.choice((0.4, 0.5, 0.6)), str(k)) for k in range(6)]
        made = cards(wanted)
        assert changes(made) <= min(changes(list(each)) for each in permutations(made)) + 1


def test_each_setting_of_a_hood_is_a_card_with_its_angle_as_it_is(stated: Write) -> None:
    job = stated('[parts.hood]\nmodel = "hood.shape"\n[parts.hood.givens]\nslope_front = "80 deg"\n')
    html = station_pages(job)[CARDS][1]
    assert "10.00°" in html  # a board at 80° sits flat when ripped at 90° − 80°
    assert html.count('class="fw-card"') >= 5
