"""Findings on one comparison (method rule R22), in the rule's order."""

from decimal import Decimal

from appraise.model.figure import Figure, NoFigure
from appraise.model.finding import Finding, finding
from appraise.model.missing import given
from appraise.model.place import Place
from appraise.records.declare import place_of
from appraise.records.job import SHEETS
from appraise.records.market import COMPARISONS, SALES
from appraise.records.vocabulary import PriceKind, ValueType
from appraise.valuing.days import add_months
from appraise.valuing.inputs import each_once
from appraise.valuing.steps.line import Line
from appraise.valuing.steps.time import Timeline, sale_reading

#: Short names of the findings of rule R22, in its order.
SHORT_NAMES = {
    "CMP-01": "after date",
    "CMP-02": "old",
    "CMP-03": "asking",
    "CMP-04": "earlier rate",
    "CMP-05": "index carried",
    "CMP-06": "refused",
    "CMP-07": "gross",
    "CMP-08": "net",
    "VAL-11": "few",
    "VAL-12": "share",
    "VAL-13": "spread",
}


def line_findings(line: Line, time: Timeline) -> tuple[Finding, ...]:
    """Return what is to be said of a comparison, weight-zero lines included, each once."""
    reasons = (
        one for outcome in line.work.figures.values() if isinstance(outcome, NoFigure) for one in outcome.because
    )
    about_price = [*_of_date(line), *_of_asking(line), *_of_rate(line), *_of_index(line, time)]
    return each_once([*about_price, *reasons, *_refused(line), *_of_size(line), *line.work.findings])


def _of_date(line: Line) -> list[Finding]:
    sale, effective = line.sale, line.effective
    if not (given(sale.day) and given(effective)):
        return []
    place = place_of(SALES, sale, "day")
    found_day, said = sale.day.isoformat(), {"sale": str(sale.id), "effective": effective.isoformat()}
    if sale.day > effective:
        found = [finding("CMP-01", place, *line.subjects, found=found_day, **said)]
        if line.weight > 0 and not given(line.comparison.use_reason):
            reason = place_of(COMPARISONS, line.comparison, "use_reason")
            found.append(finding("CMP-09", reason, *line.subjects, found=found_day, **said))
        return found
    if add_months(sale.day, line.inputs.tables.limits.old_months) < effective:
        months = line.inputs.tables.limits.old_months
        return [finding("CMP-02", place, *line.subjects, found=found_day, months=months, **said)]
    return []


def _of_asking(line: Line) -> list[Finding]:
    if line.sale.kind is not PriceKind.ASKING:
        return []
    found = [finding("CMP-03", place_of(SALES, line.sale, "kind"), *line.subjects, found="asking", sale=line.sale.id)]
    fair_market = line.inputs.value_type is ValueType.FAIR_MARKET
    if fair_market and line.weight > 0 and not given(line.comparison.use_reason):
        place = place_of(COMPARISONS, line.comparison, "use_reason")
        found.append(finding("CMP-10", place, *line.subjects, sale=line.sale.id))
    return found


def _of_rate(line: Line) -> list[Finding]:
    noted = line.work.figures.get("rate_date")
    if not isinstance(noted, Figure) or noted.value == line.sale.day:
        return []
    place = place_of(SALES, line.sale, "day")
    return [finding("CMP-04", place, *line.subjects, found=str(line.sale.day), rate_day=noted.value)]


def _of_index(line: Line, time: Timeline) -> list[Finding]:
    reading = sale_reading(line, time)
    if reading is None or not reading.carried or time.index is None:
        return []
    place = place_of(SALES, line.sale, "day")
    return [finding("CMP-05", place, *line.subjects, found=str(line.sale.day), index=time.index.id)]


def _refused(line: Line) -> list[Finding]:
    adjusted = line.work.figures.get("adjusted")
    if not isinstance(adjusted, NoFigure):
        return []
    place = place_of(COMPARISONS, line.comparison, "weight")
    reasons = dict.fromkeys(_cell_in_words(one.place) for one in adjusted.because)
    said = {"line": line.name, "reasons": "; ".join(reasons)}
    return [finding("CMP-06", place, *line.subjects, found=str(line.weight), **said)]


def _cell_in_words(place: Place) -> str:
    """Return a cell by heading, sheet and row: 'Price' on Sales, row 6. A form has no rows, a whole row no heading."""
    columns = (one for sheet in SHEETS.values() if sheet.name == place.sheet for one in sheet.columns)
    headings = [f"'{one.heading}'" for one in columns if one.key == place.column]
    return " on ".join([*headings, place.sheet]) + (f", row {place.row}" if place.row else "")


def _of_size(line: Line) -> list[Finding]:
    limits = line.inputs.tables.limits
    found = []
    for code, name, limit in (("CMP-07", "gross_pct", limits.gross), ("CMP-08", "net_pct", limits.net)):
        percent = line.work.figures.get(name)
        if isinstance(percent, Figure) and abs(percent.number) > limit:
            place = place_of(COMPARISONS, line.comparison, "")
            found.append(finding(code, place, *line.subjects, found=_percent(percent.number), limit=_percent(limit)))
    return found


def _percent(value: Decimal) -> str:
    return f"{value:.2f}"
