"""The table of required elements, and the findings about what is lacking."""

from dataclasses import replace

from support.checks import sound_job

from appraise.checks.context import CheckContext
from appraise.checks.elements import element_findings, element_states, is_covered
from appraise.model.finding import finding
from appraise.model.missing import BLANK, UNKNOWN
from appraise.model.place import Place
from appraise.records.job import Job


def with_item(**values: object) -> Job:
    job = sound_job()
    return replace(job, items=(replace(job.items[0], **values), *job.items[1:]))  # type: ignore[arg-type]


def test_an_element_is_lacking_for_the_item_that_lacks_it() -> None:
    job = with_item(dimensions=BLANK)
    states = {one.element.id: one for one in element_states(job, {})}
    assert states["object-data"].present is False
    assert states["object-data"].lacking == (str(job.items[0].id),)
    assert states["client"].present is True


def test_unknown_is_an_answer_and_a_blank_is_not() -> None:
    assert {one.element.id: one.present for one in element_states(with_item(dimensions=UNKNOWN), {})}["object-data"]


def test_nothing_is_asked_without_a_use() -> None:
    job = sound_job()
    assert element_states(replace(job, assignment=replace(job.assignment, use=BLANK)), {}) == ()


def test_a_lacking_cell_makes_one_finding_where_nobody_has_spoken_of_it() -> None:
    job = with_item(dimensions=BLANK)
    place = Place("Items", job.items[0].row, "dimensions")
    assert [(one.code, one.place) for one in element_findings(CheckContext(job), [])] == [("ELM-01", place)]
    assert list(element_findings(CheckContext(job), [finding("CEL-01", place)])) == []


def test_another_jurisdiction_gets_the_caution_that_local_rules_apply() -> None:
    job = sound_job()
    abroad = replace(job, assignment=replace(job.assignment, jurisdiction="NO"))
    assert not is_covered(abroad)
    assert [one.code for one in element_findings(CheckContext(abroad), [])] == ["ELM-03"]
    assert is_covered(replace(job, assignment=replace(job.assignment, jurisdiction="US-NY")))
