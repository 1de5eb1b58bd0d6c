"""Declarations: one class a sheet, keys and headings unique, records complete once built."""

from dataclasses import FrozenInstanceError, fields

import pytest

from appraise.model.missing import BLANK
from appraise.model.place import Place
from appraise.records.declare import ColumnKind, filled, place_of
from appraise.records.items import ITEMS, Item
from appraise.records.job import SHEETS, Job


def test_the_job_has_a_field_for_each_sheet_and_no_other() -> None:
    assert {one.name for one in fields(Job)} == set(SHEETS)
    assert len({sheet.name for sheet in SHEETS.values()}) == len(SHEETS)


@pytest.mark.parametrize("field", list(SHEETS))
def test_keys_and_headings_are_unique_on_a_sheet(field: str) -> None:
    sheet = SHEETS[field]
    headings = [heading for column in sheet.columns for heading in (column.heading, *column.former)]
    assert len(set(headings)) == len(headings)
    assert [column.key for column in sheet.columns] == [one.name for one in fields(sheet.record) if one.name != "row"]


@pytest.mark.parametrize("field", list(SHEETS))
def test_closed_lists_and_references_are_whole(field: str) -> None:
    names = {sheet.name for sheet in SHEETS.values()}
    for column in SHEETS[field].columns:
        assert (column.choices is not None) == (column.kind is ColumnKind.CHOICE)
        assert (column.refers_to in names) == (column.kind is ColumnKind.REFERENCE)
        if column.choices is not None and column.example:
            assert column.example in {str(word) for word in column.choices}


def test_a_record_is_frozen_and_what_is_not_typed_is_blank() -> None:
    item = filled(Item, row=4, id="G01")
    assert (item.id, item.serial) == ("G01", BLANK)
    assert place_of(ITEMS, item, "serial") == Place("Items", 4, "serial")
    with pytest.raises(FrozenInstanceError):
        item.id = "G02"  # type: ignore[misc]
    with pytest.raises(TypeError, match="colour"):
        filled(Item, colour="red")
