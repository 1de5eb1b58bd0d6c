"""From the reconciled prices to the value before rounding: mean, median, or a figure typed with its reason."""

from collections.abc import Iterable, Sequence

from appraise.findings.entries import entry_of
from appraise.model.figure import Figure, NoFigure, Outcome
from appraise.model.finding import Finding, finding
from appraise.model.kinds import SHOWN_PERCENT
from appraise.model.ledger import no_figure
from appraise.model.missing import given
from appraise.model.operations import PERCENT_ABOVE
from appraise.records.assignment import VALUE_TERMS
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.market import COMPARISONS, OPINIONS, Opinion
from appraise.records.vocabulary import Conclusion
from appraise.valuing.comparing import Compared, weight_of
from appraise.valuing.inputs import Inputs
from appraise.valuing.operations import CARRIED
from appraise.valuing.reconcile import Weighted, reconcile
from appraise.valuing.result import ComparisonResult
from appraise.valuing.steps.line import report_money, typed_report_money
from appraise.valuing.working import Working


def conclusion_of(inputs: Inputs) -> Conclusion:
    """Return how the value is concluded: as the opinion says, else the terms; the mean where neither says."""
    opinion, terms = inputs.opinion, inputs.terms
    if opinion is not None and given(opinion.conclusion):
        return opinion.conclusion
    return terms.conclusion if given(terms.conclusion) else Conclusion.MEAN


def statistic(inputs: Inputs) -> str:
    """Return the figure of the reconciliation that is concluded by; the mean where the conclusion is typed."""
    return "median" if conclusion_of(inputs) is Conclusion.MEDIAN else "mean"


def weighted_lines(results: Iterable[ComparisonResult]) -> list[Weighted]:
    """Return the comparisons that are used, as prices with weights."""
    lines = []
    for result in results:
        weight = result.steps.get("weight")
        if result.used and isinstance(result.adjusted, Figure) and isinstance(weight, Figure):
            lines.append(Weighted(result.line, result.adjusted, weight))
    return lines


def concluded(inputs: Inputs, work: Working, results: Sequence[ComparisonResult], name: str = "value") -> Outcome:
    """Return the value before rounding (figure `name`), from all figures of the reconciliation of the results."""
    lines = weighted_lines(results)
    reconcile(work, lines, report_money(inputs))
    if conclusion_of(inputs) is Conclusion.TYPED:
        return work.figure(name, report_money(inputs), CARRIED, typed_value(inputs, work))
    if not lines:
        return work.keep(name, nothing_used(inputs, results))
    if inputs.opinion is None and not given(inputs.terms.conclusion):
        return work.keep(name, work.lacking(VALUE_TERMS, inputs.terms, "conclusion"))
    return work.figure(name, report_money(inputs), CARRIED, work.figures[statistic(inputs)])


def nothing_used(inputs: Inputs, results: Iterable[ComparisonResult]) -> NoFigure:
    """Return "no value", because of what the comparisons lack; where no input is missing, because none is used."""
    lacking = [one for result in results for one in _reasons(result)]
    if any(entry_of(one).severity.stops for one in lacking):
        return no_figure(lacking)
    place = place_of(ITEMS, inputs.item, "id")
    none_used = finding("VAL-10", place, inputs.item_id, value_type=inputs.value_type.value)
    return no_figure([*lacking, none_used])


def _reasons(result: ComparisonResult) -> list[Finding]:
    """Return why a comparison is not used; nothing where its weight is zero."""
    weight = result.steps.get("weight")
    if isinstance(weight, Figure) and weight.number == 0:
        return []
    return [one for outcome in (weight, result.adjusted) if isinstance(outcome, NoFigure) for one in outcome.because]


def typed_value(inputs: Inputs, work: Working) -> Outcome:
    """Return the value that was typed (figure `typed_value`), with its distance from mean and median.

    Findings: its reason is missing; it lies outside the range of the comparisons.
    """
    opinion = inputs.opinion
    if opinion is None:
        return work.refuse("typed_value", "VAL-20", place_of(VALUE_TERMS, inputs.terms, "conclusion"), found="typed")
    typed = work.cell(OPINIONS, opinion, "typed_value", kind=typed_report_money(inputs))
    if not given(opinion.typed_reason):
        work.find("VAL-21", place_of(OPINIONS, opinion, "typed_reason"), value_type=inputs.value_type.value)
    for name in ("mean", "median"):
        if name in work.figures:
            work.figure(f"typed_from_{name}_pct", SHOWN_PERCENT, PERCENT_ABOVE, typed, work.figures[name])
    _outside(work, opinion, typed)
    return typed


def _outside(work: Working, opinion: Opinion, typed: Outcome) -> None:
    low, high = work.figures.get("low"), work.figures.get("high")
    if not (isinstance(typed, Figure) and isinstance(low, Figure) and isinstance(high, Figure)):
        return
    if not low.number <= typed.number <= high.number:
        place = place_of(OPINIONS, opinion, "typed_value")
        work.find("VAL-22", place, found=str(typed.number), low=low.number, high=high.number)


def reconciliation_findings(inputs: Inputs, compared: Compared, work: Working) -> list[Finding]:
    """Return what rule R22 says of the reconciliation: few, share, spread."""
    limits, item = inputs.tables.limits, inputs.item_id
    used = [result for result in compared.lines if result.used]
    place = place_of(ITEMS, inputs.item, "id")
    kind = inputs.value_type.value
    found = []
    if 0 < len(used) < limits.fewest:
        found.append(finding("VAL-11", place, item, kind, found=str(len(used)), fewest=limits.fewest))
    total = sum(weight_of(result) for result in used)
    for result in used:
        if 100 * weight_of(result) > limits.largest_share * total:
            at = place_of(COMPARISONS, result.comparison, "weight")
            weight = weight_of(result)
            found.append(
                finding("VAL-12", at, item, result.line, found=str(weight), total=total, limit=limits.largest_share)
            )
    spread = work.figures.get("spread_pct")
    if isinstance(spread, Figure) and spread.number > limits.widest_spread:
        spread_found = f"{spread.number:.1f}"
        found.append(finding("VAL-13", place, item, kind, found=spread_found, limit=limits.widest_spread))
    return found
