"""Rows of evidence of every kind, to statements and windows. Makers and features are invented."""

from decimal import Decimal
from typing import Any

import pytest
from support.dating import EXAMINED, SETTINGS

from appraise.dating.kinds import kind_readers
from appraise.dating.line import Tables, tables
from appraise.dating.result import Statement
from appraise.dating.statements import date_item, read_statements, rows_by_item
from appraise.model.finding import Finding
from appraise.model.missing import UNREADABLE
from appraise.model.months import Months
from appraise.model.place import Place
from appraise.records.dating import Evidence, FeaturePeriod, SerialRange
from appraise.records.declare import filled
from appraise.records.items import Item
from appraise.records.vocabulary import EvidenceKind, EvidenceRole, EvidenceStatus

TABLES = tables(
    [
        filled(FeaturePeriod, id="bound-holes", feature="bound holes", from_="1936", to="1942", strength=Decimal(2)),
        filled(FeaturePeriod, id="empty", feature="nothing", strength=Decimal(2)),
        filled(FeaturePeriod, id="bad", feature="x", from_="around 1936", strength=Decimal(2)),
    ],
    [
        filled(SerialRange, id="S1", maker="Skarvholm", first="2150", last="2260", date="1937-38", strength=Decimal(3)),
        filled(SerialRange, id="S2", maker="Skarvholm", first="2261", last="2400", date="1939", strength=Decimal(2)),
        filled(SerialRange, id="S3", maker="Skarvholm", first="2200", last="2300", date="1951", strength=Decimal(3)),
        filled(SerialRange, id="P1", maker="Pardlowe", first="2100", last="2999", date="1960", strength=Decimal(3)),
    ],
    [
        filled(Item, id="G01", maker="Skarvholm", model="Consul 17", serial="2217"),
        filled(Item, id="G02", maker="Skarvholm", serial="2350"),
        filled(Item, id="G03", maker="Wendlecote", serial="2350"),
        filled(Item, id="G04", maker="Skarvholm", serial="9999"),
    ],
)


def _row(kind: EvidenceKind, **values: Any) -> Evidence:
    known = {
        "row": 5,
        "id": "e1",
        "item": "G01",
        "part": "body",
        "statement": "as seen",
        "status": EvidenceStatus.ORIGINAL,
        "strength": Decimal(3),
        "source": "own notes",
    }
    return filled(Evidence, kind=kind, **(known | values))


def _read(kind: EvidenceKind, given: Tables = TABLES, **values: Any) -> tuple[Statement | None, tuple[Finding, ...]]:
    statements, findings = read_statements([_row(kind, **values)], given, SETTINGS)
    return (statements[0] if statements else None), findings


def _statement(kind: EvidenceKind, **values: Any) -> Statement:
    statement, findings = _read(kind, **values)
    assert statement is not None, findings
    return statement


def _codes(findings: tuple[Finding, ...]) -> list[str]:
    return [one.code for one in findings]


def test_every_kind_of_evidence_has_one_file() -> None:
    assert set(kind_readers()) == set(EvidenceKind)


@pytest.mark.parametrize("kind", [one for one in EvidenceKind if one not in (EvidenceKind.SPECIES,)])
def test_every_kind_reads_typed_words(kind: EvidenceKind) -> None:
    """A period of use; parts and documents are brought to completion by their role."""
    statement = _statement(kind, from_="early 1955", to="late 1958", role=EvidenceRole.WHOLE)
    assert (statement.outer.edtf(), statement.inner.edtf()) == ("1955-01/1958-12", "1955-06/1958-07")
    assert (statement.kind, statement.place) == (kind, Place("Evidence", 5, "statement"))
    assert statement.words == "from early 1955 to late 1958"
    assert statement.conventions == {"early year", "late year"}


def test_a_period_by_id() -> None:
    statement, findings = _read(EvidenceKind.FEATURE, reference="bound-holes", source="")
    assert statement is not None
    assert (statement.outer.edtf(), statement.strength, statement.fact) == ("1936-01/1942-12", 2, "bound-holes")
    assert _codes(findings) == ["DAT-16"], "typed 3, the table says 2"


@pytest.mark.parametrize(
    ("name", "code"), [("bound-hols", "DAT-13"), ("empty", "DAT-27"), ("bad", "DAT-01"), ("B24", "DAT-14")]
)
def test_an_id_that_gives_no_date(name: str, code: str) -> None:
    statement, findings = _read(EvidenceKind.FEATURE, reference=name)
    assert statement is None
    assert _codes(findings) == [code]
    assert findings[0].place == Place("Evidence", 5, "reference")


def test_an_unknown_id_proposes_the_nearest() -> None:
    _, findings = _read(EvidenceKind.FEATURE, reference="bound-hols")
    assert "bound-holes" in dict(findings[0].details)["near"]


def test_an_id_of_a_fact_without_its_nought_proposes_that_fact() -> None:
    _, findings = _read(EvidenceKind.ADDRESS, reference="C2")
    assert _codes(findings) == ["DAT-13"]
    assert dict(findings[0].details)["near"] == "C02"


def test_typed_words_go_before_an_id() -> None:
    statement, findings = _read(EvidenceKind.FEATURE, reference="bound-holes", date="1940")
    assert statement is not None
    assert statement.outer.edtf() == "1940-01/1940-12"
    assert _codes(findings) == ["DAT-26"]


@pytest.mark.parametrize(
    ("values", "code", "column"),
    [
        ({}, "DAT-09", "date"),
        ({"date": "around 1960"}, "DAT-01", "date"),
        ({"from_": "until 1960"}, "DAT-01", "from_"),
        ({"to": "from 1960"}, "DAT-01", "to"),
        ({"date": "1960", "to": "1962"}, "DAT-10", "date"),
        ({"date": "1960", "lag_least": Decimal(5), "lag_most": Decimal(2)}, "DAT-12", "lag_most"),
    ],
)
def test_faults_are_findings_at_their_cell(values: dict[str, Any], code: str, column: str) -> None:
    statement, findings = _read(EvidenceKind.FEATURE, **values)
    assert statement is None
    assert [(one.code, one.place, one.subjects) for one in findings] == [
        (code, Place("Evidence", 5, column), ("G01", "e1"))
    ]


def test_a_cell_the_reader_could_not_read_is_not_reported_twice() -> None:
    assert _read(EvidenceKind.FEATURE, date=UNREADABLE) == (None, ())


@pytest.mark.parametrize(
    ("words", "code"), [("1905-06", "DAT-02"), ("winter 1959", "DAT-03"), ("'05", "DAT-04"), ("1900s", "DAT-05")]
)
def test_questions_are_asked_and_the_wide_reading_kept(words: str, code: str) -> None:
    statement, findings = _read(EvidenceKind.INSCRIPTION, date=words)
    assert statement is not None
    assert _codes(findings) == [code]
    assert findings[0].found == words


def test_a_period_that_ends_before_it_begins_allows_no_month() -> None:
    statement, findings = _read(EvidenceKind.FEATURE, from_="1960", to="1950")
    assert statement is not None
    assert not statement.outer
    assert _codes(findings) == ["DAT-11"]


def test_blank_status_and_strength_never_read_as_good() -> None:
    row = filled(Evidence, row=5, id="e1", item="G01", kind=EvidenceKind.FEATURE, date="1960")
    (statement,), findings = read_statements([row], TABLES, SETTINGS)
    assert (statement.status, statement.strength, findings) == (EvidenceStatus.UNVERIFIED, 1, ())


def test_a_strength_outside_the_scale_counts_as_one() -> None:
    statement, findings = _read(EvidenceKind.FEATURE, date="1960", strength=Decimal(5))
    assert statement is not None
    assert (statement.strength, _codes(findings)) == (1, ["DAT-15"])


def test_rows_without_an_id_stay_apart() -> None:
    rows = [_row(EvidenceKind.FEATURE, row=n, id="e1", date="1960") for n in (5, 6)]
    statements, _ = read_statements(rows, TABLES, SETTINGS)
    assert [one.id for one in statements] == ["e1", "e1 (row 6)"]


def test_or_words_give_readings() -> None:
    statement = _statement(EvidenceKind.SERIAL, date="1957 or 1963")
    assert [one.name for one in statement.readings] == ["1957", "1963"]


# Serial numbers


def test_the_serial_of_the_item_is_looked_up_and_may_lie_in_two_ranges() -> None:
    statement = _statement(EvidenceKind.SERIAL)
    assert [(one.name, one.outer.edtf()) for one in statement.readings] == [
        ("1937-38", "1937-01/1938-12"),
        ("1951", "1951-01/1951-12"),
    ]
    assert statement.fact == "S1; S3"


def test_one_range_gives_one_reading_and_its_strength() -> None:
    statement, findings = _read(EvidenceKind.SERIAL, item="G02")
    assert statement is not None
    assert (statement.outer.edtf(), statement.readings, statement.strength) == ("1939-01/1939-12", (), 2)
    assert _codes(findings) == ["DAT-16"]


def test_a_range_or_a_number_may_be_named() -> None:
    assert _statement(EvidenceKind.SERIAL, reference="P1").outer.edtf() == "1960-01/1960-12"
    assert _statement(EvidenceKind.SERIAL, reference="2390").outer.edtf() == "1939-01/1939-12"


def test_a_number_outside_every_range_is_explained() -> None:
    statement, findings = _read(EvidenceKind.SERIAL, item="G04")
    assert statement is None
    assert [(one.code, one.found) for one in findings] == [("DAT-18", "9999")]
    assert "S2" in dict(findings[0].details)["why"]
    _, findings = _read(EvidenceKind.SERIAL, item="G03")
    assert "Wendlecote" in dict(findings[0].details)["why"]


def test_a_number_that_cannot_be_taken_apart() -> None:
    assert _codes(_read(EvidenceKind.SERIAL, reference="12 A 34")[1]) == ["DAT-19"]


# Parts, codes, numbers, documents


def test_a_dated_part_is_a_part_unless_typed_otherwise() -> None:
    statement = _statement(EvidenceKind.DATED_PART, date="1959-11", lag_most=Decimal(12))
    assert (statement.role, statement.outer.edtf()) == (EvidenceRole.PART, "1959-11/1960-11")
    assert _statement(EvidenceKind.DATED_PART, date="1959-11", role=EvidenceRole.WHOLE).outer.edtf() == "1959-11"


def test_a_component_code_keeps_every_decade() -> None:
    statement, findings = _read(EvidenceKind.COMPONENT_CODE, reference="999-612", lag_most=Decimal(24))
    assert statement is not None
    assert [one.name for one in statement.readings if not one.unlikely] == ["1946", "1956", "1966"]
    assert [one.name for one in statement.readings][-1] == "2026"
    assert "1966-03/1968-03" in statement.outer.edtf()
    assert _codes(findings) == ["DAT-21"]


def test_a_code_with_an_open_lag_bounds_only_from_below() -> None:
    statement = _statement(EvidenceKind.COMPONENT_CODE, reference="999-6612")
    assert statement.outer.edtf() == "1966-03/.."
    assert statement.readings == ()


def test_the_second_split_names_its_source() -> None:
    statement = _statement(EvidenceKind.COMPONENT_CODE, reference="999612")
    assert statement.readings[-1].name == "1996 (source 99)"


@pytest.mark.parametrize(("code", "finding"), [("999660", "DAT-20"), ("999-0212", "DAT-22"), ("999-6653", "DAT-22")])
def test_codes_with_a_finding(code: str, finding: str) -> None:
    assert finding in _codes(_read(EvidenceKind.COMPONENT_CODE, reference=code)[1])


def test_other_evidence_settles_the_decade_of_a_code() -> None:
    rows = [
        _row(EvidenceKind.FEATURE, id="body", from_="1964", to="1968"),
        _row(EvidenceKind.COMPONENT_CODE, id="code", reference="999-612", lag_most=Decimal(24)),
    ]
    window = date_item("G01", rows, TABLES, SETTINGS)
    assert window.outer.edtf() == "1966-03/1968-03"
    assert (window.readings["code"].left, window.readings["code"].settled_by) == (("1966",), ("body",))


def test_a_patent_bounds_from_below_by_its_latest_number() -> None:
    statement = _statement(EvidenceKind.PATENT, reference="US 1,446,758; US 1,742,181")
    assert (statement.outer.edtf(), statement.inner.edtf()) == ("1930-01/..", "1930-12/..")


def test_a_patent_number_from_memory_counts_for_less() -> None:
    statement, findings = _read(EvidenceKind.PATENT, reference="US 2,524,035")
    assert statement is not None
    assert (statement.outer.edtf(), statement.strength, _codes(findings)) == ("1950-01/..", 2, ["DAT-16"])


def test_a_patent_number_on_a_boundary_gives_both_years() -> None:
    statement, findings = _read(EvidenceKind.PATENT, reference="US 1,612,750")
    assert statement is not None
    assert (statement.outer.edtf(), statement.inner.edtf()) == ("1926-01/..", "1927-12/..")
    assert _codes(findings) == ["DAT-24"]


def test_a_number_without_country_is_asked_about() -> None:
    assert _codes(_read(EvidenceKind.PATENT, reference="2524035")[1]) == ["DAT-23"]


def test_a_document_without_a_role_is_taken_for_an_event_after() -> None:
    statement, findings = _read(EvidenceKind.DOCUMENT, date="May 1961")
    assert statement is not None
    assert (statement.outer.edtf(), _codes(findings)) == ("../1961-05", ["DAT-25"])
    statement, findings = _read(EvidenceKind.DOCUMENT, date="May 1961", role=EvidenceRole.WHOLE)
    assert statement is not None
    assert (statement.outer.edtf(), findings) == ("1961-05", ())


# Published facts


def test_a_hard_lower_bound() -> None:
    """Five-figure US postal code: 1 July 1963 (piglix.com, ZIP code)."""
    statement = _statement(EvidenceKind.ADDRESS, reference="C02", part="label")
    assert (statement.outer.edtf(), statement.inner.edtf(), statement.strength) == ("1963-07/..", "1963-07/..", 3)


def test_a_soft_upper_bound_lingers_in_the_outer_window_only() -> None:
    """'West Germany' 1949-05-23 to 1990-10-03: three years are allowed for dies."""
    statement = _statement(EvidenceKind.LEGAL_MARK, reference="B04")
    assert (statement.outer.edtf(), statement.inner.edtf()) == ("1949-05/1993-10", "1949-05/1990-10")
    assert any("soft" in one for one in statement.cautions)


def test_a_hard_upper_bound_does_not_linger() -> None:
    """'W-' or 'O-' before four figures: 1990 to 1993-06-30 (briefmarkenzeitung.ch 7/2023)."""
    statement = _statement(EvidenceKind.ADDRESS, reference="C12")
    assert (statement.outer.edtf(), statement.inner.edtf()) == ("1990-01/1993-06", "1990-12/1993-06")


def test_a_fact_from_memory_counts_as_two_at_most() -> None:
    statement, findings = _read(EvidenceKind.LEGAL_MARK, reference="B02", strength=Decimal(4))
    assert statement is not None
    assert (statement.strength, _codes(findings)) == (2, ["DAT-16"])
    assert _statement(EvidenceKind.LEGAL_MARK, reference="B02", strength=Decimal(1)).strength == 1


def test_circa_in_a_fact_is_five_years_whatever_the_setting() -> None:
    assert _statement(EvidenceKind.MATERIAL, reference="I15").outer.edtf() == "1955-01/.."


def test_a_fact_with_two_stretches_has_two_readings() -> None:
    """'Siam' to June 1939 and from September 1945 to May 1949, with three years for dies."""
    statement = _statement(EvidenceKind.LEGAL_MARK, reference="B18")
    assert [one.outer.edtf() for one in statement.readings] == ["../1942-06", "1945-09/1952-05"]


def test_a_fact_that_asks_for_the_year_on_the_object() -> None:
    statement, findings = _read(EvidenceKind.LEGAL_MARK, reference="E21")
    assert (statement, _codes(findings)) == (None, ["DAT-28"])
    statement = _statement(EvidenceKind.LEGAL_MARK, reference="E21", date="1962")
    assert (statement.outer.edtf(), statement.inner.edtf()) == ("1962-01/..", "1962-12/..")
    hallmark = _statement(EvidenceKind.LEGAL_MARK, reference="K02", date="1911-1912")
    assert hallmark.outer.edtf() == "1911-01/1912-12"


def test_a_fact_that_bounds_nothing_says_so() -> None:
    statement, findings = _read(EvidenceKind.LEGAL_MARK, reference="A02")
    assert statement is not None
    assert (statement.outer, _codes(findings)) == (Months.between(None, None), ["DAT-17"])


@pytest.mark.parametrize("values", [{"reference": "J02"}, {"date": "1992"}, {"to": "1992"}, {}])
def test_a_species_listing_never_bounds(values: dict[str, str]) -> None:
    statement, findings = _read(EvidenceKind.SPECIES, **values)
    assert statement is not None
    assert statement.outer == Months.between(None, None)
    assert _codes(findings) in (["DAT-17"], ["DAT-29"])


def test_species_alone_is_no_evidence() -> None:
    window = date_item("G01", [_row(EvidenceKind.SPECIES, reference="J02")], TABLES, SETTINGS)
    assert window.shown is None
    assert "DAT-40" in _codes(window.findings)


def test_the_window_of_an_item_carries_all_findings() -> None:
    rows = [_row(EvidenceKind.FEATURE, date="around 1960"), _row(EvidenceKind.FEATURE, id="e2", date="1960")]
    window = date_item("G01", rows, TABLES, SETTINGS)
    assert (window.item, window.examined, window.outer.edtf()) == ("G01", EXAMINED, "1960-01/1960-12")
    assert _codes(window.findings) == ["DAT-01"]


def test_rows_are_grouped_by_item() -> None:
    rows = [_row(EvidenceKind.FEATURE, id=f"e{n}", item=item) for n, item in enumerate(("G02", "G01", "G02"))]
    assert {item: [one.id for one in own] for item, own in rows_by_item(rows).items()} == {
        "G02": ["e0", "e2"],
        "G01": ["e1"],
    }
