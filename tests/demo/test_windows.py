"""The windows of manufacture planned by hand, as the comments in the sources state them, are those computed."""

from datetime import date

import pytest
from support.demo import REPOSITORY, read_job

from appraise.jobs.compute import Computation

#: Item: outer window; inner window (EDTF). Worked out by hand from the evidence, before the program could date.
PLANNED = {
    "estate": {
        "G01": ("1937-01/1938-12", "1937-01/1938-01"),
        "G02": ("1934-07/1934-09", "none"),
        "G03": ("1959-07/1960-12", "1959-08/1960-01"),
        "G04": ("none", "none"),
        "G05": ("1927-10/1928-04", "1927-10/1928-04"),
        "G06": ("1924-07/1926-06", "1924-12/1926-06"),
        "G07": ("1931-01/1933-12", "1931-01/1933-12"),
        "G08": ("1925-01/1934-12", "1925-12/1934-07"),
        "G09": ("1910-01/1911-12", "1910-06/1911-12"),
        "G10": ("1956-08/1956-11", "1956-08/1956-11"),
        "G11": ("1895-01/1910-12", "1895-12/1910-01"),
        "G12": ("1911-05/1911-12", "1911-05/1911-12"),
        "G13": ("1945-01/..", "1955-12/.."),
    },
    "insurance": {
        "I01": ("1932-03/1933-03", "1932-03/1933-03"),
        "I02": ("1939-01/1940-12", "1939-06/1940-12"),
        "I03": ("1938-04/1938-12", "1938-09/1938-12"),
        "I04": ("1935-01/1936-12", "1935-01/1936-07"),
        "I05": ("1960-01/1960-12", "1960-01"),
        "I06": ("1961-01/1962-09", "1961-01/1962-04"),
        "I07": ("1961-01/1962-08", "1961-02/1962-07"),
        "I08": ("1928-02/1928-08", "1928-02/1928-08"),
        "I09": ("1915-01/1916-12", "1915-06/1916-12"),
        "I10": ("1927-01/1929-12", "1927-01/1929-12"),
        "I11": ("1930-01/1930-12", "1930-12"),
        "I12": ("1935-01/1938-12", "1935-12/1938-01"),
        "I13": ("1912-01/1913-05", "1912-01/1913-05"),
        "I14": ("1959-03/1959-06", "1959-03/1959-06"),
        "I15": ("1963-08/1963-11", "1963-08/1963-11"),
        "I16": ("1904-01/1912-12", "1904-06/1912-01"),
        "I17": ("1912-01/1934-12", "1912-12/1934-01"),
        "I18": ("1909-05/1910-04", "1909-05/1910-04"),
        "I19": ("1922-01/1922-12", "1922-01/1922-12"),
        "I20": ("1923-01/1925-09", "1923-01/1925-04"),
    },
}


@pytest.mark.parametrize("name", PLANNED)
def test_windows_are_those_planned(name: str) -> None:
    job = read_job(REPOSITORY / "workbooks_demo" / name)
    computation = Computation(job, today=date(2025, 5, 5))
    windows = {str(item.id): computation.date(item) for item in job.items}
    assert {key: (one.outer.edtf(), one.inner.edtf()) for key, one in windows.items()} == PLANNED[name]


def test_the_conflict_leaves_one_best_explanation() -> None:
    """Item G04 without its control of 1964: 1958-07/1960-09, as planned by hand."""
    job = read_job(REPOSITORY / "workbooks_demo" / "estate")
    (bass,) = [item for item in job.items if item.id == "G04"]
    shown = Computation(job, today=date(2025, 5, 5)).date(bass).shown
    assert shown is not None
    assert shown.outer.edtf() == "1958-07/1960-09"
