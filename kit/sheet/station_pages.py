"""What the station book tells of a whole job beside its sheets: lists, order of work, setup cards."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from html import escape

from kit.core.quantity import Display, show
from kit.core.version import __version__
from kit.job import Job
from kit.job.part_names import file_name
from kit.job.tasks import Work, work_of
from kit.sheet.order_page import cards_html, order_html
from kit.sheet.page import page, safe
from kit.sheet.words import sentence
from kit.station.as_built import HEADS, AsBuilt, as_built, rows
from kit.station.cards import cards
from kit.station.list_tables import ListTable, list_tables, whole_table
from kit.station.lists import StationLists, station_lists
from kit.station.order import work_order
from kit.station.shop import Shop, Spread, read_shop, shop_file

PAGES = LISTS, ORDER, CARDS, BUILT = "lists.html", "order.html", "cards.html", "built.html"


def station_pages(
    job: Job, found: StationLists | None = None, work: Work | None = None, *, date: str = ""
) -> dict[str, tuple[str, str]]:
    """Return the pages of a book that tell of the whole job, by their names: what they are, and whole HTML files.

    `found` are its lists and `work` its tasks, if they are known already. What the job does not state has no page.
    """
    sheets = {id: file_name(id) for id in job.parts}
    block = [(name, value) for name, value in (("Date", date), ("Fitwright", __version__)) if value]

    def whole(title: str, body: str, *, on_screen: bool = False) -> str:
        words, foot = f"{job.name}: {title}", [f"{job.name}: {title}", date]
        return page("plain.html", title=words, footer=foot, origin=block, body=safe(body), on_screen=on_screen)

    found, order = found or station_lists(job), work_order(work or work_of(job.path))
    pages = {LISTS: ("Weight, shopping list, cut list", whole("weight and lists", lists_html(found, sheets)))}
    if order.steps or order.faults:
        pages[ORDER] = ("Order of work", whole("order of work", order_html(order, partial(titled, job, sheets))))
    made = cards(found.settings)
    if made:
        pages[CARDS] = ("Setup cards, A6", whole("setup cards", cards_html(made, job), on_screen=True))
    compared = as_built(job)
    if compared.found or compared.faults:
        pages[BUILT] = ("As built", whole("as built", built_html(compared, sheets)))
    return pages


def station_html(job: Job) -> str:
    """Return lists, order of work and what was measured of a job, and the shop's record beside it, as HTML."""
    found, order = station_lists(job), work_order(work_of(job.path))
    compared = as_built(job)
    ordered = order_html(order, partial(titled, job, {})) if order.steps or order.faults else ""
    beside = built_html(compared, {}) if compared.found or compared.faults else ""
    return lists_html(found) + ordered + beside + shop_html(read_shop(shop_file(job.path.parent)), job.display)


def shop_html(shop: Shop, display: Display) -> str:
    """Return a shop's record as HTML: what each thing is worth in the next job, and its history."""
    blocks = [f"<h3>{escape(each.name)}</h3>{spread_html(each, display)}" for each in shop.spreads.values()]
    return f"<section><h2>Shop record</h2>{''.join(blocks)}</section>" if blocks else ""


def spread_html(spread: Spread, display: Display) -> str:
    """Return what one thing of a shop's record is worth in the next job, and its history, as HTML."""
    rows = ""
    for each in spread.entries:
        where = ", ".join(filter(None, (each.job, each.what, each.note))) or "–"
        cells = (show(each.off, spread.unit, display), where)
        rows += f'<tr><th scope="row">{escape(each.date or "–")}</th>'
        rows += "".join(f"<td>{escape(cell)}</td>" for cell in cells) + "</tr>"
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("Date", "Off by", "Where"))
    return (
        f'<p>{escape(sentence(spread.words(display)))}</p><table class="fw-table">'
        f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>"
    )


def built_html(compared: AsBuilt, sheets: Mapping[str, str]) -> str:
    """Return what was measured of the built parts beside what is predicted, as HTML."""
    table = ListTable(
        "As built",
        HEADS,
        tuple((cells, (part,)) for part, cells in rows(compared)),
        "The normalized error is the difference over what both allow, from -1 to 1 where they agree (ISO/IEC 17043). "
        "What explains a difference is told for one given alone, to first order, were the measurement exact; how "
        "likely: an error at least as large. Nothing of it changes the job.",
    )
    items = "".join(f"<li>{escape(sentence(each))}</li>" for each in compared.faults)
    return (_table(compared.job, table, sheets) if table.rows else "") + (f"<ul>{items}</ul>" if items else "")


def titled(job: Job, sheets: Mapping[str, str], id: str) -> str:
    """Return a part's title as HTML, linked where `sheets` has the address of its sheet."""
    title = escape(job.parts[id].title or id)
    return f'<a href="{escape(sheets[id])}">{title}</a>' if id in sheets else title


def lists_html(found: StationLists, sheets: Mapping[str, str] | None = None) -> str:
    """Return the lists of a job as HTML; `sheets` are addresses of the parts' sheets, to which each line then links."""
    tables = "".join(_table(found.job, table, sheets or {}) for table in list_tables(found))
    none = "" if tables else "<p>No part of this job brings anything to a list.</p>"
    items = "".join(f"<li>{escape(sentence(each))}</li>" for each in found.open)
    missing = f"<section><h2>Not known</h2><ul>{items}</ul></section>" if items else ""
    return tables + none + missing


def whole_html(found: StationLists) -> str:
    """Return the mass and the center of mass of what stands in the station as HTML, and what is not in them."""
    table = whole_table(found)
    return _table(found.job, table, {}) if table.rows else f"<p>{escape(table.below)}</p>"


def _table(job: Job, table: ListTable, sheets: Mapping[str, str]) -> str:
    rows = ""
    for cells, ids in table.rows:
        parts = ", ".join(titled(job, sheets, id) for id in ids) or "Together"
        rows += f'<tr><th scope="row">{parts}</th>{"".join(f"<td>{escape(cell)}</td>" for cell in cells)}</tr>'
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("Part", *table.heads))
    below = f'<p class="fw-remark">{escape(table.below)}</p>' if table.below else ""
    return (
        f"<section><h2>{table.title}</h2>"
        f'<div class="fw-scroll" role="group" aria-label="{table.title}" tabindex="0"><table class="fw-table">'
        f"<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>{below}</section>"
    )
