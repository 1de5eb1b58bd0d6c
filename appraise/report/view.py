"""The report as finished texts, ready for a template: nothing here is computed, looked up or worded any more.

Templates print these objects and know nothing else. A field is a text, a picture, a chart or a tuple of such;
an empty tuple or an empty text means that there is nothing to print. The report is one object for everything that
stands once, and an iterator of `ItemView` for the items, so that memory does not grow with their number.
"""

from collections.abc import Iterator

from appraise.model.frozen import frozen
from appraise.report.engine.views import Edges, HistoryChart, Properties, SectionUse
from appraise.report.item_view import ItemView
from appraise.report.view_parts import Line, Passage, Table


@frozen
class Clause:
    """A heading with its paragraphs; `number` is printed before it where the list is numbered."""

    heading: str
    paragraphs: tuple[str, ...]
    number: str = ""


@frozen
class Signature:
    """A place for signing: whose, in which role, and the labels of the two empty lines."""

    name: str
    role: str
    sign_label: str
    date_label: str


@frozen
class Cover:
    kicker: str
    title: str
    subtitle: str
    lines: tuple[Line, ...]
    draft_note: str
    caution: str


@frozen
class Letter:
    heading: str
    sender: tuple[str, ...]
    day: str
    addressee: tuple[str, ...]
    subject: str
    salutation: str
    opening: tuple[str, ...]
    totals: Table
    paragraphs: tuple[str, ...]
    closing: str
    signatures: tuple[Signature, ...]


@frozen
class Summary:
    """The summary table: one row an item, the totals at its end."""

    heading: str
    intro: str
    table: Table
    note: str


@frozen
class ValueMeaning:
    """What one type of value means in this report.

    statement  our summary of the definition; `source` says where it stands
    quotation  the official wording from the appraiser's library, "" if none
    """

    heading: str
    statement: str
    source: str
    quotation: str
    quotation_source: str
    lines: tuple[Line, ...]
    approaches: Table


@frozen
class AssignmentView:
    heading: str
    intro: str
    lines: tuple[Line, ...]
    values_heading: str
    value_meanings: tuple[ValueMeaning, ...]
    caution: tuple[str, ...]


@frozen
class AssumptionsView:
    heading: str
    intro: str
    extraordinary: Clause
    extraordinary_table: Table | None
    hypothetical: Clause
    hypothetical_table: Table | None


@frozen
class MethodClause:
    """A heading with its paragraphs and the tables that belong to it."""

    heading: str
    paragraphs: tuple[str, ...]
    tables: tuple[Table, ...] = ()


@frozen
class ScopeView:
    """Scope of work and method statement; `tables` are the appraiser's own tables that were used."""

    heading: str
    clauses: tuple[MethodClause, ...]
    tables_heading: str
    tables_intro: str
    tables: tuple[Table, ...]


@frozen
class MarketNoteView:
    heading: str
    lines: tuple[Line, ...]


@frozen
class MarketView:
    heading: str
    intro: str
    notes: tuple[MarketNoteView, ...]


@frozen
class ScheduleView:
    """The schedule: one table a location, then totals, then the tables of totals."""

    heading: str
    intro: str
    groups: tuple[Table, ...]
    totals: Table
    locations: Table | None
    facts: tuple[Line, ...]
    decades: Table | None
    notes: tuple[str, ...]


@frozen
class YearlyPart:
    """The schedule revalued under one type of value: what changed, line by line, by family and by cause.

    printed  last year's totals as they were printed, where the currency changed
    history  totals by year from the records of earlier reports
    """

    heading: str
    intro: tuple[str, ...]
    changes: Table
    notes: tuple[str, ...]
    bridge: Table
    printed: Table | None
    families: Table | None
    causes: Table
    history: Table | None
    total_chart: HistoryChart | None
    family_charts: tuple[HistoryChart, ...]


@frozen
class YearlyView:
    """What only a yearly reappraisal has: the revaluation, what is due for inspection, how the limits stand."""

    heading: str
    intro: tuple[str, ...]
    parts: tuple[YearlyPart, ...]
    due_heading: str
    due_intro: tuple[str, ...]
    due: Table | None
    limits_heading: str
    limits_intro: tuple[str, ...]
    limits: Table | None
    limits_notes: tuple[str, ...]


@frozen
class CertificationView:
    heading: str
    intro: str
    statements: tuple[str, ...]
    inspection: Table
    declaration: str
    declaration_source: str
    unsigned_note: str
    signatures: tuple[Signature, ...]


@frozen
class ClausesView:
    heading: str
    intro: str
    clauses: tuple[Clause, ...]


@frozen
class GlossaryView:
    heading: str
    intro: str
    lines: tuple[Line, ...]


@frozen
class SourcesView:
    heading: str
    intro: str
    entries: tuple[str, ...]


@frozen
class Block:
    """A part of a chapter: its heading ("" where there is none), words, lines, tables, and a note set off below.

    key  anchor of the item's section the part is about, "" if none
    """

    heading: str
    paragraphs: tuple[str, ...] = ()
    lines: tuple[Line, ...] = ()
    tables: tuple[Table, ...] = ()
    notice: str = ""
    quotation: str = ""
    quotation_source: str = ""
    key: str = ""


@frozen
class Chapter:
    """A section that only some uses have; it stands in the report only if it has blocks."""

    heading: str
    intro: tuple[str, ...]
    blocks: tuple[Block, ...]
    signatures: tuple[Signature, ...] = ()


@frozen
class ReportView:
    """Everything that stands once in the report.

    draft  a draft carries the mark on every page and the open points at the front
    """

    title: str
    draft: bool
    table_label: str
    figure_label: str
    cover: Cover
    letter: Letter
    contents_heading: str
    open_points: Passage
    summary: Summary
    assignment: AssignmentView
    assumptions: AssumptionsView
    scope: ScopeView
    market: MarketView
    schedule: ScheduleView
    yearly: YearlyView | None
    transfer: Chapter
    return_figures: Chapter
    penalties: Chapter
    alternate: Chapter
    claim: Chapter
    policy: Chapter
    division: Chapter
    proceeds: Chapter
    liquidation: Chapter
    derived: Chapter
    expert: Chapter
    answered: Passage
    certification: CertificationView
    limiting: ClausesView
    qualifications: ClausesView
    glossary: GlossaryView
    sources: SourcesView
    elements: Passage


@frozen
class Composed:
    """A whole report, ready for the engine.

    sections  the section templates in order; `item` is repeated for each item
    items     yields the item views, once
    """

    properties: Properties
    edges: Edges
    sections: tuple[SectionUse, ...]
    report: ReportView
    items: Iterator[ItemView]
