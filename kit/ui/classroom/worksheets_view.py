"""Worksheets from a page: what is asked about, for whom, and with or without keys; made one by one."""

from __future__ import annotations

from pathlib import Path

import ipywidgets as w

from kit.core.errors import KitError
from kit.core.model import Case
from kit.core.quantity import Display
from kit.job import Job
from kit.job.folder import current_job, demos, job_files
from kit.subjects import CHAPTERS, model
from kit.teach.worksheet import Worksheet, names_of, seeds_of, worksheets, write_worksheets
from kit.ui.idle import Action, Idle
from kit.ui.page.file_links import file_links
from kit.ui.page.widgets import button, labeled, line, page_style, row

_MODELS = "the models chosen below"
_UNITS = {"millimeters": "mm", "inches": "in"}
_SHOWN = 40  # links


class WorksheetMaker(w.VBox):
    """Fields for a set of worksheets, a button that makes them, and links to them."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        here = current_job(folder)
        beside = [each for each in job_files(here.parent) if each.path.samefile(here)] if here else []
        jobs = {f"the job {each.name}": each.path for each in (*beside, *job_files(folder)) if not each.fault}
        jobs |= {f"the demo {name}": Path(file) for file, name in demos().items()}
        self._jobs = jobs
        titles = {
            f"{chapter.title}: {model(f'{chapter.name}.{page}').title}": f"{chapter.name}.{page}"
            for chapter in CHAPTERS
            for page in chapter.pages
        }
        self.about = w.Dropdown(options=[_MODELS, *jobs])
        self.models = w.SelectMultiple(options=list(titles.items()), value=tuple(titles.values())[:1], rows=8)
        self.count = w.BoundedIntText(value=6, min=1, max=40)
        self.names = w.Textarea(
            placeholder="one name a line, pasted from your class list", rows=5, continuous_update=False
        )
        self.seeds = w.Text(value="1-3", continuous_update=False)
        self.units = w.Dropdown(options=list(_UNITS.items()))
        self.key = w.Checkbox(value=True, description="With a key for each sheet", indent=False)
        self.into = w.Text(value="worksheets", continuous_update=False)
        self.make = button("Make the worksheets", "make a sheet a pupil, and the keys", self._begin, kind="fw-main")
        self.said, self.links = w.HTML(), w.HTML()
        self._work: Idle | None = None
        super().__init__(
            [
                w.HTML(page_style()),
                _wide(labeled("Ask about", self.about, "what is asked about: models, or a job's parts")),
                _wide(labeled("Models, one or several", self.models, "models that are asked about")),
                row(
                    labeled("Tasks on a sheet", self.count),
                    labeled("Lengths in", self.units),
                    labeled("Folder for them", self.into, "folder beside this notebook that the sheets go into"),
                ),
                _wide(labeled("Class list", self.names, "names of the pupils, one a line; may stay empty")),
                labeled("Without a list: numbers of the sheets", self.seeds, "numbers of the sheets, such as 1-30"),
                self.key,
                row(self.make),
                self.said,
                self.links,
            ],
            _dom_classes=("fw-panel", "fw-page", "fw-classroom"),
        )
        self.about.observe(lambda _: self._choose(), "value")

    def _choose(self) -> None:
        self.models.disabled = self.about.value != _MODELS

    def _begin(self) -> None:
        """Make the sheets one after the other, so that the page answers meanwhile."""
        try:
            title, cases = self._asked_about()
            pupils = names_of(self.names.value) if self.names.value.strip() else []
            seeds = seeds_of(f"1-{len(pupils)}" if pupils else self.seeds.value)
            into = self._into()
        except (KitError, OSError) as error:
            self.said.value = line(str(error), fault=True)
            return
        made: list[Worksheet] = []
        self.make.disabled, self.links.value = True, ""

        def one(seed: int, pupil: str) -> Action:
            def work() -> None:
                made.extend(
                    worksheets(
                        title,
                        cases,
                        count=self.count.value,
                        seeds=[seed],
                        display=Display(system=self.units.value),
                        pupils=[pupil],
                    )
                )
                self.said.value = line(f"{len(made)} of {len(seeds)} sheets are made")

            return self._guarded(work)

        def write() -> None:
            paths = write_worksheets(made, into, key=self.key.value)
            keys = sorted((into / "key").glob("*.csv")) if self.key.value else []
            self.said.value = line(
                f"{len(paths)} sheets are in the folder {self.into.value}"
                f"{', their keys in its folder key: keep that one to yourself' if keys else ''}"
            )
            self.links.value = file_links([*keys, *paths[:_SHOWN]], self.folder)
            self.make.disabled = False

        padded = [*pupils, *[""] * len(seeds)]
        steps = [one(seed, padded[at]) for at, seed in enumerate(seeds)]
        self._work = Idle([*steps, self._guarded(write)])

    def _guarded(self, work: Action) -> Action:
        """Return work that, where it fails, says why and lets nothing follow."""

        def guarded() -> None:
            if not self.make.disabled:
                return
            try:
                work()
            except (KitError, OSError) as error:
                self.make.disabled = False
                self.said.value = line(str(error), fault=True)

        return guarded

    def _asked_about(self) -> tuple[str, list[Case]]:
        if self.about.value == _MODELS:
            if not self.models.value:
                raise KitError("no model is chosen; choose one or several, or a job")
            chosen = [model(name) for name in self.models.value]
            return (chosen[0].title if len(chosen) == 1 else "Worksheet"), [each.at() for each in chosen]
        path = self._jobs[self.about.value]
        from kit.job.demo import example_job

        job = Job.open(path) if path.is_absolute() or path.exists() else example_job(path.name)
        return job.name, [job.case(part) for part in job.parts]

    def _into(self) -> Path:
        name, here = str(self.into.value).strip(), self.folder.resolve()
        into = (here / name).resolve()
        if into == here or not into.is_relative_to(here):
            raise KitError(f"{name!r} is no folder beside this notebook; give a plain name, such as worksheets")
        return into


def _wide(field: w.VBox) -> w.VBox:
    field.add_class("fw-wide")
    return field
