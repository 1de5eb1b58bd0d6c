"""Published dating facts and number tables, against the publications they come from."""

from collections import Counter

import pytest

from appraise.dating.dated import Dated
from appraise.dating.lookup import months_of_fact
from appraise.dating.settings import Settings
from appraise.model.months import Months, month_number
from appraise.records.vocabulary import EvidenceKind
from appraise.rules.published import (
    FactSeen,
    facts,
    gb_diamond,
    gb_registered_design,
    us_design_patent,
    us_patent,
    variants_of,
)

SETTINGS = Settings(month_number(2026, 11))


def _row(name: str) -> str:
    return name.partition("-")[0]


def test_every_row_ships_with_its_source() -> None:
    """223 rows; 127 rest at least in part on a text seen or retold, the others are marked as from memory."""
    rows = {_row(name): fact for name, fact in facts().items()}
    assert len(rows) == 223
    seen = Counter(fact.seen for fact in rows.values())
    assert 223 - seen[FactSeen.MEMORY] == 127
    for name, fact in facts().items():
        assert fact.mark and fact.rule and fact.source, name
        assert fact.kind in set(EvidenceKind), name


@pytest.mark.parametrize("name", sorted(facts()))
def test_every_fact_can_be_computed_with(name: str) -> None:
    fact = facts()[name]
    read = months_of_fact(fact, SETTINGS, "1910" if fact.asks else "")
    assert isinstance(read, Dated), read
    assert read.outer
    assert (read.outer == Months.between(None, None)) is not fact.bounds
    assert read.inner <= read.outer


def test_memory_counts_as_two_at_most() -> None:
    for fact in facts().values():
        assert fact.seen.strength == (3 if fact.seen in (FactSeen.SEEN, FactSeen.IN_PART) else 2)


def test_species_never_bound() -> None:
    assert not any(fact.bounds for name, fact in facts().items() if name.startswith("J"))


def test_rows_with_several_parts_have_an_id_for_each() -> None:
    assert [fact.id for fact in variants_of("B24")] == ["B24-burma", "B24-myanmar"]
    assert variants_of("C02") == ()


@pytest.mark.parametrize(
    ("name", "outer", "publication"),
    [
        ("A01", "1891-03/..", "Tariff Act of 1 October 1890, section 6: from 1 March 1891, not from enactment"),
        ("C01", "1943-05/1965-07", "zip.international: zones 1943 to mid-1963, with two years of printed stock"),
        ("C02", "1963-07/..", "piglix.com, ZIP code: 1 July 1963"),
        ("C03", "1963-10/..", "piglix.com, ZIP code: Publication 59 of 1 October 1963"),
        ("C04", "1983-01/..", "piglix.com, ZIP code: nine figures in 1983"),
        ("E03", "1946-07/..", "Trademark Act approved 5 July 1946, effective 5 July 1947"),
        (
            "A07",
            "1947-02/1955-04",
            "SCAPIN 1535 of 20 February 1947; occupation ended 28 April 1952; three years of dies",
        ),
        ("C13", "1993-07/..", "briefmarkenzeitung.ch 7/2023: five figures on 1 July 1993"),
        ("D08", "1990-05/1997-04", "lightstraw.uk: 6 May 1990 to 16 April 1995, with two years of stationery"),
        ("K03", "1976-01/1976-12", "assayoffice.co.uk: one letter a calendar year since 1975"),
    ],
)
def test_facts_as_months(name: str, outer: str, publication: str) -> None:
    fact = facts()[name]
    read = months_of_fact(fact, SETTINGS, "1976" if fact.asks else "")
    assert isinstance(read, Dated)
    assert read.outer.edtf() == outer, publication


# US Patent Office, table of issue years and patent numbers, 19th century: two public copies agree
# (uspat.com, page of issue years; mwtca.org, list of first patents).
NINETEENTH = {
    1836: 1,
    1837: 110,
    1838: 546,
    1840: 1465,
    1841: 1923,
    1850: 6981,
    1860: 26642,
    1870: 98460,
    1880: 223211,
    1881: 236137,
    1890: 418665,
    1891: 443987,
    1899: 616871,
    1900: 640167,
    1901: 664827,
    1902: 690385,
    1903: 717521,
}
# The same table, 20th century: 1920 to 1935 and 1960 to 1975 from a public copy (mwtca.org); the others from memory.
TWENTIETH = {
    1906: 808618,
    1907: 839799,
    1911: 980178,
    1912: 1013095,
    1920: 1326899,
    1921: 1364063,
    1922: 1401948,
    1923: 1440362,
    1924: 1478996,
    1925: 1521590,
    1926: 1568040,
    1928: 1654521,
    1929: 1696897,
    1930: 1742181,
    1932: 1839190,
    1933: 1892663,
    1934: 1941449,
    1935: 1985878,
    1936: 2026516,
    1950: 2492944,
    1951: 2536016,
    1960: 2919443,
    1961: 2966681,
    1962: 3015103,
    1963: 3070801,
    1964: 3116487,
    1965: 3163865,
    1966: 3226729,
    1967: 3295143,
    1968: 3360800,
    1969: 3419907,
    1970: 3487470,
    1971: 3551909,
    1972: 3631539,
    1973: 3707729,
    1974: 3781914,
    1975: 3858241,
    1976: 3930271,
    1977: 4000520,
}
#: Years near whose first number copies of the table disagree: both years are given there.
DISPUTED = {1839, 1927, 1972}


@pytest.mark.parametrize(("year", "number"), [*NINETEENTH.items(), *TWENTIETH.items()])
def test_the_first_patent_of_the_year_and_the_one_before(year: int, number: int) -> None:
    found = us_patent(number)
    assert found is not None
    assert found.last == year
    assert found.first == (year - 1 if year in DISPUTED else year)
    before = us_patent(number - 1)
    assert before is None if number == 1 else (before is not None and before.last is not None and before.last < year)


@pytest.mark.parametrize(
    ("number", "year"),
    [(223898, 1880), (1647, 1840), (420000, 1890), (418664, 1889), (418665, 1890), (821393, 1906), (2524035, 1950)],
)
def test_well_known_patents_fall_in_their_year(number: int, year: int) -> None:
    """Public pages on well-known patents, and the boundary of 1889 and 1890."""
    found = us_patent(number)
    assert found is not None
    assert (found.first, found.last) == (year, year)


@pytest.mark.parametrize(
    ("number", "year"),
    [
        (1, 1836),
        (1_000_000, 1911),
        (2_000_000, 1935),
        (3_000_000, 1961),
        (4_000_000, 1976),
        (10_000_000, 2018),
        (11_000_000, 2021),
    ],
)
def test_milestones_of_the_patent_office(number: int, year: int) -> None:
    """uspto.gov, patents/milestones: 13 July 1836, 8 August 1911, 30 April 1935, 12 September 1961, 28 December 1976,
    19 June 2018, 11 May 2021."""
    found = us_patent(number)
    assert found is not None
    assert found.first == year


@pytest.mark.parametrize(
    ("year", "granted"), [(1963, 45679), (1964, 47375), (1965, 62857), (1966, 68405), (1967, 65652)]
)
def test_grants_counted_by_the_office_fit_the_table(year: int, granted: int) -> None:
    """uspto.gov, counts of patents granted: at most 30 below the gap of first numbers, as a few stay unused."""
    gap = TWENTIETH[year + 1] - TWENTIETH[year]
    assert 0 <= gap - granted <= 30
    found = us_patent(TWENTIETH[year] + gap - 1)
    assert found is not None
    assert found.last == year


@pytest.mark.parametrize(("number", "years"), [(1080, (1838, 1839)), (1612750, (1926, 1927)), (3632000, (1971, 1972))])
def test_where_copies_disagree_both_years_are_given(number: int, years: tuple[int, int]) -> None:
    found = us_patent(number)
    assert found is not None
    assert ((found.first, found.last), found.disputed) == (years, True)


def test_numbers_outside_the_table() -> None:
    assert us_patent(0) is None
    latest = us_patent(99_999_999)
    assert latest is not None
    assert (latest.first, latest.last) == (2021, None)


@pytest.mark.parametrize(
    ("number", "first", "last"),
    [(1, 1843, 1849), (258, 1850, 1859), (35547, 1902, 1902), (36187, 1903, 1909), (607176, 2010, None)],
)
def test_us_design_patents(number: int, first: int, last: int | None) -> None:
    """uspat.com, table of design patents to 1903 (1843 D1, 1850 D258, 1902 D35547, 1903 D36187); later from memory."""
    found = us_design_patent(number)
    assert found is not None
    assert (found.first, found.last) == (first, last)


@pytest.mark.parametrize(
    ("number", "first", "last"), [(1, 1884, 1884), (351202, 1900, 1900), (368200, 1900, 1901), (821265, 1930, 1939)]
)
def test_british_registered_designs(number: int, first: int, last: int) -> None:
    """Circulating list, from memory; oldcopper.org has no. 821265 registered in 1937. A year either way near 1901."""
    found = gb_registered_design(number)
    assert found is not None
    assert (found.first, found.last) == (first, last)


@pytest.mark.parametrize(
    ("kind", "year", "month", "expected"),
    [
        (1, "X", "R", ((1842, 8),)),
        (1, "A", "A", ((1845, 12),)),
        (1, "R", "K", ((1861, 11),)),
        (1, "K", "R", ((1857, 8), (1857, 9))),
        (1, "Z", "K", ((1860, 11), (1860, 12))),
        (2, "X", "H", ((1868, 4),)),
        (2, "K", "A", ((1883, 12),)),
        (2, "B", "A", ()),
        (1, "A", "J", ()),
    ],
)
def test_letters_of_the_british_diamond(
    kind: int, year: str, month: str, expected: tuple[tuple[int, int], ...]
) -> None:
    """oldcopper.org, special topics, registered designs; irregular months of 1857 and 1860 on another page."""
    assert gb_diamond(kind, year, month) == expected
