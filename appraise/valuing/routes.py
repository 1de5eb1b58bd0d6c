"""The short and the relative route to an opinion."""

from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.finding import finding
from appraise.model.missing import given
from appraise.model.operations import LARGER, SMALLER
from appraise.model.place import Place
from appraise.records.assignment import VALUE_TERMS
from appraise.records.declare import place_of
from appraise.records.market import COMPARISONS, OPINIONS, Comparison
from appraise.records.vocabulary import Compare, Conclusion, Route
from appraise.valuing.comparing import Compared
from appraise.valuing.conclusions import conclusion_of, statistic, typed_value
from appraise.valuing.inputs import Inputs
from appraise.valuing.operations import CARRIED
from appraise.valuing.reconcile import Weighted, reconcile
from appraise.valuing.result import ComparisonResult
from appraise.valuing.steps.line import report_money, typed_report_money
from appraise.valuing.working import Working

ELEMENTS = ("by_condition", "by_originality", "by_configuration", "by_provenance")


def route_of(inputs: Inputs) -> Route:
    """Return the route of an opinion; blank is adjusted."""
    opinion = inputs.opinion
    return opinion.route if opinion is not None and given(opinion.route) else Route.ADJUSTED


def short_value(inputs: Inputs, work: Working, name: str = "value") -> Outcome:
    """Return the one figure of the short route (figure `name`): typed, with a source."""
    opinion = inputs.opinion
    if opinion is None:
        return work.refuse(name, "VAL-20", place_of(VALUE_TERMS, inputs.terms, "conclusion"), found="short")
    typed = work.cell(OPINIONS, opinion, "typed_value", kind=typed_report_money(inputs))
    if not given(opinion.source):
        work.find("VAL-23", place_of(OPINIONS, opinion, "source"))
    if inputs.comparisons:
        work.find("VAL-24", place_of(COMPARISONS, inputs.comparisons[0], "item"), count=len(inputs.comparisons))
    return work.figure(name, report_money(inputs), CARRIED, typed)


def standing(comparison: Comparison) -> Compare | None:
    """Return how a comparison stands overall: as typed, else as all its elements agree; None if they do not."""
    if given(comparison.overall):
        return comparison.overall
    marks = {getattr(comparison, key) for key in ELEMENTS if given(getattr(comparison, key))}
    apart = marks - {Compare.SIMILAR}
    if not marks or len(apart) > 1:
        return None
    return apart.pop() if apart else Compare.SIMILAR


def relative_value(inputs: Inputs, compared: Compared, name: str = "value") -> Outcome:
    """Return the conclusion of the relative route (figure `name`).

    Figures: `best_poorer` and `worst_better`, between which the conclusion lies; mean and median of the comparisons
    marked similar. A conclusion outside that bracket, or a bracket whose ends cross, is a finding.
    """
    work = compared.top
    marked = _marked(inputs, compared, work)
    _bracket(work, marked)
    similar = [weighted for weighted, mark in marked if mark is Compare.SIMILAR]
    reconcile(work, similar, report_money(inputs))
    if conclusion_of(inputs) is Conclusion.TYPED:
        value = work.figure(name, report_money(inputs), CARRIED, typed_value(inputs, work))
    elif similar:
        value = work.figure(name, report_money(inputs), CARRIED, work.figures[statistic(inputs)])
    else:
        value = work.refuse(name, "VAL-30", _opinion_place(inputs, "conclusion"), found=conclusion_of(inputs).value)
    _check_bracket(inputs, work, value)
    return value


def _marked(inputs: Inputs, compared: Compared, work: Working) -> list[tuple[Weighted, Compare]]:
    marked = []
    for result in compared.lines:
        price, weight = result.adjusted, result.steps.get("weight")
        if not (result.used and isinstance(price, Figure) and isinstance(weight, Figure)):
            continue
        mark = standing(result.comparison)
        if mark is None:
            place = place_of(COMPARISONS, result.comparison, "overall")
            work.findings.append(finding("VAL-31", place, inputs.item_id, result.line))
            continue
        _check_mark(inputs, work, result)
        marked.append((Weighted(result.line, price, weight), mark))
    return marked


def _check_mark(inputs: Inputs, work: Working, result: ComparisonResult) -> None:
    """A comparison that is better in one element and poorer in none is not poorer overall, nor the reverse."""
    comparison = result.comparison
    marks = {getattr(comparison, key) for key in ELEMENTS}
    for overall, contrary in ((Compare.BETTER, Compare.POORER), (Compare.POORER, Compare.BETTER)):
        if comparison.overall is overall and contrary in marks and overall not in marks:
            place = place_of(COMPARISONS, comparison, "overall")
            work.findings.append(finding("VAL-32", place, inputs.item_id, result.line, found=overall.value))


def _bracket(work: Working, marked: list[tuple[Weighted, Compare]]) -> None:
    kind = next((weighted.price.kind for weighted, _ in marked), None)
    for name, mark, operation in (
        ("best_poorer", Compare.POORER, LARGER),
        ("worst_better", Compare.BETTER, SMALLER),
    ):
        prices = [weighted.price for weighted, its in marked if its is mark]
        if prices and kind is not None:
            work.figure(name, kind, operation, *prices)


def _check_bracket(inputs: Inputs, work: Working, value: Outcome) -> None:
    place = _opinion_place(inputs, "reconciliation")
    ends = {name: work.figures.get(name) for name in ("best_poorer", "worst_better")}
    missing = [name.replace("_", " ") for name, end in ends.items() if end is None]
    if missing:
        work.find("VAL-33", place, found=", ".join(missing))
    poorer, better = _end(ends["best_poorer"]), _end(ends["worst_better"])
    if poorer is not None and better is not None and poorer >= better:
        work.find("VAL-34", place, found=str(poorer), better=better)
        return
    if isinstance(value, Figure) and (
        (poorer is not None and value.number < poorer) or (better is not None and value.number > better)
    ):
        work.find("VAL-35", place, found=str(value.number), poorer=poorer or "none", better=better or "none")


def _end(outcome: Outcome | None) -> Decimal | None:
    return outcome.number if isinstance(outcome, Figure) else None


def _opinion_place(inputs: Inputs, key: str) -> Place:
    if inputs.opinion is not None:
        return place_of(OPINIONS, inputs.opinion, key)
    return place_of(VALUE_TERMS, inputs.terms, "conclusion")
