"""Next year's workbook: every typed cell is carried or listed, matched by id; the file of this year is left alone."""

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
from support.demo import REPOSITORY, job_folders, read_rows

from appraise.files.hashes import sha256_of
from appraise.files.unusable import UnusableFile
from appraise.jobs.examine import examine
from appraise.jobs.revalue import Revalued, next_stem, revalue_job
from appraise.jobs.words import UnknownWordError
from appraise.model.missing import BLANK, given
from appraise.records.job import SHEETS
from appraise.records.vocabulary import Market, Treatment, Use, ValueType
from appraise.workbook.layout import AGE, CARRIED_OVER
from appraise.workbook.reading.read import ReadResult, read_job
from appraise.workbook.renewing.renewal import last_year_heading
from appraise.workbook.rows import OWN
from appraise.workbook.writing.write import write_job

NEXT = date(2026, 6, 30)
TODAY = date(2026, 7, 1)
JOBS = [folder.name for folder in job_folders()]


def renewed(workbook: Path, out: Path, effective: date = NEXT) -> tuple[Revalued, ReadResult]:
    done = revalue_job(workbook, effective, out, overwrite=False, today=TODAY)
    return done, read_job(done.written)


def demo(name: str) -> Path:
    return REPOSITORY / "workbooks_demo" / name / f"{name}.xlsx"


def own_values(read: ReadResult) -> dict[tuple[str, int, str], Any]:
    return {(one.sheet, row, one.heading): value for one in read.extra_columns for row, value in one.values.items()}


def lost_cells(before: ReadResult, after: ReadResult, done: Revalued) -> list[tuple[str, int, str]]:
    """Return every typed cell that is neither in the new workbook under its id nor listed with its place."""
    listed = {(one.sheet, one.row, one.heading) for one in done.left}
    lost = []
    for name, sheet in SHEETS.items():
        old, new = getattr(before.job, name), getattr(after.job, name)
        records = [old] if sheet.form else old
        unused = [new] if sheet.form else list(new)
        for record in records:
            typed = {one.key: getattr(record, one.key) for one in sheet.columns if given(getattr(record, one.key))}
            due = {key: value for key, value in typed.items() if _unlisted(sheet, record, key, listed)}
            match = next((one for one in unused if all(getattr(one, key) == due[key] for key in due)), None)
            if due and match is None:
                lost += [(sheet.name, record.row, key) for key in due]
            elif match is not None and due:
                unused.remove(match)
    return lost


def _unlisted(sheet: Any, record: Any, key: str, listed: set[tuple[str, int, str]]) -> bool:
    return (sheet.name, record.row, sheet.column(key).heading) not in listed


@pytest.mark.parametrize("name", JOBS)
def test_every_typed_cell_is_carried_or_listed_with_its_reason(name: str, tmp_path: Path) -> None:
    mark = sha256_of(demo(name))
    done, after = renewed(demo(name), tmp_path)
    assert lost_cells(read_job(demo(name)), after, done) == []
    assert all(one.reason for one in done.left)
    assert sha256_of(demo(name)) == mark


@pytest.mark.parametrize("name", JOBS)
def test_what_was_carried_is_read_without_a_fault(name: str, tmp_path: Path) -> None:
    done, after = renewed(demo(name), tmp_path)
    blank = {"CEL-21", "CEL-22"}
    assert [one for one in after.findings if one.code not in blank] == []
    assert done.written.name == f"{name}-2026.xlsx"
    assert all((tmp_path / str(one.file)).is_file() for one in after.job.photos)


def test_the_lines_of_the_yearly_demonstration(tmp_path: Path) -> None:
    """Prior values are those of case V12; the line removed there is gone, the one held stays held."""
    done, after = renewed(demo("yearly"), tmp_path)
    lines = {str(one.item): one for one in after.job.treatments}
    assert list(lines) == ["Y01", "Y02", "Y03", "Y04", "Y05", "Y06", "Y07", "Y08", "Y09", "Y11", "Y12"]
    proposed = {item: str(one.treatment) for item, one in lines.items()}
    assert proposed == {
        "Y01": "index",
        "Y02": "fresh comparables",
        "Y03": "fresh comparables",
        "Y04": "fresh comparables",
        "Y05": "index",
        "Y06": "index",
        "Y07": "hold",
        "Y08": "index",
        "Y09": "fresh comparables",
        "Y11": "percent",
        "Y12": "fresh comparables",
    }
    first = lines["Y01"]
    assert (first.prior_value, first.prior_rounded, first.prior_day) == (
        Decimal("42787.62"),
        Decimal(42800),
        date(2025, 6, 30),
    )
    assert (first.prior_market, first.prior_value_type, first.prior_currency) == (
        Market.DEALER_RETAIL,
        ValueType.RETAIL_REPLACEMENT,
        "USD",
    )
    assert (first.index, first.rolled_years, first.inspected, first.owner_reply) == (
        "FLAT",
        1,
        date(2023, 5, 12),
        BLANK,
    )
    assert lines["Y04"].rolled_years == 3
    assert lines["Y07"].prior_day == date(2024, 6, 30), "a held line keeps the day of its value"
    assert all(given(one.reason) for one in lines.values())
    assert after.job.items[9].id == "Y11"
    assert {one.reason for one in done.left if one.value == "Y10" and one.sheet == "Items"} == {
        "Y10 was removed from the schedule on 2025-02-14"
    }


def test_the_assignment_is_renewed_and_discloses_last_years_report(tmp_path: Path) -> None:
    _, after = renewed(demo("insurance"), tmp_path)
    before, now = read_job(demo("insurance")).job.assignment, after.job.assignment
    assert (now.use, now.effective_date) == (Use.YEARLY, NEXT)
    assert (now.report_date, now.signed_on, now.engaged_on, now.scope) == (BLANK, BLANK, BLANK, BLANK)
    assert (now.client, now.currency, now.title) == (before.client, before.currency, before.title)
    assert given(before.effective_date) and given(now.prior_services)
    assert now.prior_services.endswith("as of April 11, 2025 (report of May 5, 2025).")
    assert after.job.yearly_terms.prior_day == before.effective_date
    assert own_values(after)["Assignment", _line(after, "Scope of work last year"), "Scope of work last year"]
    assert [one.id for one in after.job.assumptions if str(one.id).startswith("NI-")] == ["NI-2026"]


def _line(read: ReadResult, heading: str) -> int:
    (extra,) = [one for one in read.extra_columns if one.heading == heading]
    return next(iter(extra.values))


def test_sales_show_their_age_and_comparisons_weigh_nothing_until_confirmed(tmp_path: Path) -> None:
    _, after = renewed(demo("yearly"), tmp_path)
    before = read_job(demo("yearly")).job
    shown = own_values(after)
    sales = {str(one.id): one for one in after.job.sales}
    assert shown["Sales", sales["S03-3"].row, AGE] == Decimal(_months(sales["S03-3"].day, NEXT))
    assert {one.weight for one in after.job.comparisons} == {Decimal(0)}
    heading = last_year_heading("comparisons", "weight")
    weights = {(str(one.item), str(one.sale)): one.weight for one in before.comparisons}
    for one in after.job.comparisons:
        assert shown["Comparisons", one.row, heading] == weights[str(one.item), str(one.sale)]


def _months(first: Any, last: date) -> int:
    return 12 * (last.year - first.year) + last.month - first.month - (last.day < first.day)


def test_a_finding_answered_last_year_is_shown_again_only_while_it_is_found(tmp_path: Path) -> None:
    """Y06 is still due for inspection; Y04 is no longer proposed to be rolled, so its two answers are gone."""
    done, after = renewed(demo("yearly"), tmp_path)
    assert done.open_again == 1
    (answer,) = after.job.answers
    assert (answer.code, answer.subjects, answer.reason) == ("YRL-02", "Y06", BLANK)
    said = own_values(after)["Answers", answer.row, last_year_heading("answers", "reason")]
    assert str(said).startswith("The banjo is lent")


def with_own_cells(folder: Path) -> Path:
    """Write the yearly demonstration with columns, lines and a sheet of the user's own."""
    rows: dict[str, Any] = {name: list(lines) for name, lines in read_rows(demo("yearly").parent).items()}
    rows["items"] = [{**row, OWN: {"Shelf": f"shelf {number}"}} for number, row in enumerate(rows["items"])]
    rows["sales"] = [{**row, OWN: {"Seen last year": "yes"}} for row in rows["sales"]]
    rows["assignment"][0][OWN] = {"File number": "K-17"}
    copytree(demo("yearly").parent / "photos", folder / "photos")
    copytree(demo("yearly").parent / "pages", folder / "pages")
    sheet = ("Insurer's notes", ((1, 1, "call in May"), (3, 2, Decimal("12.5"))))
    return write_job(folder / "own.xlsx", rows, extra=[sheet])


def test_the_users_own_columns_and_sheets_are_kept_two_years_on(tmp_path: Path) -> None:
    first, _ = renewed(with_own_cells(tmp_path / "one"), tmp_path / "two")
    second, after = renewed(first.written, tmp_path / "three", date(2027, 6, 30))
    assert second.written.name == "own-2027.xlsx"
    items = {one.row: str(one.id) for one in after.job.items}
    shelves = {items[row]: value for (sheet, row, heading), value in own_values(after).items() if heading == "Shelf"}
    assert shelves["Y01"] == "shelf 0" and shelves["Y12"] == "shelf 11" and "Y10" not in shelves
    headings = {(one.sheet, one.heading) for one in after.extra_columns}
    assert {("Sales", "Seen last year"), ("Assignment", "File number"), ("Sales", AGE)} <= headings
    (sheet,) = after.extra_sheets
    assert sheet.name == "Insurer's notes"
    assert sheet.cells == ((1, 1, "call in May"), (3, 2, Decimal("12.5")))
    assert any(one.heading == "Shelf" and one.value == "shelf 9" for one in first.left), "that of the removed line"
    assert CARRIED_OVER not in {one.name for one in after.extra_sheets}


def test_prior_services_of_two_years_stand_one_after_the_other(tmp_path: Path) -> None:
    first, _ = renewed(demo("insurance"), tmp_path / "one")
    _, after = renewed(first.written, tmp_path / "two", date(2027, 6, 30))
    services = after.job.assignment.prior_services
    assert given(services)
    assert services.count("This appraiser appraised the same property") == 2
    assert "June 30, 2026" in services


def test_a_day_that_is_not_later_and_a_file_that_is_the_users_are_refused(tmp_path: Path) -> None:
    with pytest.raises(UnknownWordError, match="not later"):
        revalue_job(demo("yearly"), date(2025, 6, 30), tmp_path, overwrite=False, today=TODAY)
    own = tmp_path / "yearly-2026.xlsx"
    own.write_bytes(b"mine")
    with pytest.raises(UnusableFile, match="already there"):
        revalue_job(demo("yearly"), NEXT, tmp_path, overwrite=False, today=TODAY)
    assert own.read_bytes() == b"mine"


def test_same_input_same_bytes(tmp_path: Path) -> None:
    one, _ = renewed(demo("yearly"), tmp_path / "one")
    two, _ = renewed(demo("yearly"), tmp_path / "two")
    assert sha256_of(one.written) == sha256_of(two.written)
    assert one.written.parent != two.written.parent


def test_the_name_takes_the_new_year() -> None:
    names = {stem: next_stem(stem, date(2025, 6, 30), NEXT) for stem in ("marsk", "marsk-2025", "marsk-2024")}
    expected: Mapping[str, str] = {"marsk": "marsk-2026", "marsk-2025": "marsk-2026", "marsk-2024": "marsk-2024-2026"}
    assert names == expected


def test_removed_lines_have_no_successor(tmp_path: Path) -> None:
    done, after = renewed(demo("yearly"), tmp_path)
    assert Treatment.REMOVED not in {one.treatment for one in done.lines_made}
    for name in ("items", "parts", "evidence", "photos", "history", "opinions", "inspection"):
        about = {getattr(one, "item", None) or getattr(one, "id", None) for one in getattr(after.job, name)}
        assert "Y10" not in about


def test_a_set_split_since_last_year_leaves_and_its_pieces_come_in(tmp_path: Path) -> None:
    """Y11 is split on 2026-03-01: its line is removed with its prior value, the pieces are added without one."""
    rows: dict[str, Any] = {name: list(lines) for name, lines in read_rows(demo("yearly").parent).items()}
    service = next(row for row in rows["items"] if row["id"] == "Y11")
    rows["items"] += [{**service, "id": piece, "number": piece} for piece in ("Y11a", "Y11b")]
    rows["renamings"] = [
        {"old": "Y11", "new": piece, "day": date(2026, 3, 1), "reason": "the tray is kept elsewhere"}
        for piece in ("Y11a", "Y11b")
    ]
    for row in ("Y11a", "Y11b"):
        rows["opinions"].append(
            {
                "item": row,
                "value_type": ValueType.RETAIL_REPLACEMENT,
                "not_valued": "not yet a line of its own in this schedule",
                "reconciliation": "The piece is part of the service until the split in March 2026.",
            }
        )
    done, after = renewed(write_job(tmp_path / "set.xlsx", rows), tmp_path / "out")
    lines = {str(one.item): one for one in after.job.treatments}
    assert (lines["Y11"].treatment, lines["Y11"].removed_on) == (Treatment.REMOVED, date(2026, 3, 1))
    assert lines["Y11"].prior_rounded == Decimal(16500)
    assert [(lines[piece].treatment, lines[piece].prior_value) for piece in ("Y11a", "Y11b")] == [
        (Treatment.ADDED, BLANK),
        (Treatment.ADDED, BLANK),
    ]
    found = {one.finding.code for one in examine(done.written, today=TODAY).judged}
    assert not found & {"SCH-02", "SCH-03", "YRL-31", "YRL-32", "YRL-33"}
    assert [row.new for row in after.job.renamings] == ["Y11a", "Y11b"]
