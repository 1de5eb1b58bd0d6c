"""Every use gives its report: the worked cases typed into a workbook, their figures found again in the Word file."""

import io
import re
import tomllib
from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from itertools import pairwise
from pathlib import Path
from typing import Any

import docx
import pytest
from support.checks import (
    claim_job,
    division_job,
    donation_job,
    expert_job,
    gift_job,
    insurance_job,
    sound_job,
    tax_job,
)
from support.workbooks import workbook

from appraise.jobs import report as report_job
from appraise.jobs.proof import job_figures
from appraise.jobs.report import write_report
from appraise.records.job import Job
from appraise.records.vocabulary import Use, ValueType
from appraise.report.compose.printing import PrintedFigures
from appraise.workbook.rows import rows_of

CASES = Path(__file__).parents[1] / "cases" / "valuation"
TODAY = date(2025, 6, 1)


def of_case(name: str) -> dict[str, Any]:
    """The rows of a worked case, by field of the job."""
    return tomllib.loads((CASES / f"{name}.toml").read_text("utf-8"), parse_float=Decimal)


def terms(like: Mapping[str, Any], *types: ValueType) -> list[dict[str, Any]]:
    """Lines of Value types, each like the first of the job."""
    return [{**like, "value_type": one.value} for one in types]


def rows_for(job: Job, case: Mapping[str, Any], items: Mapping[str, str], *types: ValueType) -> dict[str, Any]:
    """The rows of a sound job with those of a case: its items beside the job's own, its types of value instead."""
    rows = rows_of(job)
    like = rows["items"][1]
    rows["value_terms"] = terms(rows["value_terms"][0], *types)
    rows["items"] += [
        {**like, "id": key, "number": str(number), "model": model}
        for number, (key, model) in enumerate(items.items(), start=3)
    ]
    left_out = {"id", "title", "method", "expected", "assignment", "part"}
    rows["assignment"] |= {key: one for key, one in case.get("assignment", {}).items() if key != "currency"}
    for name, typed in case.items():
        if name not in left_out:
            own = [] if name in ("indexes", "premiums") else rows.get(name, [])
            rows[name] = {**rows.get(name, {}), **typed} if isinstance(typed, dict) else [*own, *typed]
    return rows


def report(folder: Path, rows: Mapping[str, Any]) -> "docx.document.Document":
    """The draft of a job's report."""
    written = write_report(workbook(folder, rows=rows), folder / "out", draft=True, overwrite=True, today=TODAY)
    return docx.Document(io.BytesIO(written.written[0].path.read_bytes()))


def headings(document: "docx.document.Document") -> list[str]:
    return [one.text for one in document.paragraphs if one.style.name.lower() == "heading 1"]


def table_rows(document: "docx.document.Document") -> list[list[str]]:
    return [[cell.text for cell in row.cells] for table in document.tables for row in table.rows]


def row_of(document: "docx.document.Document", *starts: str) -> list[str]:
    """The one row whose first cells begin so."""
    found = [
        row
        for row in table_rows(document)
        if len(row) > len(starts) and all(cell.startswith(start) for cell, start in zip(row, starts, strict=False))
    ]
    assert len(found) == 1, (starts, found)
    return found[0]


def text_of(document: "docx.document.Document") -> str:
    return "\n".join(one.text for one in document.paragraphs).replace("\N{NO-BREAK SPACE}", " ")


def test_alternate_date_of_an_estate(tmp_path: Path) -> None:
    """Worked case V09: two columns, both totals, the test of the value from counsel's figures."""
    items = {f"a{number}": f"Object {number}" for number in range(1, 6)}
    rows = rows_for(sound_job(), of_case("V09"), items, ValueType.FAIR_MARKET)
    document = report(tmp_path, rows)
    assert "The estate at the alternate date" in headings(document)
    assert row_of(document, "3. ", "still held")[2:] == ["Feb 28, 2025", "24,200", "24,300"]
    assert row_of(document, "4. ", "distributed")[2:] == ["Jan 20, 2025", "26,400", "25,100"]
    assert row_of(document, "5. ", "sold")[2:] == ["Dec 10, 2024", "39,000", "36,860"]
    assert row_of(document, "6. ", "sold")[2:] == ["Feb 28, 2025", "18,500", "17,800"]
    assert row_of(document, "7. ", "sold")[2:] == ["Feb 27, 2025", "6,400", "6,050"]
    assert ["Total", "", "", "114,500", "110,110"] in table_rows(document)
    assert row_of(document, "Lower by")[1:] == ["16,640.00"]
    assert "this test is met" in text_of(document)
    notes = [one.text for one in document.paragraphs if one.text.startswith("Cost is as the owner gave it")]
    assert "lacks what is not concluded: no. 1, 3, 4, 5, 6, and 7" in notes[0]


def test_without_counsels_figures_no_test_is_printed(tmp_path: Path) -> None:
    case = of_case("V09")
    del case["counsel_figures"]
    items = {f"a{number}": f"Object {number}" for number in range(1, 6)}
    document = report(tmp_path, rows_for(sound_job(), case, items, ValueType.FAIR_MARKET))
    assert "The estate at the alternate date" in headings(document)
    assert "Gross estate" not in text_of(document)


def test_marketable_cash_values_of_a_division(tmp_path: Path) -> None:
    """Worked case V07, with who receives what and whether the parties agree."""
    items = {"i1": "First", "i2": "Second", "i3": "Third"}
    rows = rows_for(division_job(), of_case("V07"), items, ValueType.FAIR_MARKET, ValueType.MARKETABLE_CASH)
    like = {"value_type": "marketable cash value", "not_valued": "not to be sold"}
    rows["opinions"] += [{**like, "item": one} for one in ("G01", "A01")]
    rows["shares"] = [
        {"item": "G01", "recipient": "T. Ashgrave", "state": "agreed"},
        {"item": "A01", "recipient": "L. Ashgrave", "state": "contested", "remark": "held before the marriage"},
    ]
    document = report(tmp_path, rows)
    assert {"Division by party", "What a sale would leave"} <= set(headings(document))
    assert row_of(document, "3. ", "auction")[2:] == [
        *("24,500", "19,032.26", "2,213.23", "110.66", "285.48", "95", "16,327.89", "15,900"),
    ]
    assert row_of(document, "5. ", "auction")[-2:] == ["292.27", "290"]
    totals = [row for row in table_rows(document) if row[:2] == ["Total", ""] and row[-1] == "20,090"]
    assert len(totals) == 1
    assert row_of(document, "2. ", "contested")[2] == "held before the marriage"
    assert "Contested or not settled: no. 2." in text_of(document)


def test_liquidation_of_a_shop(tmp_path: Path) -> None:
    """Worked case V08: gross and net, orderly and forced, each total rounded once."""
    items = {"U01": "Ukulele", "B01": "Banjo", "A09": "Archtop"}
    case = of_case("V08")
    for lot in case["liquidation"]:
        lot["item"] = {"A01": "A09"}.get(lot["item"], lot["item"])
    kinds = (ValueType.ORDERLY_LIQUIDATION, ValueType.FORCED_LIQUIDATION)
    document = report(tmp_path, rows_for(tax_job(Use.SALE), case, items, *kinds))
    assert "Sale of the whole" in headings(document)
    assert row_of(document, "u", "3. ")[3:] == ["7,500", "6,187.50", "5,445", "4,740.50", "3,375", "2,700"]
    assert row_of(document, "Orderly liquidation value, net")[1] == "15,600"
    assert row_of(document, "Forced liquidation value, net")[1] == "7,500"


def test_damage_and_its_loss(tmp_path: Path) -> None:
    """Worked case V10: both measures, repair with tax, paired sales, the total-loss test."""
    kinds = (ValueType.FAIR_MARKET, ValueType.DIMINUTION)
    document = report(tmp_path, rows_for(claim_job(), of_case("V10"), {"W30": "Style 30"}, *kinds))
    assert "The loss" in headings(document)
    assert row_of(document, "Repair with tax", "", "")[3] == "3,546.66"
    assert row_of(document, "Tax of 7.5% on materials")[3] == "31.16"
    assert row_of(document, "Value once repaired")[1] == "26,016.59"
    assert row_of(document, "First measure: repair and what remains")[1] == "8,992.87"
    assert row_of(document, "Loss")[1] == "8,992.87"
    assert "no total loss by that test" in text_of(document)


def test_damage_of_which_it_cannot_be_told_is_kept_apart(tmp_path: Path) -> None:
    rows = rows_for(claim_job(), of_case("V10"), {"W30": "Style 30"}, ValueType.FAIR_MARKET, ValueType.DIMINUTION)
    rows["damage"] = [
        {"id": "D1", "item": "W30", "part": "top", "description": "crack", "origin": "from the event"},
        {"id": "D2", "item": "W30", "part": "back", "description": "old crack", "origin": "before the event"},
        {"id": "D3", "item": "W30", "part": "side", "description": "scuff", "origin": "cannot tell"},
    ]
    line = {"item": "W30", "state": "proposed", "estimator": "Ferrow workshop"}
    rows["repairs"] = [
        {**line, "damage": "D1", "work": "top", "amount": Decimal(1000)},
        {**line, "damage": "D2", "work": "old cleats", "amount": Decimal(300)},
        {**line, "damage": "D3", "work": "scuff", "amount": Decimal(50)},
    ]
    document = report(tmp_path, rows)
    assert row_of(document, "Repair with tax", "", "")[3] == "1,000.00"
    assert row_of(document, "old cleats")[3] == "not counted"
    assert row_of(document, "Repair of doubtful damage", "", "")[3] == "50.00"
    said = text_of(document)
    for words in ("Damage from the event", "There before the event, not counted", "Damage of which it cannot be told"):
        assert words in said


def test_a_set_that_lost_pieces_and_what_the_policy_pays(tmp_path: Path) -> None:
    """Worked case V11: three measures, the clause's, the blanket limit and coinsurance."""
    items = {"TEA": "Service", "BOW": "Bow", "CHR": "Clock", "SLV": "Tray", "UKE": "Ukulele", "CUP": "Cup"}
    rows = rows_for(claim_job(), of_case("V11"), items, ValueType.FAIR_MARKET)
    document = report(tmp_path, rows)
    assert {"The loss", "The policy"} <= set(headings(document))
    for label, amount in {
        "Worth more as a set by": "2,800.00",
        "Share of the lost pieces in the set": "3,417.20",
        "Whole less what is left": "6,400.00",
        "Cost of restoring the set": "4,590.00",
        "Whole value, the rest handed over": "18,500.00",
        "Loss by the clause": "4,590.00",
        "Limit falls short by": "5,445.00",
        "Above the limit for one item": "4,550.00",
        "At most covered": "60,000.00",
        "Carried over required, not above 1": "0.916800",
        "Payment by these terms": "3,708.11",
        "Not paid because of coinsurance": "381.89",
    }.items():
        assert row_of(document, label)[1] == amount


@pytest.mark.parametrize(
    ("reading", "value"), [("cost new less depreciation", "1,787.96"), ("broad evidence", "1,650.00")]
)
def test_actual_cash_value_by_the_reading_of_the_policy(tmp_path: Path, reading: str, value: str) -> None:
    """Worked case V06, item l1: all readings side by side, the policy's counts."""
    rows = rows_for(claim_job(), of_case("V06"), {"l1": "Amplifier"}, ValueType.FAIR_MARKET, ValueType.ACTUAL_CASH)
    rows["value_facts"] = [{"item": "l1", "fact": "two private sales", "points_to": Decimal(1650), "weight": 1}]
    rows["policy"] = {"basis": "actual cash value", "cash_value": reading, "clause": "We pay actual cash value."}
    document = report(tmp_path, rows)
    cells = row_of(document, "3. ", "1,787.96")
    assert cells[1:] == ["1,787.96", "not concluded", "1,650.00", value]
    assert f"the reading entered for this policy is: {reading}" in text_of(document)


def test_without_a_reading_there_is_no_actual_cash_value(tmp_path: Path) -> None:
    rows = rows_for(claim_job(), of_case("V06"), {"l1": "Amplifier"}, ValueType.FAIR_MARKET, ValueType.ACTUAL_CASH)
    rows["policy"] = {"basis": "actual cash value", "clause": "We pay actual cash value."}
    assert row_of(report(tmp_path, rows), "3. ", "1,787.96")[-1] == "not concluded"


def test_sums_of_the_contract_stand_apart_beside_the_value(tmp_path: Path) -> None:
    """An agreed value and a stated amount never share a column, and neither is called an opinion."""
    rows = rows_of(insurance_job())
    rows["policy"] = {"basis": "agreed value", "clause": "We pay the agreed value."}
    rows["covers"] = [{"item": "G01", "agreed": Decimal(24000)}, {"item": "A01", "stated": Decimal(900)}]
    document = report(tmp_path, rows)
    head = row_of(document, "Item", "Type of value")
    assert head[2:] == ["Value", "Scheduled limit", "Agreed value", "Stated amount"]
    agreed, stated = row_of(document, "1. ", "Retail replacement"), row_of(document, "2. ", "Retail replacement")
    assert agreed[3:] == ["–", "24,000.00", "–"]
    assert stated[3:] == ["–", "–", "900.00"]


def test_figures_for_the_return_of_a_gift(tmp_path: Path) -> None:
    rows = rows_of(gift_job())
    rows["shares"] = [
        {"item": "G01", "recipient": "R. Quenby", "share": Decimal(60)},
        {"item": "G01", "recipient": "S. Quenby", "share": Decimal(40)},
        {"item": "A01", "recipient": "S. Quenby"},
    ]
    document = report(tmp_path, rows)
    assert {"Particulars of the transfer", "Figures for the return"} <= set(headings(document))
    line = row_of(document, "1", "", "", "Jun 1, 1998, purchased")
    assert line[5] == "Nov 15, 2024"
    value = Decimal(line[6].replace(",", ""))
    second = Decimal(row_of(document, "2", "", "", "not known")[6].replace(",", ""))
    total = next(row for row in table_rows(document) if row[:3] == ["", "Total", ""] and row[3:6] == ["", "", ""])
    assert Decimal(total[6].replace(",", "")) == value + second
    sums = [row[3] for row in table_rows(document) if row[:3] == ["Total", "", ""]]
    to_first, to_second = (Decimal(one.replace(",", "")) for one in sums)
    assert to_first == value * 60 / 100
    assert to_first + to_second == value + second


def test_particulars_of_a_contribution(tmp_path: Path) -> None:
    """26 CFR 1.170A-17(a)(4): contributed on 2024-11-15, so signed from 2024-09-16 on."""
    document = report(tmp_path, rows_of(donation_job()))
    assert "Particulars of the transfer" in headings(document)
    signed = row_of(document, "Signed no more than 60 days")
    assert signed[1:] == ["Sep 16, 2024 – Apr 15, 2025", "Feb 10, 2025"]
    section_b = row_of(document, "Similar items claimed above this sum need a qualified appraisal")
    assert section_b[2:] == ["yes", "5,000.00"]
    attached = row_of(document, "Similar items claimed above this sum: the appraisal is attached")
    assert attached[2:] == ["no", "500,000.00"]
    said = text_of(document)
    assert "(the regulation's own words)" in said
    assert "M. Tarrow regularly appraises for pay;" in said
    cells = [cell for row in table_rows(document) for cell in row]
    assert any("taxpayer number on file" in one for one in cells)


def test_bands_of_misstatement_are_arithmetic(tmp_path: Path) -> None:
    """IRC 6662(e)(1)(A), (h)(2)(A)(i): 150 and 200 percent; so an opinion over 1.5 and over 2."""
    document = report(tmp_path, rows_of(donation_job()))
    line = row_of(document, "2. ", "850")
    assert line[1:] == ["850", "566.67", "425"]


def test_no_tax_number_in_any_other_report(tmp_path: Path) -> None:
    rows = rows_of(gift_job())
    rows["people"][0]["tax_number"] = "123-45"
    document = report(tmp_path, rows)
    assert "123-45" not in text_of(document) + str(table_rows(document))


def test_particulars_of_an_experts_report(tmp_path: Path) -> None:
    document = report(tmp_path, rows_of(expert_job()))
    assert "Particulars of the expert's report" in headings(document)
    assert row_of(document, "Case")[1] == "Quenby v. Ashgrave, no. 25-0417"
    assert row_of(document, "May 1, 2022", "publication")[2] == "Tops"
    said = text_of(document)
    assert "No testimony at trial or by deposition in the four years before this report." in said
    assert row_of(document, "File kept at least until")[1].startswith("testimony is given or expected")


def test_an_estate_under_oath_has_a_place_for_it(tmp_path: Path) -> None:
    """26 CFR 20.2031-6(b): more than 3,000 in all."""
    document = report(tmp_path, rows_of(sound_job()))
    assert "Figures for the return" in headings(document)
    assert row_of(document, "Articles of marked artistic or intrinsic value")[2:] == ["yes", "3,000.00"]
    assert "This appraisal is given under oath." in text_of(document)
    assert row_of(document, "File kept at least until")[1] == "February 10, 2030"


WORKED: dict[str, Callable[[], dict[str, Any]]] = {
    "alternate": lambda: rows_for(
        sound_job(), of_case("V09"), {f"a{one}": "Object" for one in range(1, 6)}, ValueType.FAIR_MARKET
    ),
    "proceeds": lambda: rows_for(
        division_job(),
        of_case("V07"),
        {"i1": "First", "i2": "Second", "i3": "Third"},
        ValueType.FAIR_MARKET,
        ValueType.MARKETABLE_CASH,
    ),
    "liquidation": lambda: rows_for(
        tax_job(Use.SALE),
        of_case("V08"),
        {"U01": "Ukulele", "B01": "Banjo"},
        ValueType.ORDERLY_LIQUIDATION,
        ValueType.FORCED_LIQUIDATION,
    ),
    "set": lambda: rows_for(claim_job(), of_case("V11"), {"TEA": "Service"}, ValueType.FAIR_MARKET),
    "cash value": lambda: rows_for(claim_job(), of_case("V06"), {"l1": "Amplifier"}, ValueType.ACTUAL_CASH),
    "gift": lambda: (
        rows_of(gift_job())
        | {"shares": [{"item": "G01", "recipient": one, "share": Decimal(50)} for one in ("R. Quenby", "S. Quenby")]}
    ),
}


@pytest.mark.parametrize("name", WORKED)
def test_every_printed_figure_of_a_use_is_a_figure_of_the_job(
    tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nothing is worked out while printing: each figure has its id, and the proof shows it under that id."""
    printed = PrintedFigures()
    monkeypatch.setattr(report_job, "PrintedFigures", lambda: printed)
    path = workbook(tmp_path, rows=WORKED[name]())
    written = write_report(path, tmp_path / "out", draft=True, overwrite=True, today=TODAY)
    known = {one.id for one in job_figures(written.examined)}
    assert len(printed.texts) > 5
    assert set(printed.texts) - known == set()


SOUND: dict[str, Callable[[], Job]] = {
    "insurance": insurance_job,
    "estate": sound_job,
    "gift": gift_job,
    "donation": donation_job,
    "claim": claim_job,
    "division": division_job,
    "expert": expert_job,
    "sale": lambda: tax_job(Use.SALE),
}


@pytest.mark.parametrize("name", SOUND)
def test_no_section_stands_empty_and_no_text_is_unfinished(tmp_path: Path, name: str) -> None:
    document = report(tmp_path, rows_of(SOUND[name]()))
    paragraphs = [one for one in document.paragraphs if one.text.strip()]
    for first, second in pairwise(paragraphs):
        both = {one.style.name.lower() for one in (first, second)}
        assert both != {"heading 1"}, f"{first.text} has nothing below it"
    for words in [text_of(document), *(cell for row in table_rows(document) for cell in row)]:
        assert not re.search(r"\{\w+\}|BLANK|Decimal\(", words)


def test_what_named_sales_come_to(tmp_path: Path) -> None:
    """Worked case V05B, the landed cost; two pairs: 25 and 12 percent, mean 18.5, and the pair of weight 0 left out."""
    rows = rows_for(insurance_job(), of_case("V05B"), {"M01": "Pattern 9"}, ValueType.RETAIL_REPLACEMENT)
    pair = {"element": "case", "weight": Decimal(1), "better_source": "S1", "poorer_source": "S2", "remark": "alike"}
    prices = {"p1": (500, 400, 1), "p2": (560, 500, 1), "p3": (900, 300, 0)}
    rows["paired_sales"] = [
        {**pair, "id": key, "better": Decimal(better), "poorer": Decimal(poorer), "weight": Decimal(weight)}
        for key, (better, poorer, weight) in prices.items()
    ]
    document = report(tmp_path, rows)
    assert "Worked out from named sales" in headings(document)
    assert row_of(document, "Price in report currency, at the rate 1.0821")[1:] == ["106,045.80"]
    assert row_of(document, "Duty, 3.2%")[1:] == ["3,439.90"]
    assert row_of(document, "Landed cost")[1:] == ["119,650.90"]
    assert row_of(document, "Mean")[2:] == ["", "", "80.00", "−15.36%", "+18.50%"]
    assert row_of(document, "Left out: alike")[2:] == ["900.00", "300.00", "–", "–", "–"]
    assert "Those that count: 2." in text_of(document)


def test_what_the_valuation_clause_comes_to_for_a_total_loss(tmp_path: Path) -> None:
    """Worked case V10 with a trigger of 10 percent and a policy that pays the value agreed."""
    case = of_case("V10")
    case["losses"][0]["threshold"] = Decimal(10)
    case["policy"] = {"basis": "agreed value", "item_cap": Decimal(30000)}
    case["covers"] = [{"item": "W30", "agreed": Decimal(31000)}]
    kinds = (ValueType.FAIR_MARKET, ValueType.DIMINUTION)
    document = report(tmp_path, rows_for(claim_job(), case, {"W30": "Style 30"}, *kinds))
    assert row_of(document, "By the valuation clause")[1:] == ["31,000.00"]
    assert row_of(document, "Within the limits of the policy")[1:] == ["30,000.00"]
    assert "the policy pays by its clause: agreed value" in text_of(document)
