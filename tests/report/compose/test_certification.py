"""Certification and limiting conditions: every statement follows what was entered."""

from dataclasses import replace

import pytest
from support.report_job import JOB, inputs

from appraise.model.missing import BLANK
from appraise.records.vocabulary import FeeBasis, Use
from appraise.report.compose.limiting import CONDITIONS
from appraise.report.compose.report import compose
from appraise.wording.texts import originals


def statements(**changes):
    job = replace(JOB, assignment=replace(JOB.assignment, **changes))
    return compose(inputs(job=job)).report.certification.statements


def one_with(words, found):
    return [one for one in found if words in one]


def test_prior_services_none_some_and_not_stated():
    assert one_with("no service", statements())
    told = one_with("the following services", statements(prior_services="appraised for insurance in 2023."))
    assert told and told[0].endswith("appraised for insurance in 2023;")
    assert one_with("has not been stated", statements(prior_services=BLANK))
    assert not one_with("no service", statements(prior_services=BLANK))


def test_the_fee_is_stated_and_a_contingent_one_is_not_hidden():
    assert one_with("measured by the hour", statements())
    contingent = one_with("a percent of the value", statements(fee_basis=FeeBasis.PERCENT))
    assert contingent and "do not allow" in contingent[0]


def test_interest_of_those_who_sign():
    appraiser = replace(JOB.people[0], interest="bought a guitar from the estate")
    job = replace(JOB, people=(appraiser,))
    found = compose(inputs(job=job)).report.certification.statements
    assert one_with("bought a guitar from the estate", found)
    assert not one_with("no present or expected interest", found)


def test_inspection_names_who_saw_what():
    found = statements()
    assert one_with("M. Tarrow inspected every item in person but no. 2", found)
    assert one_with("L. Iverdale inspected no. 1 in person", found)
    table = compose(inputs()).report.certification.inspection
    assert table.rows[0].cells[2] == "M. Tarrow and L. Iverdale"
    assert "in store abroad" in table.rows[1].cells[2]


def test_assistance_is_named_or_denied():
    assert one_with("photography and measuring", statements())
    alone = replace(JOB, people=JOB.people[:1])
    assert one_with("nobody gave significant help", compose(inputs(job=alone)).report.certification.statements)


def test_tax_statement_only_for_tax_uses():
    assert one_with("tax return", statements())
    assert not one_with("tax return", statements(use=Use.INSURANCE))


def test_unsigned_by_design_with_a_line_for_each_who_signs():
    view = compose(inputs()).report.certification
    assert "unsigned as produced" in view.unsigned_note
    assert [one.name for one in view.signatures] == ["M. Tarrow"]
    assert view.signatures[0].date_label


def test_nobody_named_still_leaves_a_line():
    job = replace(JOB, people=())
    assert len(compose(inputs(job=job)).report.certification.signatures) == 1


def titles(job):
    return [one.heading for one in compose(inputs(job=job)).report.limiting.clauses]


def test_limiting_conditions_follow_the_assignment():
    estate = titles(JOB)
    assert "Tax" in estate and "The policy" not in estate
    assert "Electrical safety" in estate
    insurance = titles(replace(JOB, assignment=replace(JOB.assignment, use=Use.INSURANCE)))
    assert "The policy" in insurance and "Tax" not in insurance
    acoustic = titles(replace(JOB, items=JOB.items[:1]))
    assert "Electrical safety" not in acoustic
    assert "Extraordinary assumptions" in estate
    assert "Extraordinary assumptions" not in titles(replace(JOB, assumptions=()))
    assert "Hypothetical conditions" not in estate


def test_limiting_conditions_are_numbered_without_gaps():
    clauses = compose(inputs()).report.limiting.clauses
    assert [one.number for one in clauses] == [str(number) for number in range(1, len(clauses) + 1)]


@pytest.mark.parametrize("name", [name for name, _ in CONDITIONS])
def test_each_condition_has_title_and_text(name):
    assert f"limiting.{name}" in originals()
    assert f"limiting-title.{name}" in originals()


def test_no_limiting_text_is_left_out_of_the_list():
    texts = {key.removeprefix("limiting.") for key in originals() if key.startswith("limiting.")}
    assert texts - {"intro"} == {name for name, _ in CONDITIONS}


def test_cautions_stand_in_every_report():
    report = compose(inputs()).report
    assert "not legal, tax or insurance advice" in report.cover.caution
    assert any("not legal, tax or insurance advice" in one for one in report.letter.paragraphs)
    assert any(one.heading == "Local rules" for one in report.limiting.clauses)
