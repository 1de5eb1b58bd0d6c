"""Brings every comparison of an opinion to the subject, step by step (method rule R0)."""

from collections.abc import Mapping
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.ledger import Ledger
from appraise.model.missing import BLANK, given
from appraise.records.declare import place_of
from appraise.records.market import COMPARISONS, SALES, Comparison
from appraise.valuing.inputs import Inputs
from appraise.valuing.model_period import period_percent, subject_share
from appraise.valuing.result import ComparisonResult
from appraise.valuing.steps.combine import after_percents
from appraise.valuing.steps.condition import condition_percent, subject_condition
from appraise.valuing.steps.currency import converted
from appraise.valuing.steps.findings import line_findings
from appraise.valuing.steps.line import NOT_GIVEN, Line
from appraise.valuing.steps.lump_sums import adjusted_price
from appraise.valuing.steps.market_level import at_market_level
from appraise.valuing.steps.originality import originality_percent, subject_originality
from appraise.valuing.steps.price_basis import price_basis
from appraise.valuing.steps.time import Timeline, time_adjusted, timeline
from appraise.valuing.working import Working

#: Scopes beside the lines of an opinion; a line of such a name is called by its row.
RESERVED = frozenset({"subject", "without_later", "without_level", "first_month", "last_month"})


@frozen
class Subject:
    """What is the same for every comparison of an opinion.

    condition, share  None where the step does not apply
    """

    work: Working
    time: Timeline
    condition: Outcome | None
    originality: Outcome
    share: Outcome | None

    @property
    def figures(self) -> Mapping[str, Outcome]:
        """Outcomes about the item itself, by name."""
        return self.work.figures


@frozen
class Compared:
    """The subject and its comparisons.

    subject  None on the short route, which compares nothing
    top      working of the opinion itself
    """

    subject: Subject | None
    top: Working
    lines: tuple[ComparisonResult, ...]


def compare(inputs: Inputs, ledger: Ledger, *, object_steps: bool = True) -> Compared:
    """Return the comparisons brought to the subject.

    object_steps  False: only price basis, currency, market level and time (the relative route); the price after them
                  is the adjusted price
    """
    top = Working(ledger, NOT_GIVEN, inputs.item_id)
    subject = _subject(inputs, ledger, top, object_steps=object_steps)
    lines = []
    names: set[str] = set()
    for comparison in inputs.comparisons:
        name = _name(comparison, names)
        names.add(name)
        lines.append(_result(inputs, ledger, subject, comparison, name, object_steps=object_steps))
    return Compared(subject, top, tuple(lines))


def _subject(inputs: Inputs, ledger: Ledger, top: Working, *, object_steps: bool) -> Subject:
    work = Working(ledger.under("subject"), NOT_GIVEN, inputs.item_id)
    time = timeline(inputs, top)
    if not object_steps:
        return Subject(work, time, None, work.note("originality", "not compared by figures"), None)
    return Subject(
        work, time, subject_condition(inputs, work), subject_originality(inputs, work), subject_share(inputs, work)
    )


def _name(comparison: Comparison, taken: set[str]) -> str:
    """Return the line's id, or its row where the id is blank, used twice or cannot stand in the id of a figure."""
    name = comparison.id if given(comparison.id) else ""
    if not name or "." in name or name in RESERVED or name in taken:
        return f"row{comparison.row}"
    return name


def _result(
    inputs: Inputs, ledger: Ledger, subject: Subject, comparison: Comparison, name: str, *, object_steps: bool
) -> ComparisonResult:
    sale = inputs.sales.get(comparison.sale) if given(comparison.sale) else None
    if sale is None:
        place = place_of(COMPARISONS, comparison, "sale")
        found = comparison.sale if given(comparison.sale) else ""
        reason = finding("CMP-20", place, inputs.item_id, name, found=found)
        return ComparisonResult(comparison, None, {}, NoFigure((reason,)), False, (reason,), name)
    line = Line(name, inputs, comparison, sale, Working(ledger.under(name), NOT_GIVEN, inputs.item_id, name))
    weight = _weight(line)
    price = brought(line, subject, object_steps=object_steps)
    used = isinstance(price, Figure) and isinstance(weight, Figure) and weight.number > 0
    findings = line_findings(line, subject.time)
    if isinstance(price, NoFigure):
        line.work.note("refused", _codes(price.because))
    return ComparisonResult(comparison, sale, line.work.figures, price, used, findings, name)


def brought(line: Line, subject: Subject, *, object_steps: bool) -> Outcome:
    """Return the price of a line after all its steps (figure `adjusted`)."""
    price = converted(line, price_basis(line))
    price = at_market_level(line, price)
    price = _above_zero(line, time_adjusted(line, price, subject.time))
    if not object_steps:
        return line.work.keep("adjusted", price)
    steps = (
        condition_percent(line, subject.condition),
        originality_percent(line, subject.originality),
        period_percent(line, subject.share),
        *(line.typed_percent(key, f"pct_{key}") for key in _typed_percents(line)),
    )
    percents = [percent for percent in steps if percent is not None]
    return adjusted_price(line, price, after_percents(line, price, percents), percents)


def _above_zero(line: Line, price: Outcome) -> Outcome:
    """Return the price; one that conversion or level has rounded to nothing is refused as a price of zero is."""
    if isinstance(price, Figure) and price.number <= 0:
        return line.work.refuse("adjusted", "CMP-22", place_of(SALES, line.sale, "price"), found=str(price.number))
    return price


def _typed_percents(line: Line) -> list[str]:
    """Return the columns with a percent of their own that are not blank; one stated unknown makes no figure."""
    return [key for key in ("configuration", "provenance", "other") if getattr(line.comparison, key) is not BLANK]


def _weight(line: Line) -> Outcome:
    weight = line.comparison.weight
    if given(weight) and weight < 0:
        place = place_of(COMPARISONS, line.comparison, "weight")
        return line.work.refuse("weight", "CMP-40", place, found=str(weight))
    return line.work.cell(COMPARISONS, line.comparison, "weight")


def _codes(reasons: tuple[Finding, ...]) -> str:
    return ", ".join(dict.fromkeys(one.code for one in reasons))


def weight_of(result: ComparisonResult) -> Decimal:
    """Return the weight typed, 0 where none is given."""
    return result.comparison.weight if given(result.comparison.weight) else Decimal(0)
