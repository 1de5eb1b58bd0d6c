"""What is worked out for a job as a whole: the published-form cases through the rows of a job."""

from decimal import Decimal

import pytest
from support.figures import number, reasons, typed
from support.valuing import OWN_CASES, job_of, read_case, texts_of

from appraise.model.ledger import Ledger, RecordingLedger
from appraise.records.job import Job
from appraise.valuing import JobRows, job_rows
from appraise.valuing.of_job import (
    alternate_schedule,
    cover_of_job,
    landed_costs,
    liquidation_of_job,
    proceeds_totals,
)


def case(name: str) -> tuple[JobRows, dict[str, str]]:
    found = read_case(OWN_CASES / f"{name}.toml")
    return job_rows(found.parts[0].job)[0], dict(found.expected)


def test_alternate_schedule_gives_the_figures_of_case_v09() -> None:
    rows, expected = case("V09")
    ledger = RecordingLedger("V09")
    schedule = alternate_schedule(ledger, rows, {})
    assert schedule is not None
    texts = texts_of(ledger)
    assert {label: texts.get(label) for label in expected} == expected
    assert [one.code for one in schedule.findings] == ["ALT-03"]


def test_liquidation_gives_the_figures_of_case_v08() -> None:
    rows, expected = case("V08")
    ledger = RecordingLedger("V08")
    assert liquidation_of_job(ledger, rows, {}) is not None
    texts = texts_of(ledger)
    assert {label: texts.get(label) for label in expected} == expected


def test_cover_gives_blanket_set_and_payment_of_case_v11() -> None:
    rows, _ = case("V11")
    cover = cover_of_job(RecordingLedger("V11"), rows, {}, {})
    assert cover.blanket is not None
    assert number(cover.blanket["effective_cover"]) == Decimal("60000.00")
    assert [name for name, _ in cover.sets] == ["TEA"]
    assert [(name, number(worked["payment"])) for name, worked in cover.payments] == [("TEA", Decimal("3708.11"))]
    assert [one.code for one in cover.findings] == ["POL-03", "POL-03", "POL-02", "POL-04"]


def test_a_guarded_limit_serves_in_the_payment() -> None:
    job = job_of(
        {
            "assignment": "currency | USD\nloss_date | 2025-07-20",
            "policy": "limit | 250000\ncoinsurance | 100\ninflation_guard | 4\nstarts | 2025-01-01",
            "covers": "item | value\nA | 255479.45",
        }
    )
    cover = cover_of_job(RecordingLedger("T"), job_rows(job)[0], {}, {"A": typed("1000.00")})
    assert [number(worked["payment"]) for _, worked in cover.payments] == [Decimal("1000.00")]


def test_values_concluded_serve_where_none_is_typed() -> None:
    job = job_of(
        {
            "assignment": "currency | USD\ndeath_date | 2024-08-31",
            "policy": "limit | 1000",
            "covers": "item | value\nA |",
            "alternate": "id | item | departure | appraised\na | A | still held | 90.00",
            "liquidation_terms": "months | 0\ndiscount | 0\nselling | 0\ncommission | 0",
            "liquidation": "id | item | units | forced\nu | A | 2 | 50",
        }
    )
    rows = job_rows(job)[0]
    concluded = {"A": typed("100.00")}
    cover = cover_of_job(RecordingLedger("T"), rows, concluded, {})
    assert cover.blanket is not None and number(cover.blanket["total_value"]) == 100
    schedule = alternate_schedule(RecordingLedger("T"), rows, concluded)
    assert schedule is not None and number(schedule.totals["dod_total"]) == 100
    sold = liquidation_of_job(RecordingLedger("T"), rows, concluded)
    assert sold is not None and number(sold[1]["forced_total"]) == 100


def test_an_estate_without_a_date_of_death() -> None:
    job = job_of({"assignment": "currency | USD", "alternate": "id | item | departure\na | A | still held"})
    schedule = alternate_schedule(Ledger("T"), job_rows(job)[0], {})
    assert schedule is not None
    assert reasons(schedule.totals["alternate_total"]) == ["ALT-12"]


def test_landed_costs_by_quotation() -> None:
    rows, expected = case("V05B")
    found = landed_costs(RecordingLedger("T"), rows)
    assert [(name, number(worked["total"])) for name, worked in found] == [
        ("q3", Decimal(expected["V05.landed.total"]))
    ]


@pytest.mark.parametrize("currency", ["", "currency | USD"])
def test_a_job_without_these_sheets_gives_nothing(currency: str) -> None:
    rows = job_rows(job_of({"assignment": currency or "title | none"}))[0]
    assert isinstance(rows.job, Job)
    assert alternate_schedule(Ledger("T"), rows, {}) is None
    assert liquidation_of_job(Ledger("T"), rows, {}) is None
    assert landed_costs(Ledger("T"), rows) == ()
    assert proceeds_totals(Ledger("T"), rows, []) is None
    cover = cover_of_job(Ledger("T"), rows, {}, {})
    assert (cover.blanket, cover.sets, cover.payments, cover.findings) == (None, (), (), ())


def test_doubled_ids_break_nothing() -> None:
    job = job_of(
        {
            "assignment": "currency | USD\ndeath_date | 2024-08-31",
            "policy": "limit | 1000\nitem_cap | 500",
            "covers": "item | value\nA | 10\nA | 20",
            "alternate": """
                id | item | departure  | at_death | appraised
                a  | A    | still held | 1        | 2
                a  | A    | still held | 3        | 4
                """,
            "liquidation": "id | item | units | unit_value | forced\nu | A | 2 | 1 | 50\nu | A | 2 | 1 | 50",
            "sets": "set_id | whole | rest\nS | 10 | 5\nS | 10 | 5",
        }
    )
    rows = job_rows(job)[0]
    cover = cover_of_job(RecordingLedger("T"), rows, {}, {})
    assert cover.blanket is not None and number(cover.blanket["total_value"]) == 30
    assert [name for name, _ in cover.sets] == ["S", "row3"]
    schedule = alternate_schedule(RecordingLedger("T"), rows, {})
    assert schedule is not None and number(schedule.totals["dod_total"]) == 4
    assert [one.code for one in schedule.findings] == ["ALT-11"]
    assert liquidation_of_job(RecordingLedger("T"), rows, {}) is not None
