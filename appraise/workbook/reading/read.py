"""From a workbook file to a job: everything a person typed, and everything that is wrong with how it was typed."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from appraise.files.inside import inside
from appraise.files.unusable import Trouble, UnusableFile
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import Missing
from appraise.model.place import Place
from appraise.records.declare import Sheet
from appraise.records.job import FORMAT, SHEETS, Job
from appraise.workbook.cells import Book, SheetPart, Value
from appraise.workbook.layout import EXAMPLE, FORMAT_LABEL, LIBRARY_ROWS, OWN_SHEETS, START, Layout, SheetLayout
from appraise.workbook.reading.clean import clean_word
from appraise.workbook.reading.form import read_form
from appraise.workbook.reading.headings import folded
from appraise.workbook.reading.library import join_library
from appraise.workbook.reading.references import duplicate_findings, reference_findings
from appraise.workbook.reading.table import Count, Extra, SheetRead, Terms, read_table
from appraise.workbook.reading.typed_numbers import is_locale
from appraise.workbook.reading.upgrades import Step, upgrade
from appraise.workbook.reading.values import Typing, as_text

#: Sheets without which there is nothing to report on.
_NEEDED = frozenset(("assignment", "value_terms", "people", "items"))


@frozen
class ExtraSheet:
    """A sheet the user added: its rows as (row, column, value). Kept, not understood."""

    name: str
    cells: tuple[tuple[int, int, Value], ...]


@frozen
class ReadResult:
    """What was read.

    job            every record of every sheet, the library's rows included
    findings       in the order of sheets, rows and columns
    layout         where everything stands, to print places
    counts         by sheet: rows read, blank rows between them, hidden, example and left-out rows
    extra_columns  columns the user added
    extra_sheets   sheets the user added
    library        the library workbook that was read, None without one
    """

    job: Job
    findings: tuple[Finding, ...]
    layout: Layout
    counts: Mapping[str, Count]
    extra_columns: tuple[Extra, ...]
    extra_sheets: tuple[ExtraSheet, ...]
    library: Path | None = None


@dataclass(slots=True)
class _BookRead:
    """What was read from one file: records by field of the job, and the rest."""

    records: dict[str, list[Any]] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    sheets: dict[str, SheetLayout] = field(default_factory=dict)
    counts: dict[str, Count] = field(default_factory=dict)
    extra_columns: list[Extra] = field(default_factory=list)
    extra_sheets: list[ExtraSheet] = field(default_factory=list)
    example_ids: dict[str, set[str]] = field(default_factory=dict)
    typing: Typing = field(default_factory=lambda: Typing.of(""))


def read_job(path: Path) -> ReadResult:
    """Return the job in the workbook at `path`, joined with the library it names.

    Faults of what was typed are findings. Raises `UnusableFile` where the file as a whole cannot be read: no
    workbook, damaged, protected, made by a newer version, or none of our sheets in it.
    """
    with Book(path) as book:
        read = _read_book(book, library=False)
    layout = Layout(path.name, read.sheets)
    library_path = _library_path(path, read)
    if library_path is not None:
        layout = replace(layout, library=_read_library(library_path, read))
    examples = [count.example for count in read.counts.values() if count.example]
    if examples:
        read.findings.append(finding("CEL-29", Place(""), found=EXAMPLE, count=sum(examples), sheets=len(examples)))
    read.findings += duplicate_findings(read.records)
    read.findings += reference_findings(read.records, read.example_ids)
    return ReadResult(
        job=_job(read.records),
        findings=tuple(sorted(set(read.findings), key=_sheet_order)),
        layout=layout,
        counts=read.counts,
        extra_columns=tuple(read.extra_columns),
        extra_sheets=tuple(read.extra_sheets),
        library=library_path if layout.library is not None else None,
    )


def _job(records: Mapping[str, list[Any]]) -> Job:
    values: dict[str, Any] = {
        name: rows[0] if SHEETS[name].form else tuple(rows) for name, rows in records.items() if rows
    }
    return Job(**values)


_SHEET_ORDER = {sheet.name: position for position, sheet in enumerate(SHEETS.values())}
_COLUMN_ORDER = {
    (sheet.name, column.key): position for sheet in SHEETS.values() for position, column in enumerate(sheet.columns)
}


def _sheet_order(one: Finding) -> tuple[int, int, int, Finding]:
    place = one.place
    return (_SHEET_ORDER.get(place.sheet, -1), place.row, _COLUMN_ORDER.get((place.sheet, place.column), -1), one)


def _read_book(book: Book, *, library: bool, typing: Typing | None = None) -> _BookRead:
    """Return what stands in one file; of a library only the sheets that may stand there."""
    read = _BookRead()
    step = _format_step(book, read)
    wanted = {name: sheet for name, sheet in SHEETS.items() if sheet.library or not library}
    tabs = _find_tabs(book, step)
    parts = {name: tabs.pop(folded(sheet.name)) for name, sheet in wanted.items() if folded(sheet.name) in tabs}
    if not parts:
        raise UnusableFile(
            Trouble.FOREIGN,
            book.path,
            f"{book.path.name} has none of the sheets of a job. Make a workbook with `appraise new` and fill it in.",
        )
    read.typing = typing or Typing.of("")
    use = ""
    if not library:
        use = _read_assignment(book, parts.get("assignment"), step, read)
    terms = Terms(read.typing, use, step.headings)
    for name, part in parts.items():
        if name != "assignment":
            sheet = wanted[name]
            one = (read_form if sheet.form else read_table)(sheet, part.name, book.rows(part), terms)
            _take(read, name, sheet, one)
    if not library:
        read.findings += _missing_sheets(parts, tabs, use)
        for part in tabs.values():
            if part.name not in OWN_SHEETS:
                read.extra_sheets.append(_extra_sheet(book, part))
                read.findings.append(finding("FIL-08", Place(part.name), found=part.name))
    return read


def _find_tabs(book: Book, step: Step) -> dict[str, SheetPart]:
    """Return the sheets of the file by folded name, those of an older format under today's name."""
    renamed = {folded(then): folded(now) for then, now in step.tabs.items()}
    return {renamed.get(folded(part.name), folded(part.name)): part for part in book.sheets}


def _take(read: _BookRead, name: str, sheet: Sheet, one: SheetRead) -> None:
    read.records[name] = one.records
    read.findings += one.findings
    read.counts[sheet.name] = one.count
    read.extra_columns += one.extras
    read.example_ids[sheet.name] = one.example_ids
    if one.layout is not None:
        read.sheets[sheet.name] = one.layout


def _read_assignment(book: Book, part: SheetPart | None, step: Step, read: _BookRead) -> str:
    """Read the form, once to learn how numbers are typed and once by that; return the use ("" unknown)."""
    sheet = SHEETS["assignment"]
    if part is None:
        values: dict[str, Any] = {column.key: Missing.UNREADABLE for column in sheet.columns}
        read.records["assignment"] = [sheet.record(row=0, **values)]
        return ""
    first = read_form(sheet, part.name, book.rows(part), Terms(read.typing, "", step.headings))
    locale = first.records[0].workbook_locale
    if isinstance(locale, str):
        if not is_locale(locale):
            place = Place(sheet.name, 0, "workbook_locale")
            read.findings.append(finding("CEL-35", place, found=locale))
        read.typing = Typing.of(locale)
    one = read_form(sheet, part.name, book.rows(part), Terms(read.typing, "", step.headings))
    _take(read, "assignment", sheet, one)
    use = one.records[0].use
    return "" if isinstance(use, Missing) else str(use)


def _missing_sheets(parts: Mapping[str, SheetPart], tabs: Mapping[str, SheetPart], use: str) -> Iterable[Finding]:
    """Yield a finding for each sheet that should be there: a stop if it was renamed or nothing goes without it."""
    free = {folded_name: part.name for folded_name, part in tabs.items() if part.name not in OWN_SHEETS}
    for name, sheet in SHEETS.items():
        if name in parts:
            continue
        near = get_close_matches(folded(sheet.name), free, 1, 0.7)
        if near:
            yield finding("FIL-17", Place(sheet.name), found=free[near[0]], sheet=sheet.name)
        elif name in _NEEDED:
            yield finding("FIL-01", Place(sheet.name), sheet=sheet.name, purpose=sheet.purpose)
        elif not sheet.uses or use in sheet.uses:
            yield finding("FIL-02", Place(sheet.name), sheet=sheet.name, purpose=sheet.purpose)


def _extra_sheet(book: Book, part: SheetPart) -> ExtraSheet:
    return ExtraSheet(
        part.name, tuple((row.number, cell.column, cell.value) for row in book.rows(part) for cell in row.cells)
    )


def _format_step(book: Book, read: _BookRead) -> Step:
    """Return what turns the file's format into ours; a newer format is refused."""
    found = _format_typed(book)
    if not found:
        read.findings.append(finding("FIL-09", Place(START), format=FORMAT))
        return Step()
    if not found.isdecimal() or not 1 <= int(found) <= 10_000:
        read.findings.append(finding("FIL-10", Place(START), found=found, format=FORMAT))
        return Step()
    number = int(found)
    if number > FORMAT:
        raise UnusableFile(
            Trouble.NEWER_FORMAT,
            book.path,
            f"{book.path.name} is of workbook format {number}; this version reads formats up to {FORMAT}. "
            "Install the newer version of appraise.",
        )
    if number < FORMAT:
        read.findings.append(finding("FIL-11", Place(START), found=found, format=FORMAT))
    return upgrade(number, FORMAT)


def _format_typed(book: Book) -> str:
    """Return what stands beside the label of the format on Start, "" where there is none."""
    part = next((one for one in book.sheets if folded(one.name) == folded(START)), None)
    if part is None:
        return ""
    for row in book.rows(part):
        if row.number > 500:
            break
        for label, value in zip(row.cells, row.cells[1:], strict=False):
            if folded(as_text(label)) == folded(FORMAT_LABEL):
                return clean_word(as_text(value))
    return ""


def _library_path(path: Path, read: _BookRead) -> Path | None:
    """Return where the library lies, None without one; one outside the workbook's folder is a finding."""
    name = read.records["assignment"][0].library
    if not isinstance(name, str):
        return None
    place = inside(path.parent, name)
    if place is None:
        sentence = f"{name} lies outside the folder of {path.name}. Put a copy beside it, and name that."
        read.findings.append(finding("FIL-13", Place("Assignment", 0, "library"), found=name, sentence=sentence))
        return None
    return path.parent / place.relative_to(path.parent.resolve())


def _read_library(path: Path, read: _BookRead) -> Layout | None:
    """Read the library at `path` into what was read of the job; an unusable one is a finding."""
    place = Place("Assignment", 0, "library")
    try:
        with Book(path) as book:
            other = _read_book(book, library=True, typing=read.typing)
    except UnusableFile as error:
        read.findings.append(finding("FIL-13", place, found=path.name, sentence=error.sentence))
        return None
    moved = {
        name: [replace(record, row=record.row + LIBRARY_ROWS) for record in records]
        for name, records in other.records.items()
    }
    read.findings += join_library(read.records, moved)
    for sheet, ids in other.example_ids.items():
        read.example_ids.setdefault(sheet, set()).update(ids)
    kept = {(name, record.row) for name, records in read.records.items() for record in records}
    by_sheet = {sheet.name: name for name, sheet in SHEETS.items()}
    for one in other.findings:
        place = replace(one.place, row=one.place.row + LIBRARY_ROWS)
        if not one.place.column or (by_sheet.get(place.sheet, ""), place.row) in kept:
            read.findings.append(replace(one, place=place))
    return Layout(path.name, other.sheets)
