"""Two jobs side by side, as tables."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import TYPE_CHECKING

from kit.station.compare import PartChanges

if TYPE_CHECKING:
    from kit.station.compare import Comparison

_HEADS = ("What", "Name", "here", "there", "there less here")


def comparison(found: Comparison) -> str:
    """Return what differs between two jobs, a table a part, as HTML."""
    return "".join(_blocks(found))


def _blocks(found: Comparison) -> Iterator[str]:
    alike = f"{found.same} part{' is' if found.same == 1 else 's are'} the same in both."
    if not (found.parts or found.only_first or found.only_second):
        alike = f"Nothing differs. {alike}"
    yield f"<p>Here: {escape(found.first)}. There: {escape(found.second)}. {alike}</p>"
    for part in found.parts:
        yield _table(part)
    if found.whole:
        yield _table(PartChanges("", "The whole job", found.whole))
    for name, only in ((found.first, found.only_first), (found.second, found.only_second)):
        if only:
            items = "".join(f"<li>{escape(title)}</li>" for title in only)
            yield f"<p>Only in {escape(name)}:</p><ul>{items}</ul>"


def _table(part: PartChanges) -> str:
    rows = "".join(
        f'<tr><td>{change.kind}</td><th scope="row">{escape(change.name)}</th>'
        f"<td>{escape(change.first)}</td><td>{escape(change.second)}</td><td>{escape(change.by)}</td></tr>"
        for change in part.changes
    )
    heads = "".join(f'<th scope="col">{head}</th>' for head in _HEADS)
    fault = f"<p>Not compared further: {escape(part.fault)}.</p>" if part.fault else ""
    title = escape(part.title)
    return (
        f'<div class="fw-scroll" role="group" aria-label="{title}" tabindex="0"><table class="fw-table">'
        f"<caption>{title}</caption><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{fault}"
    )
