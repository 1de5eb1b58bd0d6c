"""Seeded workbooks of any size, written through our own declarations: the same seed gives the same bytes.

At 100 %: 10,000 items, 60,000 statements of evidence, 80,000 parts, 200,000 price records, 50,000 comparisons.
"""

import random
import zlib
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

from appraise.records.vocabulary import (
    Attribution,
    Combine,
    Conclusion,
    EvidenceKind,
    EvidenceStatus,
    Family,
    FeeBasis,
    FinishClass,
    History,
    Market,
    PartState,
    PersonRole,
    PhotoKind,
    PremiumTax,
    PriceBasis,
    PriceKind,
    RateDirection,
    ReportOption,
    Use,
    ValueType,
)
from appraise.workbook.writing.write import write_job

FULL = 10_000
STATEMENTS, PARTS, SALES, COMPARED = 6, 8, 20, 5
MAKERS = (("Skarvholm", "Consul 17", Family.ARCHTOP), ("Wendlecote", "Style 30", Family.FLAT_TOP))
PART_NAMES = ("top", "back and rims", "neck", "fretboard", "tuners", "bridge", "pickguard", "case")
#: Tables that do not grow with the job.
GRADES = {10: 100, 9: 88, 8: 79, 7: 72, 6: 66, 5: 60, 4: 52, 3: 40}
#: The last point is the month of the effective date: no later evidence enters a value.
POINTS = {"2022-01": "100.0", "2023-01": "112.9", "2024-01": "105.2", "2024-11": "104.4"}
EFFECTIVE = date(2024, 11, 15)
INSPECTED = date(2024, 12, 2)


def write_workbook(path: Path, items: int, *, photos: int = 0, camera: bool = False, seed: int = 1) -> Path:
    """Write a job of `items` items with `photos` drawn photographs each; return the path written.

    camera  photographs as large as a camera makes them, instead of small cheap ones
    """
    if photos:
        (draw_large_photographs if camera else draw_photographs)(path.parent, items, photos, seed)
    return write_job(path, rows(items, photos=photos, seed=seed))


def rows(items: int, *, photos: int = 0, seed: int = 1) -> dict[str, Any]:
    """Return the rows of the job by sheet."""
    chance = random.Random(seed)
    made: dict[str, Any] = {"assignment": _assignment(), "value_terms": [_terms()], "people": [_person()]}
    for name in ("items", "parts", "evidence", "sales", "comparisons", "opinions", "history", "photos"):
        made[name] = []
    for number in range(1, items + 1):
        item = _item(number, chance)
        made["items"].append(item)
        made["parts"] += _parts(item, chance)
        made["evidence"] += _evidence(item, chance, replaced_parts(made["parts"][-PARTS:]))
        sales = list(_sales(item, chance))
        made["sales"] += sales
        made["comparisons"] += _comparisons(item, sales[:COMPARED], chance)
        made["opinions"].append(_opinion(item))
        made["history"].append(_history(item))
        made["photos"] += [
            {
                "item": item["id"],
                "file": f"photos/{item['id']}-{photo}.jpg",
                "caption": f"View {photo}",
                "kind": (PhotoKind.FRONT, PhotoKind.BACK, PhotoKind.SERIAL)[(photo - 1) % 3],
                "taken": INSPECTED,
            }
            for photo in range(1, photos + 1)
        ]
    return {**made, **_tables(made["sales"])}


def draw_photographs(folder: Path, items: int, photos: int, seed: int) -> None:
    """Write small distinct JPEG files: a flat picture whose colour and size depend on item and view."""
    from PIL import Image

    (folder / "photos").mkdir(parents=True, exist_ok=True)
    for number in range(1, items + 1):
        for photo in range(1, photos + 1):
            mark = zlib.crc32(f"{seed} {number} {photo}".encode())
            colour = (mark & 255, mark >> 8 & 255, mark >> 16 & 255)
            size = (300 + mark % 97, 400 + mark % 89)
            Image.new("RGB", size, colour).save(folder / "photos" / f"B{number:05d}-{photo}.jpg", quality=80)


def draw_large_photographs(folder: Path, items: int, photos: int, seed: int) -> None:
    """Write distinct JPEG files of 2400 x 1600 pixels: grain, and a patch whose colour depends on the view."""
    from PIL import Image

    (folder / "photos").mkdir(parents=True, exist_ok=True)
    grain = Image.frombytes("L", (600, 400), random.Random(seed).randbytes(600 * 400))
    ground = Image.merge("RGB", [grain.resize((2400, 1600)).point(lambda tone: 80 + tone // 3)] * 3)
    for number in range(1, items + 1):
        for photo in range(1, photos + 1):
            mark = zlib.crc32(f"{seed} {number} {photo}".encode())
            picture = ground.copy()
            picture.paste((mark & 255, mark >> 8 & 255, mark >> 16 & 255), (800, 500, 1600, 1100))
            picture.save(folder / "photos" / f"B{number:05d}-{photo}.jpg", quality=85)


def _item(number: int, chance: random.Random) -> dict[str, Any]:
    maker, model, family = MAKERS[number % len(MAKERS)]
    return {
        "id": f"B{number:05d}",
        "number": str(number),
        "family": family,
        "category": "fretted instruments",
        "maker": maker,
        "model": model,
        "attribution": Attribution.MARKS_AND_FEATURES,
        "attribution_reason": "label, serial typeface and binding agree",
        "serial": f"{100_000 + number}",
        "description": f"Guitar with carved details, number {number} of the collection, sunburst finish",
        "dimensions": "body 432 mm across the lower bout",
        "markings": f"paper label, no. {100_000 + number}",
        "finish_class": FinishClass.ORIGINAL,
        "location": f"Store {chance.randint(1, 5)}",
        "room": f"room {chance.randint(1, 40)}",
        "inspected_on": INSPECTED,
        "structure": "sound, one cleated crack in the back",
        "finish_condition": "checking, light wear at the arm",
        "wear": "frets at half height",
        "playability": "plays well",
        "grade": Decimal(chance.randint(5, 8)),
        "scale": "K-BENCH",
        "index": "BENCH",
        "provenance": "none known",
        "title_evidence": "inventory of the institution",
        "theft_check": "not done",
        "restricted_materials": "none seen",
        "mains_powered": False,
        "cost_to_correct": Decimal(chance.randint(1, 40) * 10),
        "quantity": Decimal(1),
    }


def _parts(item: dict[str, Any], chance: random.Random) -> Iterator[dict[str, Any]]:
    for part in PART_NAMES[:PARTS]:
        replaced = chance.random() < 0.12
        yield {
            "item": item["id"],
            "part": part,
            "state": PartState.LATER_REPLACEMENT if replaced else PartState.ORIGINAL,
            "evidence": "second set of screw holes" if replaced else "colour and joint undisturbed",
            "reversible": replaced or None,
            "deduction": Decimal(chance.randint(1, 6)) if replaced else None,
            "deduction_reason": "later part of another pattern" if replaced else None,
        }


def replaced_parts(parts: list[dict[str, Any]]) -> frozenset[str]:
    """Return the names of parts that are later replacements."""
    return frozenset(one["part"] for one in parts if one["state"] is PartState.LATER_REPLACEMENT)


def _evidence(item: dict[str, Any], chance: random.Random, replaced: frozenset[str]) -> Iterator[dict[str, Any]]:
    untouched = [part for part in PART_NAMES if part not in replaced] or ["label"]
    year = chance.randint(1932, 1940)
    spans = [
        (f"{year - 3}", f"{year + 4}"),
        (f"early {year - 2}", f"late {year + 5}"),
        (f"{year - 6}", ""),
        ("", f"mid {year + 3}"),
        (f"{year - 1}", f"{year + 6}"),
    ]
    for number, (start, end) in enumerate(spans[: STATEMENTS - 1], 1):
        yield {
            "id": f"{item['id']}-e{number}",
            "item": item["id"],
            "part": untouched[number % len(untouched)],
            "statement": f"feature {number} of the series of {year}",
            "kind": EvidenceKind.FEATURE,
            "from_": start or None,
            "to": end or None,
            "status": EvidenceStatus.ORIGINAL,
            "strength": Decimal(chance.randint(2, 3)),
            "source": "own notes on examples seen",
        }
    yield {
        "id": f"{item['id']}-e{STATEMENTS}",
        "item": item["id"],
        "part": "label",
        "statement": "number on the label",
        "kind": EvidenceKind.SERIAL,
        "date": f"{year}-{(year + 1) % 100:02d}",
        "status": EvidenceStatus.ORIGINAL,
        "strength": Decimal(3),
        "source": "collectors' list",
    }


def _sales(item: dict[str, Any], chance: random.Random) -> Iterator[dict[str, Any]]:
    base = chance.randint(80, 300) * 100
    grade = int(item["grade"])
    for number in range(1, SALES + 1):
        hammer = chance.random() < 0.7
        currency = "USD" if chance.random() < 0.7 else "GBP"
        day = EFFECTIVE - timedelta(days=chance.randint(30, 900))
        yield {
            "id": f"{item['id']}-s{number}",
            "maker": item["maker"],
            "model": item["model"],
            "serial": f"{900_000 + chance.randint(0, 99_999)}",
            "finish_class": FinishClass.ORIGINAL,
            "grade": Decimal(chance.randint(max(grade - 1, 4), grade + 1)),
            "kind": PriceKind.HAMMER if hammer else PriceKind.DEALER_SOLD,
            "market": Market.AUCTION if hammer else Market.DEALER_RETAIL,
            "currency": currency,
            "price": Decimal(base + chance.randint(-20, 20) * 50).quantize(Decimal("0.01")),
            "day": day,
            "house": "Marrowby Rooms" if hammer else "Undergrove Music",
            "lot": f"lot {chance.randint(1, 900)}" if hammer else None,
            "premium_table": ("BENCH-USD" if currency == "USD" else "BENCH-GBP") if hammer else None,
            "is_subject": False,
            "verified": "published result",
        }


def _comparisons(item: dict[str, Any], sales: list[dict[str, Any]], chance: random.Random) -> Iterator[dict[str, Any]]:
    for number, sale in enumerate(sales, 1):
        dealer = sale["market"] is Market.DEALER_RETAIL
        yield {
            "id": f"{item['id']}-c{number}",
            "item": item["id"],
            "value_type": ValueType.FAIR_MARKET,
            "sale": sale["id"],
            "level": Decimal(-15) if dealer else None,
            "level_reason": "dealers' prices over auction, own pairs" if dealer else None,
            "lump": Decimal(-100) if chance.random() < 0.3 else None,
            "lump_reason": "case sold with it",
            "weight": Decimal(chance.randint(1, 3)),
            "weight_reason": "same model, close in time",
        }


def _opinion(item: dict[str, Any]) -> dict[str, Any]:
    text = "The comparisons lie close together; none is set aside."
    return {"item": item["id"], "value_type": ValueType.FAIR_MARKET, "reconciliation": text}


def _history(item: dict[str, Any]) -> dict[str, Any]:
    return {"item": item["id"], "kind": History.NONE_KNOWN}


def _assignment() -> dict[str, Any]:
    return {
        "use": Use.ESTATE,
        "title": "Collection for measuring",
        "client": "The executor",
        "intended_users": "the executor",
        "intended_use": "to measure the program",
        "owner": "the estate",
        "interest": "sole ownership",
        "effective_date": EFFECTIVE,
        "report_date": date(2025, 2, 10),
        "death_date": EFFECTIVE,
        "currency": "USD",
        "report_language": "en",
        "workbook_locale": "en_US",
        "jurisdiction": "US",
        "report_option": ReportOption.FULL,
        "fee_basis": FeeBasis.HOUR,
        "prior_services": "none",
        "scope": "Personal inspection of every item; no dismantling.",
        "combine_deductions": Combine.MULTIPLY,
        "combine_adjustments": Combine.MULTIPLY,
        "originality_floor": Decimal(20),
    }


def _terms() -> dict[str, Any]:
    return {
        "value_type": ValueType.FAIR_MARKET,
        "market": Market.AUCTION,
        "market_reason": "Such things are mostly bought by the public at auction.",
        "price_basis": PriceBasis.ALL_IN,
        "premium_tax": PremiumTax.IN,
        "exposure_time": "three to six months",
        "sales_comparison": "used",
        "cost_approach": "not used: no new equivalent is made",
        "income_approach": "not used: not held for income",
        "conclusion": Conclusion.MEAN,
    }


def _person() -> dict[str, Any]:
    return {
        "id": "P1",
        "name": "M. Tarrow",
        "role": PersonRole.APPRAISER,
        "address": "9 Quay Street, Port Aldous",
        "credentials": "Twenty-two years of appraising fretted instruments.",
        "categories": "fretted instruments",
        "signs": True,
        "inspected": "all",
        "interest": "none",
    }


def _tables(sales: list[dict[str, Any]]) -> dict[str, Any]:
    """Return the tables; of rates only those of days on which something was sold in pounds."""
    premiums = [
        {
            "table": f"BENCH-{currency}",
            "house": "Marrowby Rooms",
            "currency": currency,
            "valid_from": date(2020, 1, 1),
            "up_to": up_to,
            "rate": rate,
            "source": "conditions of sale",
        }
        for currency in ("USD", "GBP")
        for up_to, rate in ((Decimal(10_000), Decimal(28)), (Decimal(100_000), Decimal(22)), (None, Decimal(15)))
    ]
    rates = [
        {
            "currency": "GBP",
            "day": day,
            "rate": Decimal("1.2") + Decimal(day.toordinal() % 90) / 1000,
            "direction": RateDirection.REPORT_PER_FOREIGN,
            "source": "central bank's daily list",
        }
        for day in sorted({one["day"] for one in sales if one["currency"] == "GBP"})
    ]
    points = [
        {"index": "BENCH", "month": month, "figure": Decimal(figure), "market": Market.AUCTION, "source": "own index"}
        for month, figure in POINTS.items()
    ]
    scale = [
        {"scale": "K-BENCH", "grade": Decimal(grade), "percent": Decimal(percent), "words": f"grade {grade}"}
        for grade, percent in GRADES.items()
    ]
    notes = [
        {"family": family, "market": "auction", "supply": "steady", "demand": "steady", "trend": "level"}
        for _maker, _model, family in MAKERS
    ]
    return {"premiums": premiums, "rates": rates, "indexes": points, "scales": scale, "market_notes": notes}
