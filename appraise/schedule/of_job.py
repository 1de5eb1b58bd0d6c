"""The yearly revaluation of a whole job: every line of Treatments, the totals, and what is to be said of them."""

from collections.abc import Mapping

from appraise.model.figure import NoFigure, Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.ledger import Ledger
from appraise.model.missing import given
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.vocabulary import ValueType
from appraise.schedule.adequacy import Adequacy, adequacy
from appraise.schedule.revaluation import RevaluedLine, Year, revalued, year_of
from appraise.schedule.totals import causes, groups, prior_totals_as_printed, schedule_findings, totals
from appraise.valuing import JobRows
from appraise.valuing.codes import CODES
from appraise.valuing.inputs import each_once
from appraise.valuing.working import Worked, Working, names_of


@frozen
class Revaluation:
    """A schedule revalued under one type of value.

    families  totals by family, in the order first met
    adequacy  how the policy's limits stand; only for the first type of value, on whose basis the schedule is insured
    printed  last year's totals in the currencies they were printed in; None where the currency did not change
    """

    value_type: ValueType
    year: Year
    lines: tuple[RevaluedLine, ...]
    totals: Worked
    causes: Worked
    printed: Worked | None
    families: Mapping[str, Worked]
    adequacy: Adequacy | None
    findings: tuple[Finding, ...]


NOTHING_FRESH: Mapping[tuple[str, ValueType], Outcome] = {}
NO_LINES: Mapping[int, RevaluedLine] = {}


def year_of_job(rows: JobRows) -> Year | NoFigure | None:
    """Return what the lines of a job share, or why it cannot be told; None where no line is typed."""
    job, currency = rows.job, rows.tables.currency
    if not job.treatments:
        return None
    if not given(currency):
        return Working(Ledger("schedule"), "YRL-01").lacking(ASSIGNMENT, job.assignment, "currency")
    return year_of(
        job.yearly_terms,
        rows.tables,
        effective=job.assignment.effective_date,
        place=place_of(ASSIGNMENT, job.assignment, "effective_date"),
        currency=currency,
    )


def revaluations(
    ledger: Ledger,
    rows: JobRows,
    fresh: Mapping[tuple[str, ValueType], Outcome] = NOTHING_FRESH,
    *,
    made: Mapping[int, RevaluedLine] = NO_LINES,
) -> tuple[tuple[Revaluation, ...], tuple[Finding, ...]]:
    """Return one revaluation for each type of value on Treatments, and what keeps one from being made.

    fresh  values before rounding concluded in this workbook
    made   lines revalued already, with their items, by row on Treatments
    Types of value are never added up together.
    """
    year = year_of_job(rows)
    if year is None or isinstance(year, NoFigure):
        return (), () if year is None else year.because
    types = dict.fromkeys(one.value_type for one in rows.job.treatments if given(one.value_type))
    done = tuple(
        _one(ledger.under(CODES[one]), rows, year, one, fresh, made, one is next(iter(types))) for one in types
    )
    return done, each_once([found for one in done for found in one.findings])


def _one(
    ledger: Ledger,
    rows: JobRows,
    year: Year,
    value_type: ValueType,
    fresh: Mapping[tuple[str, ValueType], Outcome],
    made: Mapping[int, RevaluedLine],
    insured: bool,
) -> Revaluation:
    typed = [one for one in rows.job.treatments if one.value_type is value_type]
    lines = []
    for line, name in zip(typed, names_of(typed, "item"), strict=True):
        if line.row in made:
            lines.append(made[line.row])
            continue
        value = fresh.get((line.item, value_type)) if given(line.item) else None
        lines.append(revalued(ledger.under(name), line, year, fresh=value))
    currency = year.currency
    total = totals(ledger, lines, currency=currency)
    own = schedule_findings(lines, year, rows.job.renamings)
    changed = any(one.code == "YRL-34" for one in own)
    printed = prior_totals_as_printed(ledger.under("printed"), lines, currency=currency) if changed else None
    found = [finding for line in lines for finding in line.findings]
    limits = adequacy(ledger.under("limits"), rows.job.policy, lines, total, currency=currency) if insured else None
    found += [] if limits is None else limits.findings
    families = {one.id: str(one.family) for one in rows.job.items if given(one.id) and given(one.family)}
    return Revaluation(
        value_type=value_type,
        year=year,
        lines=tuple(lines),
        totals=total,
        causes=causes(ledger.under("causes"), lines, currency=currency),
        printed=printed,
        families=groups(ledger, lines, lambda one: families.get(str(one.line.item), ""), currency=currency),
        adequacy=limits,
        findings=each_once([*found, *total.findings, *own]),
    )
