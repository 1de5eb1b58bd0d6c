"""Columns that must be filled only under a condition: each condition of the declarations, once, as a function.

The declarations say the condition in words (`required="with a deduction"`); a test compares those words with the
table here, so that none is declared and not checked. "always" is checked by the reader.
"""

from collections.abc import Callable, Iterator
from typing import Any

from appraise.checks.context import CheckContext
from appraise.checks.text import says_nothing
from appraise.model.missing import BLANK, given
from appraise.model.place import Place
from appraise.records.declare import Column, place_of
from appraise.records.job import SHEETS
from appraise.records.vocabulary import (
    Departure,
    DepreciationManner,
    ExpertRecordKind,
    PersonRole,
    PriceKind,
    Route,
    SaleRoute,
    SettlementBasis,
    Treatment,
    Use,
    ValueType,
)

#: From the context and the record to whether the column must be filled.
Condition = Callable[[CheckContext, Any], bool]


def blanks(context: CheckContext, *sheets: str) -> Iterator[tuple[Place, Column, Any]]:
    """Yield place, column and record of each blank that its condition asks to be filled, on sheets of `Job` by field.

    A place at which another part has raised a finding is left out.
    """
    for name in sheets:
        sheet = SHEETS[name]
        asked = [(column, CONDITIONS[name, column.key]) for column in sheet.columns if (name, column.key) in CONDITIONS]
        for record in records_of(context, name):
            for column, condition in asked:
                place = place_of(sheet, record, column.key)
                wanted = getattr(record, column.key) is BLANK and condition(context, record)
                if wanted and place not in context.places_raised:
                    yield place, column, record


def records_of(context: CheckContext, name: str) -> tuple[Any, ...]:
    """Return the records of one sheet; a sheet that holds one record gives a tuple of one, or none."""
    held = getattr(context.job, name)
    return held if isinstance(held, tuple) else (held,)


def _with(key: str) -> Condition:
    return lambda _context, record: given(getattr(record, key))


def _signs_for(use: Use) -> Condition:
    return lambda context, person: context.use is use and person.signs is True


def _named(key: str) -> Condition:
    """Return whether a cell names something or somebody, and does not say that there is nothing (or only oneself)."""

    def named(_context: CheckContext, record: Any) -> bool:
        value = getattr(record, key)
        return given(value) and not says_nothing(value) and value.strip(" .").casefold() not in ("none known", "self")

    return named


def _nonzero(key: str) -> Condition:
    return lambda _context, record: given(getattr(record, key)) and getattr(record, key) != 0


def _use(*uses: Use) -> Condition:
    return lambda context, _record: context.use in uses


def _role(*roles: PersonRole) -> Condition:
    return lambda _context, record: record.role in roles


def _adjusted(context: CheckContext, item: Any) -> bool:
    return given(item.id) and item.id in context.adjusted


def _is(key: str, *values: object) -> Condition:
    return lambda _context, record: getattr(record, key) in values


def _blank_or(key: str, value: object) -> Condition:
    return lambda _context, record: getattr(record, key) in (BLANK, value)


def _given_or_not(key: str, *without: object) -> Condition:
    return lambda _context, record: given(getattr(record, key)) and getattr(record, key) not in without


def _age_without_effective(_context: CheckContext, record: Any) -> bool:
    return record.manner in (BLANK, DepreciationManner.AGE_AND_LIFE) and record.effective_age is BLANK


def _coinsured_with_deductible(_context: CheckContext, policy: Any) -> bool:
    return given(policy.coinsurance) and given(policy.deductible) and policy.deductible != 0


def _cash_value_stated(context: CheckContext, policy: Any) -> bool:
    stated = any(terms.value_type is ValueType.ACTUAL_CASH for terms in context.job.value_terms)
    return stated or policy.basis is SettlementBasis.ACTUAL_CASH


def _sold_for_another_figure(_context: CheckContext, line: Any) -> bool:
    return given(line.price) and given(line.appraised) and line.price != line.appraised


def _counsel_figure(_context: CheckContext, record: Any) -> bool:
    return given(record.other_at_death) or given(record.other_alternate)


def _currency_changed(context: CheckContext, _record: Any) -> bool:
    now = context.job.assignment.currency
    return any(given(line.prior_currency) and line.prior_currency != now for line in context.job.treatments)


_ENTRIES = (ExpertRecordKind.PUBLICATION, ExpertRecordKind.TRIAL, ExpertRecordKind.DEPOSITION)

CONDITIONS: dict[tuple[str, str], Condition] = {
    ("assignment", "death_date"): _use(Use.ESTATE),
    ("assignment", "gift_date"): _use(Use.GIFT, Use.DONATION),
    ("assignment", "loss_date"): _use(Use.CLAIM),
    ("people", "credentials"): _role(PersonRole.APPRAISER, PersonRole.CO_APPRAISER),
    ("people", "categories"): _role(PersonRole.APPRAISER, PersonRole.CO_APPRAISER),
    ("people", "regular"): _signs_for(Use.DONATION),
    ("people", "barred"): _signs_for(Use.DONATION),
    ("people", "assistance"): _role(PersonRole.ASSISTANT),
    ("items", "inspected_on"): lambda _context, item: item.not_inspected_reason is BLANK,
    ("items", "grade"): _adjusted,
    ("parts", "deduction_reason"): _nonzero("deduction"),
    ("comparisons", "discount_reason"): _nonzero("discount"),
    ("comparisons", "level_reason"): _nonzero("level"),
    ("comparisons", "condition_reason"): _nonzero("condition"),
    ("comparisons", "deductions_reason"): _with("deductions"),
    ("comparisons", "configuration_reason"): _nonzero("configuration"),
    ("comparisons", "provenance_reason"): _nonzero("provenance"),
    ("comparisons", "other_reason"): _nonzero("other"),
    ("comparisons", "lump_reason"): _nonzero("lump"),
    ("opinions", "typed_reason"): _with("typed_value"),
    ("opinions", "source"): lambda _context, opinion: opinion.route is Route.SHORT,
    ("clauses", "citation"): _with("official"),
    ("clauses", "edition"): _with("official"),
    ("clauses", "checked_on"): _with("official"),
    ("clauses", "checked_by"): _with("official"),
    ("depreciation", "in_service"): _age_without_effective,
    ("depreciation", "effective_age_reason"): _with("effective_age"),
    ("depreciation", "life"): _blank_or("manner", DepreciationManner.AGE_AND_LIFE),
    ("depreciation", "percent_good"): _is("manner", DepreciationManner.PERCENT_GOOD),
    ("depreciation", "yearly"): _is("manner", DepreciationManner.YEARLY_PERCENT, DepreciationManner.DECLINING),
    ("depreciation", "functional_reason"): _nonzero("functional"),
    ("depreciation", "economic_reason"): _nonzero("economic"),
    ("value_facts", "weight"): _with("points_to"),
    ("losses", "stigma_reason"): _with("stigma"),
    ("losses", "after_repair_reason"): _with("after_repair"),
    ("repairs", "second_estimator"): _with("second_amount"),
    ("policy", "cash_value"): _cash_value_stated,
    ("policy", "deductible_order"): _coinsured_with_deductible,
    ("proceeds", "premium_table"): _blank_or("route", SaleRoute.AUCTION),
    ("proceeds", "months"): _nonzero("yearly"),
    ("alternate", "day"): _given_or_not("departure", Departure.HELD),
    ("alternate", "price_kind"): _with("price"),
    ("alternate", "premium_table"): _is("price_kind", PriceKind.HAMMER),
    ("alternate", "arms_length"): _with("price"),
    ("alternate", "remark"): _sold_for_another_figure,
    ("counsel_figures", "given_by"): _counsel_figure,
    ("transfer", "donee_address"): _use(Use.DONATION),
    ("transfer", "expected_use"): _use(Use.DONATION),
    ("transfer", "property_type"): _use(Use.DONATION),
    ("transfer", "property_reason"): _use(Use.DONATION),
    ("transfer", "appraiser_employer"): _use(Use.DONATION),
    ("transfer", "employer_tax_number"): _named("appraiser_employer"),
    ("transfer", "similar_given"): _use(Use.DONATION),
    ("transfer", "similar_sum"): _named("similar_given"),
    ("shares", "state"): _use(Use.DIVISION),
    ("expert_record", "day"): _is("kind", *_ENTRIES),
    ("expert_record", "what"): _is("kind", *_ENTRIES),
    ("treatments", "prior_day"): _given_or_not("treatment", Treatment.ADDED),
    ("treatments", "prior_rounded"): _given_or_not("treatment", Treatment.ADDED),
    ("treatments", "index"): _is("treatment", Treatment.INDEX),
    ("treatments", "percent"): _is("treatment", Treatment.PERCENT),
    ("treatments", "removed_on"): _is("treatment", Treatment.REMOVED),
    ("yearly_terms", "currency_reason"): _currency_changed,
}
