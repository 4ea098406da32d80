"""From format 1 to 2: what stood under `shape` stands straight in its part, and comments survive."""

import tomllib

import pytest

from kit.job.migration import to_format_2

HEADED = """\
format = 1
# the bench

[parts.hood] # over the saw
model = "hood.shape"
title = "Hood"

[parts.hood.givens]
front = "350 mm"

[parts.hood.shape]
# what it covers
takes = { envelope = "sweep" } # linked
rail = "40 mm"

# ---- next ----

[parts.sweep]
model = "sweep.step"

[[parts.sweep.shape.parts]]
name = "head" # the head

[parts.sweep.shape.picks]
"bed 1" = [0.1, 0.2, 0.3]
"""

MOVED = """\
format = 2
# the bench

[parts.hood] # over the saw
model = "hood.shape"
title = "Hood"
# what it covers
envelope = "sweep" # linked
rail = "40 mm"

[parts.hood.givens]
front = "350 mm"

# ---- next ----

[parts.sweep]
model = "sweep.step"

[[parts.sweep.parts]]
name = "head" # the head

[parts.sweep.picks]
"bed 1" = [0.1, 0.2, 0.3]
"""


def test_lines_are_moved_and_comments_stay() -> None:
    assert to_format_2(HEADED) == MOVED


INLINE = (
    'format = 1\n[parts.pad]\nmodel = "level.pads"\nshape = { takes = { plane = "bed" }, feet = [{ name = "a" }] }\n'
)
TABLES = 'format = 1\n[parts.a]\nmodel = "x"\n[parts.a.shape.takes]\nplane = "bed"\n[parts.a.shape]\nrail = "4 mm"\n'
DOTTED = 'format = 1\n[parts]\na = { model = "x", shape = { rail = "4 mm" } }\n'


@pytest.mark.parametrize("text", [HEADED, INLINE, TABLES, DOTTED, HEADED.replace("\n", "\r\n")])
def test_however_it_is_written_it_says_the_same(text: str) -> None:
    before, after = tomllib.loads(text), tomllib.loads(to_format_2(text))
    assert after["format"] == 2
    for id, part in before["parts"].items():
        shape = dict(part.get("shape", {}))
        links = shape.pop("takes", {})
        rest = {key: value for key, value in part.items() if key != "shape"}
        assert after["parts"][id] == {**rest, **links, **shape}


def test_a_job_without_shapes_only_changes_its_number() -> None:
    text = 'format = 1\n[parts.a]\nmodel = "stop.bow"\n'
    assert to_format_2(text) == text.replace("format = 1", "format = 2")
