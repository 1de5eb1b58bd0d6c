"""Figures for proofs: of every valuation case, and of schedules drawn at random (seeded)."""

import random
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
from support import valuing_comparison, valuing_other
from support.valuing import OWN_CASES, job_of, method_named, read_case

from appraise.jobs.compute import Computation, named
from appraise.jobs.report_inputs import with_bridge
from appraise.model.figure import Figure
from appraise.model.ledger import RecordingLedger
from appraise.proof.book import Block
from appraise.records.job import Job
from appraise.records.vocabulary import ValueType
from appraise.report.compose.inputs import ItemResult
from appraise.report.compose.sums import totals


class KeptLedger(RecordingLedger):
    """A recording ledger that tells where its figures are kept."""

    kept: list["KeptLedger"]

    def __init__(self, scope: str, figures: dict[str, Figure] | None = None) -> None:
        super().__init__(scope, figures)
        if figures is None:
            type(self).kept.append(self)


def case_blocks(monkeypatch: pytest.MonkeyPatch) -> list[Block]:
    """Return the figures of every part of every valuation case, a block each."""
    blocks = []
    for module in (valuing_comparison, valuing_other):
        monkeypatch.setattr(module, "RecordingLedger", KeptLedger)
    for file in sorted(OWN_CASES.glob("*.toml")):
        case = read_case(file)
        for part in case.parts:
            KeptLedger.kept = []
            method_named(part.method)(part)
            figures = {id_: figure for ledger in KeptLedger.kept for id_, figure in ledger.figures.items()}
            blocks.append(Block(part.scope, case.title, figures))
    return blocks


def random_schedules(count: int, seed: int) -> Iterator[tuple[list[Block], Block]]:
    """Yield the blocks of so many schedules: those of the items, and that of the whole with its totals."""
    draw = random.Random(seed)
    for number in range(1, count + 1):
        job = random_job(draw, number)
        computation = Computation(job, today=date(2026, 1, 1))
        items, results = [], []
        for computed, ledger in map(computation.recorded, job.items):
            with_bridge(computed, ledger, "USD")
            items.append(Block(named(computed.item), "drawn at random", ledger.figures))
            results.append(ItemResult(computed.item, computed.window, computed.valuations))
        whole = RecordingLedger(f"schedule{number}")
        totals(whole, results, [ValueType.FAIR_MARKET, ValueType.RETAIL_REPLACEMENT], frozenset(), "USD", job.policy)
        yield items, Block(whole.scope, "totals", whole.figures)


def random_job(draw: random.Random, number: int) -> Job:
    """Return a small job: one to three items under two types of value, each from one to five sales."""
    items = [f"R{number}-{one}" for one in range(1, draw.randint(1, 3) + 1)]
    sales: list[dict[str, Any]] = []
    comparisons: list[dict[str, Any]] = []
    for item in items:
        for code, value_type in (("f", "fair market value"), ("r", "retail replacement value")):
            for line in range(1, draw.randint(1, 5) + 1):
                sale = _sale(draw, f"{item}{code}{line}", retail=code == "r")
                sales.append(sale)
                comparisons.append(_comparison(draw, f"{code}{line}", item, value_type, sale["id"]))
    sheets = {
        "assignment": {
            "currency": "USD",
            "effective_date": "2024-11-15",
            "combine_deductions": draw.choice(["multiply", "add"]),
            "combine_adjustments": draw.choice(["multiply", "add"]),
            "originality_floor": str(draw.randint(5, 40)),
        },
        "value_terms": [
            _terms(draw, "fair market value", "auction"),
            _terms(draw, "retail replacement value", "dealer retail"),
        ],
        "items": [_item(draw, one) for one in items],
        "parts": [
            {"item": one, "part": f"part {line}", "state": "later replacement", "deduction": _percent(draw, 0, 30)}
            for one in items
            for line in range(draw.randint(0, 3))
        ],
        "sales": sales,
        "comparisons": comparisons,
        "costs": [cost for one in items for cost in _costs(draw, one)],
        "premiums": PREMIUMS,
        "rates": [
            {"currency": currency, "day": day.isoformat(), "rate": f"{draw.uniform(*span):.4f}", "direction": way}
            for currency, span, way in (
                ("GBP", (1.1, 1.4), "report currency per foreign unit"),
                ("EUR", (0.8, 0.99), "foreign units per report unit"),
            )
            for day in (date(2021, 12, 31) + timedelta(days=7 * week) for week in range(155))
        ],
        "indexes": [
            {"index": "ARCH", "month": f"{year}-{month:02d}", "figure": f"{draw.uniform(80, 130):.1f}"}
            for year in range(2021, 2026)
            for month in (1, 4, 7, 10)
        ],
        "scales": [
            {"scale": "K", "grade": str(grade), "percent": percent}
            for grade, percent in enumerate((30, 40, 48, 55, 63, 71, 79, 88, 95, 100), start=1)
        ],
    }
    return job_of(sheets)


PREMIUMS = [
    {"table": "A", "currency": "USD", "valid_from": "2020-01-01", "up_to": "10000", "rate": "28"},
    {"table": "A", "currency": "USD", "valid_from": "2020-01-01", "up_to": "100000", "rate": "22.5"},
    {"table": "A", "currency": "USD", "valid_from": "2020-01-01", "rate": "15"},
    {"table": "B", "currency": "GBP", "valid_from": "2020-01-01", "up_to": "5000", "rate": "30", "tax": "20"},
    {"table": "B", "currency": "GBP", "valid_from": "2020-01-01", "rate": "24.25", "tax": "20"},
]


def _terms(draw: random.Random, value_type: str, market: str) -> dict[str, Any]:
    return {
        "value_type": value_type,
        "market": market,
        "price_basis": draw.choice(["all-in", "hammer"]),
        "premium_tax": "in the price",
        "conclusion": draw.choice(["weighted mean", "weighted median"]),
    }


def _item(draw: random.Random, name: str) -> dict[str, Any]:
    item = {"id": name, "maker": "Skarvholm", "model": "Consul 17", "location": draw.choice(["house", "store"])}
    if draw.random() < 0.8:
        item |= {"grade": str(draw.randint(3, 9)), "scale": "K"}
    if draw.random() < 0.7:
        item["index"] = "ARCH"
    return item


def _costs(draw: random.Random, item: str) -> list[dict[str, Any]]:
    insured = {"kind": "transit insurance", "percent": _percent(draw, 0.2, 2), "least": _amount(draw, 5, 60)}
    possible = [
        {"kind": "sales tax", "percent": _percent(draw, 3, 20)},
        {"kind": "freight", "amount": _amount(draw, 20, 900), "taxable": draw.choice(["yes", "no"])},
        {"kind": "set-up and adjustment", "amount": _amount(draw, 20, 300), "taxable": "yes"},
        insured | {"taxable": "no"},
    ]
    return [{"item": item, **cost} for cost in possible if draw.random() < 0.7]


def _sale(draw: random.Random, name: str, *, retail: bool) -> dict[str, Any]:
    kind = "dealer sold" if retail else draw.choice(["hammer", "all-in", "private sold"])
    table = draw.choice(["A", "B"]) if kind in ("hammer", "all-in") else ""
    currency = {"A": "USD", "B": "GBP"}.get(table, draw.choice(["USD", "EUR", "GBP"]))
    sale = {
        "id": name,
        "maker": "Skarvholm",
        "model": "Consul 17",
        "kind": kind,
        "currency": currency,
        "price": str(draw.randint(3, 1200) * draw.choice([5, 10, 50])) if table else _amount(draw, 100, 90_000),
        "day": (date(2022, 1, 1) + timedelta(days=draw.randint(0, 1000))).isoformat(),
        "premium_table": table,
    }
    if draw.random() < 0.8:
        sale["grade"] = str(draw.randint(3, 9))
    return sale


def _comparison(draw: random.Random, name: str, item: str, value_type: str, sale: str) -> dict[str, Any]:
    line = {
        "id": name,
        "item": item,
        "value_type": value_type,
        "sale": sale,
        "weight": draw.choice(["1", "2", "3", "0.5", "0.1", "0.3"]),
    }
    for key, low, high in (("level", -30, 30), ("configuration", -12, 12), ("provenance", 0, 20), ("other", -9, 9)):
        if draw.random() < 0.4:
            line[key] = _percent(draw, low, high)
    if draw.random() < 0.4:
        line["lump"] = _amount(draw, -900, 900)
    if draw.random() < 0.5:
        line["deductions"] = "; ".join(_percent(draw, 0, 25) for _ in range(draw.randint(1, 3)))
    return line


def _percent(draw: random.Random, low: float, high: float) -> str:
    return f"{draw.uniform(low, high):.{draw.randint(0, 2)}f}"


def _amount(draw: random.Random, low: float, high: float) -> str:
    return f"{draw.uniform(low, high):.2f}"
