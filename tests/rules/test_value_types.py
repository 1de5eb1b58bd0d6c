"""Every type of value has a definition with citation; the special one comes before the general one."""

from datetime import date

import pytest

from appraise.records.job import SHEETS
from appraise.records.vocabulary import Use, ValueType
from appraise.rules.uses import use_rules
from appraise.rules.value_types import definition_for, definitions

DAY = date(2024, 11, 15)
WRITTEN = tuple(Use)


@pytest.mark.parametrize("value_type", list(ValueType))
def test_every_value_type_has_a_general_definition(value_type: ValueType) -> None:
    found = definition_for(value_type, Use.EXPERT, "ZZ", DAY)
    assert found is not None
    assert found.statement
    assert found.citation.source
    assert found.slot.startswith("definition.")


@pytest.mark.parametrize(
    ("use", "jurisdiction", "source"),
    [
        (Use.ESTATE, "US", "26 CFR 20.2031-1(b)"),
        (Use.ESTATE, "US-NY", "26 CFR 20.2031-1(b)"),
        (Use.GIFT, "US", "26 CFR 25.2512-1"),
        (Use.DONATION, "US", "26 CFR 1.170A-1(c)(2)"),
        (Use.ESTATE, "GB", "Inheritance Tax Act 1984, section 160"),
    ],
)
def test_fair_market_value_follows_use_and_jurisdiction(use: Use, jurisdiction: str, source: str) -> None:
    found = definition_for(ValueType.FAIR_MARKET, use, jurisdiction, DAY)
    assert found is not None
    assert found.citation.source == source


def test_slots_of_official_wording_are_unique() -> None:
    slots = [one.slot for one in definitions()]
    assert len(slots) == len(set(slots))


@pytest.mark.parametrize("use", WRITTEN)
def test_needs_of_elements_name_declared_columns(use: Use) -> None:
    rules = use_rules(use)
    assert len({one.id for one in rules.elements}) == len(rules.elements)
    for element in rules.elements:
        assert element.section in rules.sections
        for need in element.needs:
            if need == "program" or need.endswith(" per item") or need.startswith("wording "):
                continue
            for alternative in need.split("|"):
                sheet, key = alternative.split(".")
                assert SHEETS[{"signers": "people"}.get(sheet, sheet)].column(key).key == key


def test_replacement_value_is_refused_for_an_estate() -> None:
    """26 CFR 20.2031-1(b): an estate is taxed on fair market value."""
    assert ValueType.RETAIL_REPLACEMENT in use_rules(Use.ESTATE).refuses
    assert ValueType.FAIR_MARKET in use_rules(Use.INSURANCE).warns
