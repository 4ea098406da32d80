"""What a part's sheet rests on, in a few characters, without anything being built."""

from __future__ import annotations

import json
from dataclasses import fields
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from kit.core.files import MOST_BYTES, content_digest
from kit.core.model.case import Entry
from kit.core.resources import kit_digest
from kit.job.build import PRINTER, read_files
from kit.job.order import upstream_first
from kit.job.verdict import rests_on

if TYPE_CHECKING:
    from kit.core.model import Case
    from kit.job.job import Job

_FIELDS = [each for each in fields(Entry) if each.name != "given"]  # the given is the kit's


def content_digests(job: Job) -> dict[str, str]:
    """Return 64 hexadecimal digits for each part, which change with anything that its sheet or files could show.

    That is the kit itself, what the part states, the files that it names, how the job shows numbers, and the parts
    that it rests on.

    Raises:
        KitError: a part that cannot be computed.
    """
    shown = [kit_digest(), job.name, repr(job.display), job.level]
    bars = [job.machine[name].text for name in PRINTER.values() if name in job.machine]
    own: dict[str, str] = {}
    links = {id: list(rests_on(job, id)) for id in job.parts}
    for id in job.parts:
        part, raw = job.parts[id], job.raw_inputs(id)
        files = [content_digest(path, MOST_BYTES) for path in read_files(raw, job.path.parent)]
        stated = [id, part.model, part.title, raw, job.links(id), bars, files, repr(job.cell_origins(id))]
        stated.append(repr(part.pins))
        stated += _case(job.case(id))
        own[id] = json.dumps(stated, sort_keys=True, default=str)
    return {
        id: _digest(shown, own[id], [own[other] for other in upstream_first([id], links.__getitem__)[0]]) for id in own
    }


def _digest(*told: Any) -> str:
    return sha256(json.dumps(told, sort_keys=True, default=str).encode()).hexdigest()


def _case(case: Case) -> list[Any]:
    entries = [[each.name, repr(getattr(entry, each.name))] for entry in case.entries.values() for each in _FIELDS]
    return [dict(case.picks), sorted(case.beyond), repr(case.origins), entries]
