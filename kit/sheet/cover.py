"""The picture on the cover of a station book: of the part that shows most of the station, from its real geometry."""

from __future__ import annotations

from kit.core.errors import KitError
from kit.job import Job
from kit.job.order import upstream_first
from kit.job.verdict import rests_on
from kit.sheet.build_section import picture
from kit.subjects import subject


def cover(job: Job) -> str:
    """Return the picture as HTML; nothing where no part has one, or none can be built.

    Of parts that rest on each other the last is shown: it has the others in its picture.
    """
    order = upstream_first(job.parts, lambda id: rests_on(job, id))[0]
    for id in reversed(order):
        name = subject(job.parts[id].model).cover
        if not name:
            continue
        try:
            build = job.build(id)
            if build is not None:
                return picture(build.picture(name), job.display, ids="cover", still=True)
        except KitError:  # the sheet of that part says why
            continue
    return ""
