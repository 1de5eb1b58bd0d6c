"""From rows of evidence to statements: one row, one statement, or findings that say why not."""

from collections.abc import Iterable, Mapping

from appraise.dating.dated import Lag, with_role
from appraise.dating.kinds import KindReader, kind_readers
from appraise.dating.line import Found, Line, Tables, text_of
from appraise.dating.lookup import lowered
from appraise.dating.result import DateWindow, Statement
from appraise.dating.settings import Settings
from appraise.dating.window import date_window
from appraise.model.finding import Finding
from appraise.model.missing import given, value_or
from appraise.records.dating import Evidence
from appraise.records.vocabulary import EvidenceKind, EvidenceStatus


def read_statements(
    rows: Iterable[Evidence], tables: Tables, settings: Settings
) -> tuple[tuple[Statement, ...], tuple[Finding, ...]]:
    """Return a statement for each row that can be read, in the order typed, and the findings of all rows.

    settings  conventions of the job, with the month of the examination

    A blank status counts as unverified and a blank strength as 1: a blank never reads as good. That they are blank,
    or that an id stands twice, is found elsewhere.
    """
    statements: list[Statement] = []
    findings: list[Finding] = []
    ids: set[str] = set()
    for row in rows:
        statement, found = _read(Line(row, settings, tables), ids)
        findings += found
        if statement is not None:
            ids.add(statement.id)
            statements.append(statement)
    return tuple(statements), tuple(findings)


def rows_by_item(rows: Iterable[Evidence]) -> Mapping[str, tuple[Evidence, ...]]:
    """Return the rows of evidence of each item, in the order typed; rows without an item stand under ""."""
    found: dict[str, list[Evidence]] = {}
    for row in rows:
        found.setdefault(text_of(row.item), []).append(row)
    return {item: tuple(own) for item, own in found.items()}


def date_item(item: str, rows: Iterable[Evidence], tables: Tables, settings: Settings) -> DateWindow:
    """Return the window of one item from its rows of evidence (see `rows_by_item`)."""
    statements, findings = read_statements(rows, tables, settings)
    return date_window(item, statements, settings.examined, findings)


def _read(line: Line, ids: set[str]) -> tuple[Statement | None, tuple[Finding, ...]]:
    row = line.evidence
    kind = value_or(row.kind, EvidenceKind.STYLE)
    reader = kind_readers()[kind]
    found = reader.read(line)
    lag, lag_findings = _lag(line)
    if found.dated is None or lag is None:
        return None, (*found.findings, *lag_findings)
    strength, strength_findings = _strength(line, found)
    statement = _statement(line, reader, found, lag, strength, _identity(line, ids))
    return statement, (*found.findings, *strength_findings)


def _statement(line: Line, reader: KindReader, found: Found, lag: Lag, strength: int, name: str) -> Statement:
    row = line.evidence
    assert found.dated is not None
    role = value_or(row.role, reader.default_role)
    dated = with_role(found.dated, role, lag)
    return Statement(
        id=name,
        part=text_of(row.part),
        say=text_of(row.statement),
        kind=reader.kind,
        source=text_of(row.source) or found.source,
        status=value_or(row.status, EvidenceStatus.UNVERIFIED),
        strength=strength,
        outer=dated.outer,
        inner=dated.inner,
        place=line.place("statement"),
        words=dated.words,
        role=role,
        lag=lag,
        readings=dated.readings,
        fact=found.fact,
        cautions=found.cautions,
        conventions=dated.uses,
        photo=text_of(row.photo),
    )


def _identity(line: Line, ids: set[str]) -> str:
    """Return the row's id; one that is missing or stands twice gets the row number, so that statements stay apart."""
    name = text_of(line.evidence.id)
    if name and name not in ids:
        return name
    return f"{name} (row {line.evidence.row})".strip()


def _lag(line: Line) -> tuple[Lag | None, tuple[Finding, ...]]:
    row = line.evidence
    least = int(row.lag_least) if given(row.lag_least) else 0
    most = int(row.lag_most) if given(row.lag_most) else None
    if most is not None and most < least:
        return None, (line.finding("DAT-12", "lag_most", str(most), least=least),)
    return (least, most), ()


def _strength(line: Line, found: Found) -> tuple[int, tuple[Finding, ...]]:
    """Return the strength that counts: as typed, never above what was looked up allows."""
    row = line.evidence
    allowed = 4 if found.strength is None else min(max(found.strength, 1), 4)
    if not given(row.strength):
        return (1 if found.strength is None else allowed), ()
    typed = int(row.strength)
    if not 1 <= typed <= 4:
        return 1, (line.finding("DAT-15", "strength", str(row.strength)),)
    if typed > allowed:
        return allowed, (lowered(line, typed, allowed, found.fact),)
    return typed, ()
