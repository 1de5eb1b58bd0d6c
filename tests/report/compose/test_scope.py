"""The method statement prints the settings and scales the methods use, not a copy of them."""

from dataclasses import replace
from decimal import Decimal

import pytest
from support.report_job import JOB, inputs

from appraise.records.declare import filled
from appraise.records.market import Opinion
from appraise.records.vocabulary import Combine, Route, ValueType
from appraise.report.compose.report import compose
from appraise.valuing.operations import increment


def scope(job=JOB):
    return compose(inputs(job=job)).report.scope


def table(view, caption):
    return next(one for clause in view.clauses for one in clause.tables if one.caption == caption)


def rows(view, caption):
    return {row.cells[0]: row.cells[1:] for row in table(view, caption).rows}


def test_conventions_for_vague_words():
    found = rows(scope(), "How vague words of date are read")
    assert found["early, mid, late 1959"][0] == "January to June; April to September; July to December"
    assert found["early, mid, late 1959"][1] == "January to April; May to August; September to December"
    assert found["early, mid, late 1950s"] == (
        "1950 to 1954; 1953 to 1957; 1955 to 1959",
        "1950 to 1953; 1954 to 1956; 1957 to 1959",
    )
    assert found["circa 1959"] == ("1954 to 1964 (5 years either side)", "1959")


def test_the_width_of_circa_is_that_of_the_job():
    job = replace(JOB, assignment=replace(JOB.assignment, circa_years=Decimal(3)))
    assert rows(scope(job), "How vague words of date are read")["circa 1959"][0].startswith("1956 to 1962")
    assert rows(scope(job), "Choices of method in this report")["Years of circa, either side"] == ("3",)


def test_the_rounding_scale_is_the_one_the_method_uses():
    found = [row.cells for row in table(scope(), "Final rounding of an opinion").rows]
    assert found == [
        ("under 1,000", "10"),
        ("1,000 to under 10,000", "50"),
        ("10,000 to under 50,000", "100"),
        ("50,000 to under 250,000", "500"),
        ("250,000 and over", "1,000"),
    ]
    for value, printed in (("999.99", "10"), ("1000", "50"), ("49999", "100"), ("249999", "500"), ("250000", "1000")):
        assert increment(Decimal(value)) == Decimal(printed)


@pytest.mark.parametrize(
    ("combine", "words"), [(Combine.MULTIPLY, "multiplied one after the other"), (Combine.ADD, "added")]
)
def test_the_modes_are_those_of_the_job(combine, words):
    job = replace(JOB, assignment=replace(JOB.assignment, combine_deductions=combine))
    assert rows(scope(job), "Choices of method in this report")["Deductions for originality are"] == (words,)


def test_the_three_ways_are_explained_only_where_another_than_the_first_is_taken():
    heading = "The three ways to an opinion"
    assert heading not in [one.heading for one in scope().clauses]
    opinion = filled(Opinion, item="G01", value_type=ValueType.FAIR_MARKET, route=Route.SHORT)
    assert heading in [one.heading for one in scope(replace(JOB, opinions=(opinion,))).clauses]


def test_inspection_says_what_was_not_seen():
    said = next(one for one in scope().clauses if one.heading == "Inspection").paragraphs
    assert said == ("Inspected in person: all items but no. 2. The reasons are given with each.",)
