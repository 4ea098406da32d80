"""Lighting up what changed: each number that is shown anew with another text than before."""

from __future__ import annotations

import re

_VALUE = re.compile(r'class="fw-value" data-testid="(value-[^"]+)">([^<]*)<')
_SHOWN = re.compile(r'data-testid="(value-[^"]+)">([^<]*)<')


def flashing(html: str, before: str) -> str:
    """Return results with the class fw-changed on each value whose text differs from the one in `before`.

    >>> shown = '<span class="fw-value" data-testid="value-a">{}</span>'
    >>> flashing(shown.format(2), shown.format(1))
    '<span class="fw-value fw-changed" data-testid="value-a">2</span>'
    """
    known = dict(_SHOWN.findall(before))

    def mark(found: re.Match[str]) -> str:
        name, text = found.groups()
        changed = known.get(name, text) != text
        return found[0].replace('class="fw-value"', 'class="fw-value fw-changed"') if changed else found[0]

    return _VALUE.sub(mark, html)
