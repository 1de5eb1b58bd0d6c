"""One line of a schedule revalued for the year (method rule R21).

Rolled from the value before rounding, over the whole time since the line's own value date; what was rolled two years
running, or not seen for three, is said. A line whose market or type of value changed is never called growth.
"""

from collections.abc import Mapping
from dataclasses import field
from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.kinds import SHOWN_PERCENT, money, typed_money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given, value_or
from appraise.model.operations import DIFFERENCE, PERCENT_SHARE, PLUS_PERCENT, PRODUCT
from appraise.model.place import Place
from appraise.records.declare import place_of
from appraise.records.vocabulary import Treatment
from appraise.records.yearly import TREATMENTS, LineTreatment, YearlyTerms
from appraise.valuing.days import add_months
from appraise.valuing.exchange import Exchange, in_report_currency
from appraise.valuing.final import rounded_by_scale
from appraise.valuing.lookup.indexes import Indexes
from appraise.valuing.operations import CARRIED
from appraise.valuing.roll import RollCodes, roll_factor
from appraise.valuing.tables import JobTables
from appraise.valuing.working import Working, number_text

#: Our defaults, no source; the sheet Yearly terms may say otherwise.
INSPECTION_MONTHS = 36
ROLLED_YEARS = 2
ROLLS = (Treatment.INDEX, Treatment.PERCENT)
CODES = RollCodes("YRL-07", "YRL-08", "YRL-08")
#: The flags by finding code, in the order in which they are listed.
FLAGS = {
    "YRL-02": "re-inspect",
    "YRL-03": "fresh comparables",
    "YRL-04": "held",
    "YRL-05": "index carried",
    "YRL-06": "rolled from rounded",
}


@frozen
class Year:
    """What all lines of one yearly revaluation share.

    effective  the new effective date, with the cell it was typed in
    currency   of the new schedule
    """

    effective: date
    place: Place
    currency: str
    terms: YearlyTerms
    tables: JobTables

    @property
    def inspection_months(self) -> int:
        """Months from one inspection to the next."""
        return int(value_or(self.terms.inspection_months, Decimal(INSPECTION_MONTHS)))

    @property
    def indexes(self) -> Indexes:
        """The appraiser's indexes."""
        return self.tables.indexes


@frozen
class RevaluedLine:
    """One line, last year and this.

    prior, prior_rounded  in the new currency; None for an added line
    new, new_rounded      None for a removed line
    change                new rounded less prior rounded; None unless the line stands in both years
    flags                 the five flags of the rule, in its order
    like_for_like         same market and type of value as before
    """

    line: LineTreatment
    treatment: Treatment | None
    prior: Outcome | None
    prior_rounded: Outcome | None
    new: Outcome | None
    new_rounded: Outcome | None
    change: Outcome | None
    flags: tuple[str, ...]
    like_for_like: bool
    findings: tuple[Finding, ...]
    figures: Mapping[str, Outcome] = field(default_factory=dict)


def revalued(ledger: Ledger, line: LineTreatment, year: Year, *, fresh: Outcome | None = None) -> RevaluedLine:
    """Return one line revalued.

    fresh  the value before rounding concluded in the workbook, for fresh comparables and added lines where none is
           typed; in the report's currency

    Figures: prior, prior_rounded, factor or percent, new, new_rounded, change, change_pct, flags.
    """
    work = Working(ledger, "YRL-01", line.item)
    treatment = line.treatment if given(line.treatment) else None
    added = treatment is Treatment.ADDED
    prior, prior_rounded = (None, None) if added else _prior(work, line, year)
    new = _new(work, line, year, treatment, prior, fresh)
    same = _same_basis(work, line, treatment)
    _inspection(work, line, year, treatment)
    _rolling(work, line, year, treatment, prior_rounded)
    new_rounded = None if new is None else rounded_by_scale(work, "new_rounded", new, new, year.currency)
    change = _change(work, line, prior_rounded, new_rounded, year.currency)
    codes = {one.code for one in work.findings}
    flags = tuple(text for code, text in FLAGS.items() if code in codes)
    work.note("flags", ", ".join(flags) or "none")
    done = work.done()
    return RevaluedLine(
        line, treatment, prior, prior_rounded, new, new_rounded, change, flags, same, done.findings, done.figures
    )


def _prior(work: Working, line: LineTreatment, year: Year) -> tuple[Outcome, Outcome]:
    """Return the prior value before and after rounding, in the new currency.

    A schedule that changes its currency is converted at the rate of each line's own value date, before it is rolled:
    what is left of the change is the market's, not the exchange's.
    """
    foreign = line.prior_currency not in (Missing.BLANK, year.currency)
    exchange = Exchange(
        year.tables.rates, year.currency, line.prior_day, place_of(TREATMENTS, line, "prior_day"), "YRL-09", "YRL-10"
    )
    outcomes: list[Outcome | None] = []
    for key, name in (("prior_value", "prior"), ("prior_rounded", "prior_rounded")):
        if key == "prior_value" and line.prior_value is Missing.BLANK:
            outcomes.append(None)
            continue
        typed = work.cell(TREATMENTS, line, key, name=f"{name}_foreign" if foreign else name)
        if not given(line.prior_currency) and foreign:
            typed = work.keep(name, work.lacking(TREATMENTS, line, "prior_currency"))
        elif foreign:
            typed = in_report_currency(work, name, typed, currency=line.prior_currency, exchange=exchange)
        outcomes.append(typed)
    value, rounded = outcomes
    assert rounded is not None
    return (rounded if value is None else value), rounded


def _new(
    work: Working,
    line: LineTreatment,
    year: Year,
    treatment: Treatment | None,
    prior: Outcome | None,
    fresh: Outcome | None,
) -> Outcome | None:
    """Return the new value before rounding; None for a removed line."""
    cash = money(year.currency)
    if treatment is None:
        return work.keep("new", work.lacking(TREATMENTS, line, "treatment"))
    if treatment is Treatment.REMOVED:
        work.note("new", "removed")
        if not given(line.removed_on):
            work.find("YRL-11", place_of(TREATMENTS, line, "removed_on"))
        return None
    if treatment in (Treatment.FRESH, Treatment.ADDED):
        return work.figure("new", cash, CARRIED, _fresh(work, line, year, fresh))
    if prior is None:
        raise ValueError("a line that is not added has a prior value or says why not")
    if treatment is Treatment.HOLD:
        work.find("YRL-04", place_of(TREATMENTS, line, "treatment"), reason=value_or(line.reason, ""))
        return work.figure("new", cash, CARRIED, prior)
    if treatment is Treatment.PERCENT:
        percent = work.cell(TREATMENTS, line, "percent")
        return work.figure("new", cash, PLUS_PERCENT, prior, percent)
    return work.figure("new", cash, PRODUCT, prior, _factor(work, line, year))


def _factor(work: Working, line: LineTreatment, year: Year) -> Outcome:
    """Return the index factor since the line's own value date; a line held last year has an older one."""
    if not given(line.prior_day):
        return work.keep("factor", work.lacking(TREATMENTS, line, "prior_day"))
    if not given(line.index):
        return work.keep("factor", work.lacking(TREATMENTS, line, "index"))
    place = place_of(TREATMENTS, line, "index")
    rolled = roll_factor(
        work, year.indexes, line.index, since=line.prior_day, to=year.effective, place=place, codes=CODES
    )
    if rolled.carried:
        work.find("YRL-05", place, found=line.index)
    index = year.indexes.get(line.index)
    market = line.market if given(line.market) else line.prior_market
    if index is not None and given(market):
        levels = dict.fromkeys(point.market for point in index.points if given(point.market))
        if levels and market not in levels:
            work.find("YRL-12", place, found=line.index, levels=", ".join(levels), market=market)
    return rolled.factor


def _fresh(work: Working, line: LineTreatment, year: Year, fresh: Outcome | None) -> Outcome:
    """Return the value of fresh comparables or of an added line.

    Made wholly in a foreign currency it is converted at the rate of the new effective date: the one exception to the
    rule that a price is converted at the rate of its own day.
    """
    foreign = line.new_currency not in (Missing.BLANK, year.currency)
    if line.new_value is Missing.BLANK and fresh is not None:
        typed = fresh
    else:
        typed = work.cell(TREATMENTS, line, "new_value", name="new_foreign" if foreign else "new_typed")
    if not foreign:
        return typed
    if not given(line.new_currency):
        return work.keep("new_converted", work.lacking(TREATMENTS, line, "new_currency"))
    exchange = Exchange(year.tables.rates, year.currency, year.effective, year.place, "YRL-09", "YRL-10")
    return in_report_currency(work, "new_converted", typed, currency=line.new_currency, exchange=exchange)


def _inspection(work: Working, line: LineTreatment, year: Year, treatment: Treatment | None) -> None:
    """Flag a line never inspected, or for which the effective date lies later than last inspection plus interval."""
    if treatment is Treatment.REMOVED:
        return
    due = due_day(line, year)
    if due is None or year.effective > due:
        last = line.inspected.isoformat() if given(line.inspected) else ""
        work.find("YRL-02", place_of(TREATMENTS, line, "inspected"), found=last, months=year.inspection_months)


def due_day(line: LineTreatment, year: Year) -> date | None:
    """Return the last day on which a line is not yet due for inspection; None if it was never inspected."""
    return add_months(line.inspected, year.inspection_months) if given(line.inspected) else None


def _rolling(
    work: Working,
    line: LineTreatment,
    year: Year,
    treatment: Treatment | None,
    prior_rounded: Outcome | None,
) -> None:
    """Say what speaks against rolling this line once more."""
    if treatment not in ROLLS:
        return
    place = place_of(TREATMENTS, line, "treatment")
    years = value_or(line.rolled_years, Decimal(0))
    if years >= value_or(year.terms.rolled_years, Decimal(ROLLED_YEARS)):
        work.find("YRL-03", place_of(TREATMENTS, line, "rolled_years"), found=f"{years:f}")
    if line.prior_value is Missing.BLANK and given(line.prior_rounded):
        work.find("YRL-06", place_of(TREATMENTS, line, "prior_value"), found=f"{line.prior_rounded:f}")
    if line.owner_reply is not True:
        work.find("YRL-13", place_of(TREATMENTS, line, "owner_reply"), found="no" if line.owner_reply is False else "")
    limit = year.terms.roll_limit
    if given(limit) and isinstance(prior_rounded, Figure) and prior_rounded.number > limit:
        work.find("YRL-14", place, found=number_text(prior_rounded), limit=f"{limit:f}")


def _same_basis(work: Working, line: LineTreatment, treatment: Treatment | None) -> bool:
    """Say whether market and type of value are those of the prior value; if not, say so loudly."""
    if treatment in (Treatment.ADDED, Treatment.REMOVED):
        return True
    same = True
    pairs = (
        ("prior_value_type", line.prior_value_type, line.value_type, "YRL-15"),
        ("prior_market", line.prior_market, line.market, "YRL-16"),
    )
    for key, before, now, code in pairs:
        if given(before) and given(now) and before != now:
            same = False
            work.find(code, place_of(TREATMENTS, line, key), found=str(before), now=now)
            if treatment in (*ROLLS, Treatment.HOLD):
                place = place_of(TREATMENTS, line, "treatment")
                work.find("YRL-17", place, found=str(line.treatment), before=before, now=now)
    return same


def _change(
    work: Working, line: LineTreatment, prior_rounded: Outcome | None, new_rounded: Outcome | None, currency: str
) -> Outcome | None:
    if new_rounded is None:
        return None
    if prior_rounded is None:
        work.note("change", "added")
        return None
    change = work.figure("change", typed_money(currency), DIFFERENCE, new_rounded, prior_rounded)
    if isinstance(prior_rounded, Figure) and prior_rounded.number == 0:
        work.note("change_pct", "n/a", place_of(TREATMENTS, line, "prior_rounded"))
    else:
        work.figure("change_pct", SHOWN_PERCENT, PERCENT_SHARE, change, prior_rounded)
    return change


def year_of(
    terms: YearlyTerms, tables: JobTables, *, effective: date | Missing, place: Place, currency: str
) -> Year | NoFigure:
    """Return what the lines share, or why a revaluation cannot be made: no effective date."""
    if given(effective):
        return Year(effective, place, currency, terms, tables)
    work = Working(Ledger("schedule"), "YRL-01")
    return work.refuse("effective", "YRL-18", place)
