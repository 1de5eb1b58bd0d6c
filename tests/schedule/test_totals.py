"""Totals that close, causes that add up, splits and joins, one line twice, change of currency."""

from datetime import date
from decimal import Decimal

from hypothesis import given as holds_for
from hypothesis import strategies as st
from support.figures import number, reasons
from support.valuing import records_of

from appraise.model.figure import Figure
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.assignment import Assignment
from appraise.records.declare import filled
from appraise.records.items import RENAMINGS
from appraise.records.job import Job
from appraise.records.tables import RATES
from appraise.records.vocabulary import Market, Treatment, ValueType
from appraise.records.yearly import LineTreatment, YearlyTerms
from appraise.schedule.revaluation import RevaluedLine, Year, revalued, year_of
from appraise.schedule.totals import (
    bridge_closes,
    causes,
    due_list,
    groups,
    prior_totals_as_printed,
    schedule_findings,
    totals,
)
from appraise.valuing.tables import build_tables


def the_year(currency: str = "USD", **terms: object) -> Year:
    rates = records_of(
        RATES,
        """
        currency | day        | rate | direction
        USD      | 2024-06-30 | 0.90 | report currency per foreign unit
        """,
    )
    job = Job(assignment=filled(Assignment, currency=currency), rates=rates)
    year = year_of(
        filled(YearlyTerms, **terms),
        build_tables(job)[0],
        effective=date(2025, 6, 30),
        place=Place("Assignment", 0, "effective_date"),
        currency=currency,
    )
    assert isinstance(year, Year)
    return year


def a_line(item: str, treatment: Treatment, **values: object) -> LineTreatment:
    usual: dict[str, object] = {
        "value_type": ValueType.RETAIL_REPLACEMENT,
        "prior_day": date(2024, 6, 30),
        "prior_value": Decimal(1000),
        "prior_rounded": Decimal(1000),
        "inspected": date(2024, 6, 30),
        "owner_reply": True,
        "removed_on": date(2025, 1, 1) if treatment is Treatment.REMOVED else BLANK,
    }
    return filled(LineTreatment, row=2, item=item, treatment=treatment, **{**usual, **values})


def schedule(*lines: LineTreatment, year: Year | None = None) -> list[RevaluedLine]:
    ledger = RecordingLedger("T")
    return [
        revalued(ledger.under(f"l{number:02d}"), line, year or the_year()) for number, line in enumerate(lines, start=1)
    ]


MIXED = (
    a_line("A", Treatment.PERCENT, percent=Decimal(10)),
    a_line("B", Treatment.FRESH, new_value=Decimal("1234.56"), prior_value=Decimal("990.10")),
    a_line("C", Treatment.HOLD),
    a_line("D", Treatment.REMOVED),
    a_line("E", Treatment.ADDED, new_value=Decimal("7436.00"), prior_value=BLANK, prior_rounded=BLANK),
    a_line(
        "F",
        Treatment.FRESH,
        new_value=Decimal(1500),
        prior_market=Market.AUCTION,
        market=Market.DEALER_RETAIL,
    ),
)


def test_bridge_and_totals() -> None:
    worked = totals(Ledger("T"), schedule(*MIXED), currency="USD")
    found = {name: number(worked[name]) for name in ("prior_total", "removed_total", "added_total", "new_total")}
    assert found == {"prior_total": 5000, "removed_total": 1000, "added_total": 7450, "new_total": 12300}
    assert number(worked["continuing_change"]) == 850
    assert number(worked["new_total_unrounded"]) == Decimal("12270.56")
    assert number(worked["rounding_difference"]) == Decimal("29.44")
    assert bridge_closes(worked) is True


def test_causes_add_up_to_the_total_change() -> None:
    lines = schedule(*MIXED)
    worked = causes(RecordingLedger("C"), lines, currency="USD")
    assert number(worked["by_percent"]) == 100
    assert number(worked["by_fresh"]) == Decimal("244.46")
    assert number(worked["by_basis"]) == 500
    assert number(worked["by_rounding"]) == Decimal("5.54")
    assert number(worked["explained"]) == number(totals(Ledger("T"), lines, currency="USD")["total_change"])


cents = st.decimals(min_value=0, max_value=10**6, places=2)
treated = st.tuples(st.sampled_from([*Treatment]), cents, cents, st.integers(-50, 50))


@holds_for(st.lists(treated, max_size=12))
def test_any_schedule_closes_its_bridge(drawn: list[tuple[Treatment, Decimal, Decimal, int]]) -> None:
    lines = []
    for at, (treatment, prior, new, percent) in enumerate(drawn):
        added = treatment is Treatment.ADDED
        used = Treatment.PERCENT if treatment is Treatment.INDEX else treatment
        lines.append(
            a_line(
                f"I{at}",
                used,
                prior_value=BLANK if added else prior,
                prior_rounded=BLANK if added else prior.to_integral_value(),
                new_value=new,
                percent=Decimal(percent),
            )
        )
    revalued_lines = schedule(*lines)
    worked = totals(Ledger("T"), revalued_lines, currency="USD")
    assert bridge_closes(worked) is True
    explained = causes(RecordingLedger("C"), revalued_lines, currency="USD")["explained"]
    assert number(explained) == number(worked["total_change"])


def test_an_empty_schedule_has_no_percent() -> None:
    worked = totals(Ledger("T"), [], currency="USD")
    percent = worked["total_change_pct"]
    assert isinstance(percent, Figure) and percent.value == "n/a"
    assert bridge_closes(worked) is True


def test_a_line_without_a_figure_leaves_the_totals_without_one() -> None:
    lines = schedule(a_line("A", Treatment.PERCENT), a_line("B", Treatment.REMOVED))
    worked = totals(Ledger("T"), lines, currency="USD")
    assert reasons(worked["new_total"]) == ["YRL-01"]
    assert number(worked["prior_total"]) == 2000
    assert bridge_closes(worked) is None


def test_groups_are_totals_of_their_own() -> None:
    grouped = groups(
        RecordingLedger("G"),
        schedule(*MIXED),
        lambda one: "AB" if one.line.item in ("A", "B") else "rest",
        currency="USD",
    )
    assert list(grouped) == ["AB", "rest"]
    assert number(grouped["AB"]["new_total"]) == 2350


def test_due_list_puts_the_never_seen_first() -> None:
    lines = schedule(
        a_line("A", Treatment.HOLD, inspected=date(2020, 1, 1)),
        a_line("B", Treatment.HOLD),
        a_line("C", Treatment.HOLD, inspected=BLANK),
    )
    assert [one.item for one in due_list(lines)] == ["C", "A"]


def renamed(*pairs: tuple[str, str]) -> tuple[object, ...]:
    drawn = "\n".join(f"{old} | {new} | 2025-06-30" for old, new in pairs)
    return records_of(RENAMINGS, "old | new | day\n" + drawn)


def codes(lines: list[RevaluedLine], *pairs: tuple[str, str], year: Year | None = None) -> list[str]:
    return [one.code for one in schedule_findings(lines, year or the_year(), renamed(*pairs))]  # type: ignore[arg-type]


def test_a_set_that_was_split_counts_once() -> None:
    added = {"new_value": Decimal(1), "prior_value": BLANK, "prior_rounded": BLANK}
    split = [a_line("S1", Treatment.ADDED, **added), a_line("S2", Treatment.ADDED, **added)]
    pairs = (("S", "S1"), ("S", "S2"))
    assert codes(schedule(a_line("S", Treatment.REMOVED), *split), *pairs) == []
    assert codes(schedule(a_line("S", Treatment.HOLD), *split), *pairs) == ["YRL-32", "YRL-32"]
    assert codes(schedule(a_line("S", Treatment.REMOVED), split[0]), *pairs) == ["YRL-33"]


def test_one_item_stands_on_one_line() -> None:
    assert codes(schedule(a_line("A", Treatment.HOLD), a_line("A", Treatment.HOLD))) == ["YRL-31"]


def test_a_change_of_currency_shows_both_totals() -> None:
    year = the_year("EUR", currency_reason="the owner moved")
    lines = schedule(
        a_line("A", Treatment.HOLD, prior_currency="USD"),
        a_line("B", Treatment.REMOVED, prior_currency="USD"),
        year=year,
    )
    printed = prior_totals_as_printed(RecordingLedger("P"), lines, currency="EUR")
    assert number(printed["prior_total_USD"]) == 2000
    assert number(totals(Ledger("T"), lines, currency="EUR")["prior_total"]) == 1800
    assert codes(lines, year=year) == ["YRL-34"]
    assert codes(lines, year=the_year("EUR")) == ["YRL-34", "YRL-36"]


def test_a_change_of_currency_in_the_middle_of_a_schedule_is_said() -> None:
    year = the_year("EUR", currency_reason="x")
    lines = schedule(a_line("A", Treatment.HOLD, prior_currency="USD"), a_line("B", Treatment.HOLD), year=year)
    assert codes(lines, year=year) == ["YRL-34", "YRL-35"]
