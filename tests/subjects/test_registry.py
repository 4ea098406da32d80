"""Finding a subject by its model's name."""

import pytest

from kit.core.errors import KitError
from kit.subjects import CHAPTERS, RENAMED, model, names, subject


@pytest.mark.parametrize(("name", "near"), [("stop.bowe", "stop.bow"), ("level.plan", "level.plane")])
def test_a_wrong_name_lists_near_ones(name: str, near: str) -> None:
    with pytest.raises(KitError, match=rf"no model .* did you mean .*'{near}'"):
        subject(name)


@pytest.mark.parametrize("name", ["", "../../os", "os.path", "__init__", "..", "zzz"])
def test_names_that_are_no_model_are_refused(name: str) -> None:
    with pytest.raises(KitError, match="no model"):
        subject(name)


def test_a_name_is_that_of_the_chapter_and_of_the_page() -> None:
    assert names() == tuple(f"{chapter.name}.{page}" for chapter in CHAPTERS for page in chapter.pages)
    assert all(model(name).name == name for name in names())


@pytest.mark.parametrize(("old", "new"), RENAMED.items())
def test_a_name_of_before_is_still_read(old: str, new: str) -> None:
    assert subject(old) is subject(new)
