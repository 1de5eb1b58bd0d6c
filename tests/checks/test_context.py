"""What the checks are given."""

from dataclasses import replace

from support.checks import FMV, RRV, D, changed, sound_context, sound_job, valuation, window

from appraise.checks.context import ItemResults
from appraise.model.missing import BLANK
from appraise.model.months import month_number
from appraise.records.vocabulary import Route


def test_results_keep_the_outcome_and_leave_the_figures_behind() -> None:
    whole = valuation("G01", rounded="24200", low="22100", high="26800", nets=("-4.00", "0.00", "6.10"))
    kept = ItemResults.of(window("G01", (1937, 1), (1938, 12)), [whole])
    (outcome,) = kept.valuations
    assert (outcome.value, outcome.rounded, outcome.route) == (whole.value, whole.rounded, whole.route)
    assert set(outcome.figures) == {"low", "high"}
    assert outcome.comparisons == ()
    assert kept.sides == ((-1, 0, 1),)
    assert kept.made is not None
    assert (kept.made.first, kept.made.last) == (month_number(1937, 1), month_number(1938, 12))


def test_an_item_that_was_not_dated_has_no_months() -> None:
    assert ItemResults().made is None
    dated = window("G01", (1937, 1), (1938, 12))
    assert ItemResults(replace(dated, shown=None)).made is None


def test_look_ups() -> None:
    job = changed(sound_job(), "comparisons", 0, weight=D(0))
    context = sound_context(changed(job, "comparisons", 1, sale="S999"))
    assert [line.id for line, _sale in context.weighted["G01", FMV]] == ["c3"]
    assert len(context.comparisons_of["G01", FMV]) == 3
    assert context.route("A01", FMV) is Route.SHORT
    assert context.route("G01", RRV) is Route.ADJUSTED
    assert context.country == "US"
    assert sound_context(replace(job, assignment=replace(job.assignment, jurisdiction=BLANK))).country == ""
