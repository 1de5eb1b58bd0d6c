"""Step e, originality: what departs from original, of the subject and of the comparison (method rule R10)."""

from decimal import Decimal, InvalidOperation

from appraise.model.figure import NoFigure, Outcome
from appraise.model.kinds import PERCENT, TYPED
from appraise.model.missing import BLANK, given
from appraise.model.operations import PERCENT_ABOVE
from appraise.model.place import Place
from appraise.records.assignment import ASSIGNMENT
from appraise.records.declare import place_of
from appraise.records.items import PARTS
from appraise.records.market import COMPARISONS
from appraise.records.vocabulary import Combine
from appraise.valuing.inputs import Inputs
from appraise.valuing.operations import DEDUCTIONS_ADDED, DEDUCTIONS_MULTIPLIED
from appraise.valuing.steps.line import Line
from appraise.valuing.working import Working

HUNDRED = Decimal(100)


def subject_originality(inputs: Inputs, work: Working) -> Outcome:
    """Return the subject's originality out of 100, from the deductions typed on Parts (figure `originality`)."""
    typed = [(part.deduction, place_of(PARTS, part, "deduction")) for part in inputs.parts if given(part.deduction)]
    for percent, place in typed:
        if not 0 <= percent <= HUNDRED:
            return work.refuse("originality", "VAL-07", place, found=str(percent))
    unreadable = [part for part in inputs.parts if not given(part.deduction) and part.deduction is not BLANK]
    if unreadable:
        return work.keep("originality", work.lacking(PARTS, unreadable[0], "deduction"))
    return _originality(inputs, work, typed)


def originality_percent(line: Line, subject: Outcome) -> Outcome:
    """Return the percent for originality (figures `originality` of the comparison and `pct_orig`)."""
    own = _originality_of_comparison(line)
    if isinstance(own, NoFigure):
        return line.work.keep("pct_orig", own)
    if own.number == 0:
        place = place_of(COMPARISONS, line.comparison, "deductions")
        return line.work.refuse("pct_orig", "CMP-37", place, found=str(line.comparison.deductions))
    return line.work.figure("pct_orig", PERCENT, PERCENT_ABOVE, subject, own)


def _originality_of_comparison(line: Line) -> Outcome:
    text = line.comparison.deductions
    place = place_of(COMPARISONS, line.comparison, "deductions")
    if not given(text):
        if text is not BLANK:
            return line.work.keep("originality", line.work.lacking(COMPARISONS, line.comparison, "deductions"))
        return _originality(line.inputs, line.work, [])
    percents = deductions_of(text)
    if percents is None:
        return line.work.refuse("originality", "CMP-36", place, found=text)
    return _originality(line.inputs, line.work, [(percent, place) for percent in percents])


def deductions_of(text: str) -> list[Decimal] | None:
    """Return percents separated by semicolons; None if one is no percent from 0 to 100.

    >>> deductions_of("50; 10")
    [Decimal('50'), Decimal('10')]
    """
    percents = []
    for word in text.split(";"):
        if not word.strip():
            continue
        try:
            percent = Decimal(word.strip().removesuffix("%").strip())
        except InvalidOperation:
            return None
        if not percent.is_finite() or not 0 <= percent <= HUNDRED:
            return None
        percents.append(percent)
    return percents


def _originality(inputs: Inputs, work: Working, typed: list[tuple[Decimal, Place]]) -> Outcome:
    tables = inputs.tables
    floor_place = place_of(ASSIGNMENT, tables.assignment, "originality_floor")
    floor_value = tables.floor if given(tables.floor) else Decimal(0)
    floor = work.keep("originality_floor", work.ledger.typed("originality_floor", floor_value, floor_place))
    deductions = [
        work.keep(f"deduction_{number}", work.ledger.typed(f"deduction_{number}", percent, place, kind=TYPED))
        for number, (percent, place) in enumerate(typed, 1)
    ]
    operation = DEDUCTIONS_ADDED if tables.deductions is Combine.ADD else DEDUCTIONS_MULTIPLIED
    return work.figure("originality", PERCENT, operation, floor, *deductions)
