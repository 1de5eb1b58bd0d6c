"""The yearly revaluation of a whole job."""

from decimal import Decimal

from support.figures import number, typed
from support.valuing import OWN_CASES, job_of, read_case, texts_of

from appraise.model.ledger import Ledger, RecordingLedger
from appraise.records.vocabulary import ValueType
from appraise.schedule.of_job import revaluations
from appraise.schedule.totals import bridge_closes
from appraise.valuing import job_rows

RETAIL = ValueType.RETAIL_REPLACEMENT


def test_case_v12_through_the_rows_of_a_job() -> None:
    case = read_case(OWN_CASES / "V12.toml")
    rows = job_rows(case.parts[0].job)[0]
    ledger = RecordingLedger("V12")
    fresh = {("l03", RETAIL): typed("12847.63"), ("l09", RETAIL): typed("25300.00")}
    (made,), findings = revaluations(ledger, rows, fresh)
    texts = {label.replace("V12.rrv.", "V12."): text for label, text in texts_of(ledger).items()}
    expected = {label: text for label, text in case.expected.items() if not label.endswith(".comps_value")}
    assert {label: texts.get(label) for label in expected} == expected
    assert bridge_closes(made.totals) is True
    assert number(made.causes["explained"]) == Decimal("13710.00")
    assert made.printed is None
    assert {one.code for one in findings} == {"YRL-02", "YRL-03", "YRL-04", "YRL-05", "YRL-13"}


def drawn(treatments: str, **more: str) -> dict[str, str]:
    return {"assignment": "currency | USD\neffective_date | 2025-06-30", "treatments": treatments, **more}


def test_types_of_value_are_never_added_up_together() -> None:
    sheets = drawn(
        """
        item | value_type               | treatment | prior_value | prior_rounded | inspected
        A    | retail replacement value | hold      | 100         | 100           | 2025-01-01
        A    | fair market value        | hold      | 50          | 50            | 2025-01-01
        """
    )
    made, findings = revaluations(RecordingLedger("T"), job_rows(job_of(sheets))[0], {})
    assert [(one.value_type, number(one.totals["new_total"])) for one in made] == [
        (RETAIL, Decimal(100)),
        (ValueType.FAIR_MARKET, Decimal(50)),
    ]
    assert {one.code for one in findings} == {"YRL-04"}


def test_one_item_on_two_lines_is_said_and_does_not_break() -> None:
    sheets = drawn(
        """
        item | value_type               | treatment | prior_value | prior_rounded | inspected
        A    | retail replacement value | hold      | 100         | 100           | 2025-01-01
        A    | retail replacement value | hold      | 100         | 100           | 2025-01-01
        """
    )
    _, findings = revaluations(RecordingLedger("T"), job_rows(job_of(sheets))[0], {})
    assert "YRL-31" in {one.code for one in findings}


def test_a_changed_currency_prints_last_years_total_as_it_was() -> None:
    sheets = drawn(
        """
        item | value_type               | treatment | prior_day  | prior_value | prior_rounded | prior_currency
        A    | retail replacement value | hold      | 2024-06-30 | 100         | 100           | EUR
        """,
        rates="""
        currency | day        | rate | direction
        EUR      | 2024-06-30 | 1.10 | report currency per foreign unit
        """,
    )
    (made,), _ = revaluations(RecordingLedger("T"), job_rows(job_of(sheets))[0], {})
    assert made.printed is not None
    assert number(made.printed["prior_total_EUR"]) == 100
    assert number(made.totals["prior_total"]) == Decimal("110.00")


def test_nothing_to_revalue_and_no_date() -> None:
    assert revaluations(Ledger("T"), job_rows(job_of({"assignment": "currency | USD"}))[0], {}) == ((), ())
    undated = {
        "assignment": "currency | USD",
        "treatments": "item | value_type | treatment\nA | fair market value | hold",
    }
    made, findings = revaluations(Ledger("T"), job_rows(job_of(undated))[0], {})
    assert (made, [one.code for one in findings]) == ((), ["YRL-18"])
