"""The appraiser's own templates: where they lie, and what is wrong with them before anything is rendered."""

from dataclasses import dataclass
from pathlib import Path

from appraise.files.inside import inside
from appraise.files.unusable import Trouble, UnusableFile
from appraise.findings.answers import Judged, Status
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.assignment import Assignment
from appraise.records.vocabulary import Use
from appraise.report.engine.find import TemplateFinder, shipped
from appraise.report.engine.lint import lint_folder
from appraise.report.view import ItemView, ReportView
from appraise.rules.uses import use_rules

#: What a template is given, by name.
SCHEMA = {"r": ReportView, "item": ItemView}


@dataclass(frozen=True, slots=True)
class Templates:
    """The templates of a report, with what was found in the appraiser's own."""

    finder: TemplateFinder
    judged: tuple[Judged, ...] = ()

    @property
    def refused(self) -> bool:
        """Whether nothing may be rendered from them."""
        return any(one.stops for one in self.judged)


def templates(typed: Path | None, workbook: Path, assignment: Assignment) -> Templates:
    """Return the templates to use, checked.

    typed  the folder given on the command line, or None: then the one the workbook names, if it names one
    Raises UnusableFile where the folder is not there or, named by the workbook, lies outside its folder.
    """
    folder = typed if typed is not None else _named(workbook, assignment)
    finder = TemplateFinder.with_own(folder)
    if folder is None:
        return Templates(finder)
    if not _is_folder(folder):
        sentence = f"There is no folder {folder} with templates. Correct its name; docs/restyle.md says what it holds."
        raise UnusableFile(Trouble.MISSING, folder, sentence)
    found = lint_folder(finder, SCHEMA, section_names())
    return Templates(finder, tuple(Judged(one, Status.OPEN) for one in found))


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:
        # A name longer than any file system allows.
        return False


def section_names() -> frozenset[str]:
    """Return the names of all sections there are, shipped or listed for a use."""
    files = (one.name for one in (shipped() / "sections").iterdir())
    listed = (name for use in Use for name in use_rules(use).sections)
    return frozenset(name.removesuffix(".docx") for name in files if name.endswith(".docx")) | frozenset(listed)


def where(place: Place) -> str:
    """Return a place in a template as it is printed: file and paragraph."""
    return f"{place.sheet}, paragraph {place.row}" if place.row else place.sheet


def _named(workbook: Path, assignment: Assignment) -> Path | None:
    name = assignment.template_folder
    if not given(name):
        return None
    folder = inside(workbook.parent, name)
    if folder is None:
        raise UnusableFile(
            Trouble.UNSAFE,
            workbook,
            f"Assignment names the folder {name} under 'Own templates in', which lies outside the workbook's folder. "
            "Put it there, or give it with --template.",
        )
    return folder
