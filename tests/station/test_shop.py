"""A shop's record: what its entries are worth, by a table of Student's t and by draws; that its file stays whole."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from kit.cli import main
from kit.core.errors import KitError
from kit.core.quantity import Display, unit
from kit.core.tables import table
from kit.job import Job
from kit.sheet.station_pages import shop_html, station_html
from kit.station.shop import Entry, Shop, Spread, add_entry, read_shop, shop_file

Write = Callable[..., Job]
DEG, MM = unit("deg"), unit("mm")
MINE = """# our saw, measured by blocks
format = 1

[spreads."saw tilt"]
unit = "deg" # as its scale
entries = [
  { off = 0.1 }, # May
  { off = 0.3, note = "after <oiling>" },
]
"""


def spread(*offs: float) -> Spread:
    return Spread("saw tilt", MM, tuple(Entry(off) for off in offs))


def test_three_entries_are_worth_what_a_table_of_student_s_t_says() -> None:
    found = spread(0.1, -0.05, 0.2)
    # by hand: mean 0.25 / 3; squares from it 0.000278 + 0.017778 + 0.013611 = 0.031667, over 2, root 0.12583; times
    # √(4/3) 0.14530
    assert found.mean == pytest.approx(0.08333, abs=1e-5)
    assert found.u == pytest.approx(0.14530, abs=1e-5)
    assert found.half == pytest.approx(table("small_samples").row("3 parts").entry("t95").base * 0.14530, abs=0.0005)
    assert not found.biased
    assert found.words() == (
        'state ± 0.291 mm with spread = "normal", k = 2, dof = 2; 95 in 100 lie within ± 0.625 mm of the mean 0.083 mm'
    )


def test_95_in_100_of_the_next_ones_lie_within() -> None:
    draw = np.random.default_rng(5)
    offs = draw.normal(0.4, 0.7, (3000, 6))
    made = [spread(*row[:5]) for row in offs]
    inside = np.mean([abs(row[5] - each.mean) <= each.half for row, each in zip(offs, made, strict=True)])
    assert abs(inside - 0.95) < 3 * np.sqrt(0.95 * 0.05 / 3000)


def test_a_mean_that_is_no_chance_is_told() -> None:
    assert spread(0.50, 0.52, 0.48).biased
    assert "which is no chance: set it right by that" in spread(0.50, 0.52, 0.48).words()
    assert "read them finer" in spread(0.1, 0.1).words()
    assert spread(0.1).words() == "one entry tells no spread; add a second one"


def test_an_entry_is_added_and_all_else_in_the_file_stays(tmp_path: Path) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(MINE, encoding="utf-8")
    found = add_entry(path, "saw tilt", 0.2 * DEG.factor, unit("rad"), {"date": "2026-06-06", "job": "A shed"})
    assert [round(each.off / DEG.factor, 9) for each in found.spreads["saw tilt"].entries] == [0.1, 0.3, 0.2]
    text = path.read_text(encoding="utf-8")
    assert all(line in text for line in MINE.splitlines() if "#" in line)
    found = add_entry(path, "tape", 0.5, MM, {})
    assert [*found.spreads] == ["saw tilt", "tape"]
    assert read_shop(tmp_path / "none.toml").spreads == {}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("spreads = 3", "spreads must be tables"),
        ("[spreads.a]\nunit = 'deg'\n", "needs unit"),
        ("[spreads.a]\nunit = 'deg'\nentries = [{ off = '1' }]\n", "must be a number"),
        ("[spreads.a]\nunit = 'deg'\nentries = [{ off = nan }]\n", "must be a number"),
        ("[spreads.a]\nunit = 'furlong'\nentries = [{ off = 1 }]\n", "furlong"),
        ("[spreads.a]\nunit = 'deg'\nentries = []\n", "has no entries"),
        ("format = 9", "this kit reads format 1"),
        ("a = ", "cannot be read as TOML"),
    ],
)
def test_a_faulty_record_is_told_in_a_sentence_and_left(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(text)
    with pytest.raises(KitError, match=words):
        add_entry(path, "a", 1.0, DEG, {})
    assert path.read_text() == text


def test_the_command_adds_what_was_measured_once(
    stated: Write, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("FITWRIGHT_SHOP", raising=False)
    monkeypatch.chdir(tmp_path)
    job = stated('[parts.eye]\nmodel = "scale.cursor"\n[parts.eye.built]\nparallax = "0.3 ± 0.05 mm"\n')
    add = ["shop", "--add", "reading", "--from", str(job.path), "eye.parallax"]
    assert main(add) == 0
    off = read_shop(shop_file(tmp_path)).spreads["reading"].entries[0].off
    assert off == pytest.approx(0.3 - job.case("eye").base["parallax"], rel=1e-6)
    assert main(add) == 2
    assert "has this entry already" in capsys.readouterr().err
    assert main(["shop", "--add", "reading", "--off=-0.2 kg"]) == 2
    assert "another kind" in capsys.readouterr().err
    assert main(["shop", "--add", "reading"]) == 2
    assert main(["shop", "--add", "x", "--from", str(job.path), "eye.gap"]) == 2
    assert "nothing as built of eye.gap" in capsys.readouterr().err
    assert main(["shop", "--add", "reading", "--off=0.1 mm", "--note", "by hand"]) == 0
    assert "state ± " in capsys.readouterr().out
    assert "Shop record" in station_html(job)
    assert Job.open(job.path).case("eye").base == job.case("eye").base, "no job is changed"


def test_the_page_escapes_what_a_record_says(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(MINE, encoding="utf-8")
    html = shop_html(read_shop(tmp_path / "shop.toml"), Display())
    assert "after &lt;oiling&gt;" in html
    assert shop_html(Shop(tmp_path, {}), Display()) == ""
