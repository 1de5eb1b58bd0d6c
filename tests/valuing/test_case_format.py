"""The format of the valuation cases, as docs/valuation_cases.md states it."""

import json
from decimal import Decimal
from pathlib import Path

import pytest
from support.valuing import all_cases, expected_of, method_named, months_of, read_case

CASE = {
    "id": "X01",
    "title": "one sale",
    "method": "sales comparison",
    "sheets": {
        "Assignment": {"currency": "USD", "effective_date": "2024-11-15"},
        "Value types": "value_type | market | price_basis | premium_tax | conclusion\n"
        "fair market value | auction | all-in | in the price | weighted mean",
        "Items": "id\nG01",
        "Comparisons": "id | item | value_type | sale | weight\nc1 | G01 | fair market value | c1 | 1",
    },
    "sales": [{"id": "c1", "kind": "all-in", "currency": "USD", "price": 1234.5, "day": "2024-05-01"}],
    "expected": "X01.c1.adjusted = 1234.50\nX01.value_rounded = 1250\nX01.findings = few, share",
}


def test_a_folder_of_further_cases_is_read_in_addition(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "valuation"
    folder.mkdir()
    (folder / "anything.json").write_text(json.dumps(CASE), "utf-8")
    own = {case.id for case in all_cases()}
    monkeypatch.setenv("APPRAISE_EXTRA_CASES", str(tmp_path))
    further = [case for case in all_cases() if case.id not in own]
    assert [case.id for case in further] == ["X01"]
    computed = further[0].computed()
    assert {label: computed[label] for label in further[0].expected} == further[0].expected


def test_a_part_replaces_sheets_of_its_case(tmp_path: Path) -> None:
    file = tmp_path / "X02.json"
    part = {"scope": "X02.b", "sheets": {"Items": "id\nG77"}, "windows": {"G77": "1937-01/1938-12"}}
    file.write_text(json.dumps({**CASE, "part": [{}, part]}), "utf-8")
    first, second = read_case(file).parts
    assert (first.scope, first.job.items[0].id) == ("X01", "G01")
    assert (second.scope, second.job.items[0].id, second.job.sales[0].price) == ("X02.b", "G77", Decimal("1234.5"))
    assert second.windows["G77"] == months_of("1937-01/1938-12")


@pytest.mark.parametrize(
    "wrong",
    [
        {"shets": {}},
        {"sheets": {"Itms": "id"}},
        {"sheets": {"Items": "id | grad\nG01 | 7"}},
        {"sheets": {"Items": "id | grade\nG01"}},
        {"expected": "a = 1\na = 2"},
    ],
)
def test_a_misspelt_case_is_an_error(wrong: dict[str, object], tmp_path: Path) -> None:
    file = tmp_path / "X03.json"
    file.write_text(json.dumps({**CASE, **wrong}), "utf-8")
    with pytest.raises((KeyError, ValueError)):
        read_case(file)


def test_an_unknown_method_names_the_known_ones() -> None:
    with pytest.raises(KeyError, match="sales comparison"):
        method_named("guess")


def test_every_case_of_the_reference_is_there() -> None:
    labels = {label.split(".")[0] for case in all_cases() for label in case.expected}
    assert {f"V{number:02d}" for number in range(1, 13)} <= labels


def test_expected_figures_are_a_block_or_a_table() -> None:
    assert expected_of("a.b = 1.00\n\na.c = few, share\n") == expected_of({"a.b": "1.00", "a.c": "few, share"})
