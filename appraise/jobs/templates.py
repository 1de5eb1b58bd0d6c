"""The appraiser's own templates: where they lie, and what is wrong with them before anything is rendered."""

from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO
from xml.parsers.expat import ExpatError

from jinja2 import TemplateError

from appraise.files.inside import inside
from appraise.files.unusable import Trouble, UnusableFile, shortened
from appraise.findings.answers import Judged, Status
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.assignment import Assignment
from appraise.records.vocabulary import Use
from appraise.report.engine.environment import UnprintableError
from appraise.report.engine.find import TemplateFinder, shipped
from appraise.report.engine.helpers import TooLargeError
from appraise.report.engine.inspect import BrokenReportError
from appraise.report.engine.lint import lint_folder
from appraise.report.item_view import ItemView
from appraise.report.view import ReportView
from appraise.rules.uses import use_rules

#: What comes of a template that says more than can be printed, or builds what Word refuses.
_GONE_WRONG = (BrokenReportError, TooLargeError, UnprintableError, TemplateError, ExpatError, ValueError)
#: What a template is given, by name.
SCHEMA = {"r": ReportView, "item": ItemView}


@frozen
class Templates:
    """The templates of a report, with what was found in the appraiser's own."""

    finder: TemplateFinder
    judged: tuple[Judged, ...] = ()

    @property
    def refused(self) -> bool:
        """Whether nothing may be rendered from them."""
        return any(one.stops for one in self.judged)

    def blamed(self, write: Callable[[BinaryIO], None]) -> Callable[[BinaryIO], None]:
        """Return the function, with what the appraiser's own templates bring about said in a sentence."""
        own = self.finder.own_files()
        if not own:
            return write

        def tried(stream: BinaryIO) -> None:
            try:
                write(stream)
            except _GONE_WRONG as fault:
                folder = own[0].parent
                sentence = (
                    f"The templates in {shortened(folder)} give a report that cannot be handed over: "
                    f"{str(fault)[:160]}. Take out what was last changed in them, or leave --template away."
                )
                raise UnusableFile(Trouble.DAMAGED, folder, sentence) from fault

        return tried


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
        sentence = (
            f"There is no folder {shortened(folder)} with templates. Correct its name; docs/restyle.md says what it "
            "holds."
        )
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
