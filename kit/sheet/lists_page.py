"""The lists of a whole job as tables, and as a page of the station book."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape

from kit.core.version import __version__
from kit.job import Job
from kit.job.part_names import file_name
from kit.sheet.page import page, safe
from kit.sheet.words import sentence
from kit.station.list_tables import ListTable, list_tables
from kit.station.lists import StationLists, station_lists

NAME = "lists.html"


def lists_page(job: Job, *, date: str = "") -> str:
    """Return the lists of a job as a whole HTML file beside the sheets of its parts."""
    found = station_lists(job)
    block = [("Date", date), ("Fitwright", __version__)]
    return page(
        "lists.html",
        title=job.name,
        footer=[job.name, date],
        origin=[(name, value) for name, value in block if value],
        tables=safe(lists_html(found, {id: file_name(id) for id in job.parts})),
    )


def lists_html(found: StationLists, sheets: Mapping[str, str] | None = None) -> str:
    """Return the lists of a job as HTML; `sheets` are addresses of the parts' sheets, to which each line then links."""
    tables = "".join(_table(found.job, table, sheets or {}) for table in list_tables(found))
    none = "" if tables else "<p>No part of this job brings anything to a list.</p>"
    items = "".join(f"<li>{escape(sentence(each))}</li>" for each in found.open)
    missing = f"<section><h2>Not known</h2><ul>{items}</ul></section>" if items else ""
    return tables + none + missing


def _table(job: Job, table: ListTable, sheets: Mapping[str, str]) -> str:
    def part(id: str) -> str:
        title = escape(job.parts[id].title or id)
        return f'<a href="{escape(sheets[id])}">{title}</a>' if id in sheets else title

    rows = ""
    for cells, ids in table.rows:
        parts = ", ".join(map(part, ids)) or "Together"
        rows += f'<tr><th scope="row">{parts}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in cells)}</tr>'
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("Part", *table.heads))
    below = f'<p class="fw-remark">{escape(table.below)}</p>' if table.below else ""
    return (
        f"<section><h2>{table.title}</h2>"
        f'<div class="fw-scroll" role="group" aria-label="{table.title}" tabindex="0"><table class="fw-table">'
        f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{below}</section>"
    )
