"""A lesson as one HTML file: run once, then read without a kernel, a network or a widget, from a memory stick as well.

Texts, figures, tables and plots stand as they are; of a panel its static view is left. A question can be answered: what
is said of an option is sealed by the option's text. The code is folded.
"""

from __future__ import annotations

import contextlib
import json
import os
import re
import sys
import tempfile
import zlib
from base64 import b64encode
from collections.abc import Iterator
from html import escape, unescape
from importlib.resources import files
from itertools import count
from pathlib import Path
from types import ModuleType
from typing import Any

from kit.core.errors import KitError
from kit.job.folder import VARIABLE
from kit.sheet.mathml import mathml
from kit.sheet.page import page, safe
from kit.teach.question import Posed
from kit.teach.sealed import ROUNDS, seal
from kit.ui.lesson.html import plain

_LINK = re.compile(r'<a href="[^"#:]*\.ipynb[^"]*">(.*?)</a>')
_MATH = re.compile(r"\$([^$\n]+)\$")
_STYLE = re.compile(r"<style>.*?</style>", re.DOTALL)
_META = re.compile(r"<metadata>.*?</metadata>", re.DOTALL)
_PATH = re.compile(r'\bd="[^"]*"')
_DIGITS = re.compile(r"(\.\d\d)\d+")  # of a point, 1/72 in
_FRAME = re.compile(r'\bsrcdoc="([^"]*)"')
_SCRIPT = re.compile(r"<script.*?</script>", re.DOTALL)
LARGEST = 60_000  # bytes of a view that can be turned, deflated
MOST = 850_000  # characters; of a lesson that is longer, long pieces are deflated
LONG = 20_000
STILL = (
    "This lesson is one file: its questions can be answered here, and its exercises are worked on paper. Numbers and "
    "figures stand still; where the text speaks of a panel to set or of an answer to type, open the notebook."
)
_GROUPS = count(1)


def export_lesson(notebook: Path, *, job: Path | None = None) -> str:
    """Return a notebook as a whole HTML file, run on a job or, without one, on its example.

    Raises:
        KitError: the notebook cannot be read, or one of its cells fails.
    """
    try:
        cells = json.loads(notebook.read_text(encoding="utf-8"))["cells"]
        sources = [(cell["cell_type"], "".join(cell["source"])) for cell in cells]
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise KitError(
            f"{notebook} cannot be read as a notebook ({error}); name one such as 80_long_stop.ipynb"
        ) from None
    head, *rest = _once(list(_blocks(notebook.name, sources, job)))
    blocks = [head, f'<p class="fw-note">{escape(STILL)}</p>', *rest]
    if sum(map(len, blocks)) > MOST:
        blocks = [_folded(block) if len(block) > LONG else block for block in blocks]
    title = next((text.splitlines()[0].lstrip("# ") for kind, text in sources if kind == "markdown"), notebook.stem)
    own = (files("kit.ui.lesson") / "lesson.css").read_text(encoding="utf-8")
    return page(
        "lesson.html",
        title=title,
        footer=[title],
        blocks=[safe(block) for block in blocks],
        lesson_style=safe(f"<style>{own}</style>"),
        script=safe((files("kit.ui.lesson") / "alone.js").read_text(encoding="utf-8")),
    )


def _blocks(name: str, sources: list[tuple[str, str]], job: Path | None) -> Iterator[str]:
    """Run the cells one by one and yield what each shows."""
    with _shell(job) as shell:
        for number, (kind, text) in enumerate(sources, 1):
            if kind == "markdown":
                yield _text(text)
                continue
            shown: list[Any] = []
            printed = _run(shell, text, shown)
            if isinstance(printed, BaseException):
                raise KitError(f"{name}, cell {number} fails: {printed}")
            yield f"<details class='fw-code'><summary>Code</summary><pre>{escape(text)}</pre></details>"
            if printed.strip():
                yield f"<pre>{escape(printed)}</pre>"
            yield from shown


def _run(shell: Any, source: str, shown: list[Any]) -> str | BaseException:
    """Run a cell; append what it displays as HTML to `shown`, and return what it prints, or why it fails."""
    from IPython.utils.capture import capture_output

    with capture_output() as captured:
        shell.display_trap.hook = sys.displayhook  # what a cell ends with is shown as what it displays
        result = shell.run_cell(source)
    if not result.success:
        return result.error_in_exec or result.error_before_exec or KitError("it cannot be run")
    for output in captured.outputs:
        data = output.data
        if "text/html" in data and "application/vnd.jupyter.widget-view+json" not in data:
            shown.append(plain(_unframed(data["text/html"])))
        elif "text/markdown" in data:
            shown.append(_text(data["text/markdown"]))
    return str(captured.stdout)


@contextlib.contextmanager
def _shell(job: Path | None) -> Iterator[Any]:
    """Yield a shell of its own in an empty folder; questions are shown sealed meanwhile."""
    from IPython.core.interactiveshell import InteractiveShell
    from traitlets.config import Config

    from kit.ui.lesson import question

    named = os.environ.pop(VARIABLE, None)
    quiet = Config({"HistoryManager": {"enabled": False}, "InteractiveShell": {"colors": "nocolor"}})
    with tempfile.TemporaryDirectory() as home, contextlib.chdir(home):
        if job is not None:
            os.environ[VARIABLE] = str(job)
        shell = InteractiveShell.instance(config=quiet, ipython_dir=home, user_module=ModuleType("lesson"))
        question.ALONE.append(sealed_question)
        try:
            yield shell
        finally:
            question.ALONE.clear()
            InteractiveShell.clear_instance()
            os.environ.pop(VARIABLE, None)
            if named is not None:
                os.environ[VARIABLE] = named


def sealed_question(posed: Posed) -> str:
    """Return a question to answer without a kernel."""
    judged = [posed.judge(text) for text in posed.options]
    told = [f"{'✓' if each.right else '✗'} {each.words}" for each in judged]
    salt, sealed = seal(posed.options, told)
    group = f"alone-{next(_GROUPS)}"
    rows = "".join(
        f'<label><input type="radio" name="{group}" value="{escape(text)}" data-sealed="{code}"> {escape(text)}</label>'
        for text, code in zip(posed.options, sealed, strict=True)
    )
    return (
        f'<div class="fw-ask fw-sealed" data-salt="{salt}" data-rounds="{ROUNDS}"><fieldset>'
        f"<legend>Predict first: {escape(posed.question.ask)}</legend>{rows}</fieldset>"
        '<button type="button" disabled>Commit</button><div role="status"></div></div>'
    )


def _text(markdown: str) -> str:
    """Return a text cell as HTML; links to other notebooks, which are not there, become plain words."""
    import mistune

    math: list[str] = []

    def kept(found: re.Match[str]) -> str:
        math.append(mathml(found[1]))
        return f"FWMATH{len(math) - 1}END"

    html = str(mistune.create_markdown(plugins=["table"])(_MATH.sub(kept, markdown)))
    html = re.sub(r"FWMATH(\d+)END", lambda found: math[int(found[1])], html)
    return _LINK.sub(r"\1", html).replace("<table>", '<table class="fw-table">')


def _unframed(html: str) -> str:
    """Return a piece without the frame of its own that each cell has: the page has one for all."""
    return re.sub(r'^<div class="fw-panel fw-lesson">(.*)</div>$', r"\1", html, flags=re.DOTALL)


def _once(blocks: list[str]) -> Iterator[str]:
    """Yield the pieces without styles, of which the page has one for all, and with paths no finer than anybody sees."""
    for block in blocks:
        bare = _FRAME.sub(_packed, _META.sub("", _STYLE.sub("", block)))
        yield _PATH.sub(lambda path: _DIGITS.sub(r"\1", " ".join(path[0].split())), bare)


def _packed(frame: re.Match[str]) -> str:
    """Return a view in space deflated; of one that is too large to carry about its still picture is left."""
    content = unescape(frame[1])
    packed = _deflated(content)
    if len(packed) > LARGEST:
        packed = _deflated(_SCRIPT.sub("", content))
    return f'data-packed="{b64encode(packed).decode()}"'


def _folded(block: str) -> str:
    """Return a long piece deflated; the page's script unfolds it."""
    needed = "<noscript>This picture or table needs scripts to be allowed.</noscript>"
    return f'<div data-packed="{b64encode(_deflated(block)).decode()}">{needed}</div>'


def _deflated(text: str) -> bytes:
    squeeze = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    return squeeze.compress(text.encode()) + squeeze.flush()
