"""Parts in a row, in diamonds and in circles, however many."""

from pathlib import Path

import pytest

from kit.job import Job
from kit.job.check import check, check_all
from kit.job.errors import JobError
from kit.job.order import upstream_first

MANY = 1100  # a call for each link would end at the interpreter's limit of 1,000 calls


def chain(count: int, last: str = "600 mm") -> str:
    """Return a job whose shelves each take their span from the next; the last one states it."""
    parts = ['format = 2\n[job]\nname = "a row"\n']
    for number in range(count):
        span = f'{{ from = "s{number + 1}.span" }}' if number < count - 1 else last
        parts.append(f'[parts.s{number}]\nmodel = "support.shelf"\n[parts.s{number}.givens]\nspan = {span}\n')
    return "\n".join(parts)


def written(folder: Path, text: str) -> Path:
    path = folder / "row.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_what_is_upstream_comes_first() -> None:
    links = {"a": "bc", "b": "d", "c": "d", "d": "", "e": "a"}
    order, circle = upstream_first(links, lambda part: links[part])
    assert order == ["d", "b", "c", "a", "e"]
    assert circle == []


def test_a_circle_is_named_and_cut() -> None:
    links = {"a": "b", "b": "c", "c": "b"}
    assert upstream_first("a", lambda part: links[part]) == (["c", "b", "a"], ["b", "c", "b"])


def test_a_long_row_of_links_is_computed_and_judged(tmp_path: Path) -> None:
    path = written(tmp_path, chain(MANY, '"612 ± 2 mm"'))
    assert Job.open(path).case("s0").show("span") == "612.0 ± 2 mm"
    checked = check_all(path)
    assert checked.findings == []
    assert len(checked.verdicts) == MANY


def test_a_long_circle_gets_a_sentence(tmp_path: Path) -> None:
    path = written(tmp_path, chain(MANY, '{ from = "s0.span" }'))
    with pytest.raises(JobError, match="run in a circle, s0 → s1 → s2"):
        Job.open(path).case("s0")
    (fault,) = check(path)
    assert fault.where == "parts.s0.givens.span.from"
