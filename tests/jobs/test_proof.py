"""The proof of a job against its report: every printed figure is one of the proof's, and is printed as it is."""

import dataclasses
import re
import zipfile
from calendar import month_abbr
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from support.demo import job_folders, workbook_of
from support.proofs import lines_of

from appraise.jobs import report as report_job
from appraise.jobs.examine import Examined, examine
from appraise.jobs.proof import item_blocks, job_figures, whole_block, write_job_proof
from appraise.jobs.revalue import revalue_job
from appraise.records.job import SHEETS
from appraise.report.compose.printing import PrintedFigures
from appraise.rules.cited import tables_in

TODAY = date(2025, 5, 5)
NAMES = [folder.name for folder in job_folders()]
NUMBER = re.compile(r"[−+-]?\d+(?:,\d{3})*(?:\.\d+)?")
MONTHS = {name: number for number, name in enumerate(month_abbr) if name}


@dataclass
class Made:
    """A report that was written, with what was printed in it and the values in its proof by id."""

    examined: Examined
    printed: dict[str, list[str]]
    text: str
    proof: dict[str, Any]
    folder: Path


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Made]:
    return {folder.name: _made(folder, tmp_path_factory.mktemp(folder.name)) for folder in job_folders()}


def _made(folder: Path, out: Path) -> Made:
    printed = PrintedFigures()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(report_job, "PrintedFigures", lambda: printed)
        done = report_job.write_report(workbook_of(folder), out, draft=True, overwrite=False, today=TODAY)
    paths = {one.what: one.path for one in done.written}
    document = zipfile.ZipFile(paths["Draft"]).read("word/document.xml").decode()
    text = re.sub("<[^>]+>", " ", document.replace("</w:p>", "\n"))
    values = {line.id: line.live if line.ours is None else line.ours for line in lines_of(paths["Proof"])}
    return Made(done.examined, printed.texts, text, values, folder)


def value_of(text: str) -> Decimal:
    """Return the one number in a printed text."""
    (number,) = NUMBER.findall(text.replace("\xa0", " "))
    return Decimal(number.replace(",", "").replace("−", "-"))


def day_of(text: str) -> str:
    month, day, year = text.replace(",", "").split()
    return f"{year}-{MONTHS[month]:02d}-{int(day):02d}"


@pytest.mark.parametrize("name", NAMES)
def test_every_printed_figure_is_one_of_the_proof(made: dict[str, Made], name: str) -> None:
    assert len(made[name].printed) > 80
    assert set(made[name].printed) - set(made[name].proof) == set()


@pytest.mark.parametrize("name", NAMES)
def test_every_printed_text_is_the_figure_of_the_proof(made: dict[str, Made], name: str) -> None:
    for id_, texts in made[name].printed.items():
        value = made[name].proof[id_]
        for text in texts:
            if isinstance(value, int | float):
                assert value_of(text) == Decimal(format(value, ".15g")), id_
            elif re.fullmatch(r"\d{4}-\d\d-\d\d", value):
                assert day_of(text) == value, id_
            else:
                assert text and not NUMBER.fullmatch(text), id_


def known_amounts(made: Made) -> Iterator[str]:
    """Yield the numbers that may stand in a report without being figures: typed ones, and limits set by law."""
    for key in SHEETS:
        records = getattr(made.examined.job, key)
        for record in records if isinstance(records, tuple) else (records,):
            for column in dataclasses.fields(record):
                value = getattr(record, column.name)
                if isinstance(value, Decimal):
                    yield from (f"{value:,f}", f"{value:,.2f}")
                elif isinstance(value, str):
                    yield from NUMBER.findall(value)
    for _file, rules in tables_in("thresholds"):
        for rule in rules.values():
            yield from (f"{Decimal(value['figure']):,.2f}" for value in rule["value"])


#: Steps of the rounding scale (method rule R2), which every report prints.
SCALE = {"1,000", "10,000", "50,000", "250,000"}


@pytest.mark.parametrize("name", NAMES)
def test_no_amount_is_printed_past_the_one_function(made: dict[str, Made], name: str) -> None:
    one = made[name]
    through = {
        number.lstrip("+−-") for texts in one.printed.values() for text in texts for number in NUMBER.findall(text)
    }
    amounts = set(re.findall(r"(?<![\d.,])\d{1,3}(?:,\d{3})+(?:\.\d\d)?(?![\d.]|,\d)", one.text))
    assert len(amounts) > 20
    assert amounts - through - {number.lstrip("+−-") for number in known_amounts(one)} - SCALE == set()


@pytest.mark.parametrize("name", NAMES)
def test_figures_rest_on_figures_made_before(made: dict[str, Made], name: str) -> None:
    known: set[str] = set()
    for figure in job_figures(made[name].examined):
        assert set(figure.arguments) <= known, figure.id
        assert figure.id not in known
        known.add(figure.id)
    assert known == set(made[name].proof)


def test_windows_of_manufacture_are_worked_out_from_months(made: dict[str, Made]) -> None:
    proof = made["estate"].proof
    first, last = proof["G01.window.first"], proof["G01.window.last"]
    window = made["estate"].examined.results["G01"].window
    assert window is not None
    assert (first, last) == (window.outer.first, window.outer.last)
    assert proof["G01.window.months"] == window.outer.edtf()


def test_totals_and_bridge_stand_in_the_proof(made: dict[str, Made]) -> None:
    assert made["estate"].proof["schedule.fair_market_value.total"] > 0
    assert "I08.bridge.costs" in made["insurance"].proof
    yearly = made["yearly"].proof
    assert yearly["schedule.rrv.new_total"] == 297_600


def test_the_same_job_gives_the_same_bytes() -> None:
    examined = examine(workbook_of(job_folders()[0]), today=TODAY)
    first, second = BytesIO(), BytesIO()
    write_job_proof(first, examined)
    write_job_proof(second, examine(workbook_of(job_folders()[0]), today=TODAY))
    assert first.getvalue() == second.getvalue()


def test_next_years_workbook_has_a_proof_of_the_values_proposed(tmp_path: Path) -> None:
    (workbook,) = [workbook_of(folder) for folder in job_folders() if folder.name == "yearly"]
    done = revalue_job(workbook, date(2026, 6, 30), tmp_path, overwrite=False, today=TODAY)
    assert done.proof == tmp_path / f"{done.written.stem}-proof.xlsx"
    assert {line.id for line in lines_of(done.proof)} > {"Y01.rrv.year.prior", "schedule.rrv.prior_total"}


def test_blocks_are_the_items_and_the_whole() -> None:
    examined = examine(workbook_of(job_folders()[0]), today=TODAY)
    assert [block.name for block in item_blocks(examined)] == [item.id for item in examined.job.items]
    assert all(id_.startswith("schedule.") for id_ in whole_block(examined).figures)
