"""The rows of a job by item and type of value."""

from support.valuing import job_of

from appraise.model.figure import Figure
from appraise.model.ledger import Ledger
from appraise.records.vocabulary import ValueType
from appraise.valuing import job_rows, value_inputs
from appraise.valuing.codes import CODES, scope_of

SHEETS = {
    "assignment": "currency | USD\neffective_date | 2024-11-15",
    "value_terms": """
        value_type               | market        | price_basis | premium_tax  | conclusion
        fair market value        | auction       | all-in      | in the price | weighted mean
        retail replacement value | dealer retail | all-in      | in the price | weighted mean
        fair market value        | private       | all-in      | in the price | weighted median
    """,
    "items": "id\nG01\nG02",
    "parts": "item | part | state | deduction\nG01 | neck | modified | 10\nG02 | neck | modified | 20",
    "sales": """
        id | kind        | currency | price | day
        s1 | all-in      | USD      | 1000  | 2024-05-01
        s1 | all-in      | USD      | 9999  | 2024-05-01
        s2 | dealer sold | USD      | 2000  | 2024-05-01
    """,
    "comparisons": """
        id | item | value_type               | sale | weight
        c1 | G01  | fair market value        | s1   | 1
        c2 | G01  | retail replacement value | s2   | 1
        c3 | G02  | fair market value        | s2   | 1
    """,
    "opinions": """
        item | value_type        | conclusion
        G02  | fair market value | weighted median
    """,
}


def test_each_opinion_gets_its_own_rows() -> None:
    rows, findings = job_rows(job_of(SHEETS))
    assert findings == ()
    terms = list(rows.terms())
    assert [one.value_type for one in terms] == [ValueType.FAIR_MARKET, ValueType.RETAIL_REPLACEMENT]
    first, second = rows.job.items
    inputs = rows.inputs(first, terms[0])
    assert [one.id for one in inputs.comparisons] == ["c1"]
    assert [one.deduction for one in inputs.parts] == [10]
    assert inputs.opinion is None
    assert [one.id for one in rows.inputs(first, terms[1]).comparisons] == ["c2"]
    other = rows.inputs(second, terms[0]).opinion
    assert other is not None
    assert other.item == "G02"


def test_of_two_sales_of_one_id_the_first_holds() -> None:
    rows, _ = job_rows(job_of(SHEETS))
    item, terms = rows.job.items[0], next(rows.terms())
    value = value_inputs(rows.inputs(item, terms), Ledger(scope_of("G01", ValueType.FAIR_MARKET))).value
    assert isinstance(value, Figure)
    assert value.number == 900


def test_every_type_of_value_has_a_short_code_of_its_own() -> None:
    assert set(CODES) == set(ValueType)
    assert len(set(CODES.values())) == len(CODES)
