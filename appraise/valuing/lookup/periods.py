"""Model periods: the years of a maker's model that buyers pay for (DESIGN: model period)."""

from collections.abc import Iterable
from decimal import Decimal

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import Missing, given
from appraise.records.dating import MODEL_PERIODS, ModelPeriod
from appraise.records.declare import place_of

YEARS = ("outer_first", "inner_first", "inner_last", "outer_last")


@frozen
class ModelPeriods:
    """Usable periods by maker and model, written without regard to case and spacing."""

    by_model: dict[tuple[str, str], ModelPeriod]

    def of(self, maker: str | Missing, model: str | Missing) -> ModelPeriod | None:
        """Return the period of a maker's model, None if none is typed."""
        if not (given(maker) and given(model)):
            return None
        return self.by_model.get((_plain(maker), _plain(model)))


def model_periods(rows: Iterable[ModelPeriod]) -> tuple[ModelPeriods, list[Finding]]:
    """Return the periods of the sheet Model periods and what is wrong with them."""
    findings: list[Finding] = []
    found: dict[tuple[str, str], ModelPeriod] = {}
    for row in rows:
        if not (given(row.maker) and given(row.model)):
            continue
        lacking = [key for key in (*YEARS, "effect") if not given(getattr(row, key))]
        for key in lacking:
            heading = MODEL_PERIODS.column(key).heading
            place = place_of(MODEL_PERIODS, row, key)
            findings.append(finding("TBL-01", place, row.model, sheet=MODEL_PERIODS.name, heading=heading))
        if lacking:
            continue
        years = [getattr(row, key) for key in YEARS]
        if years != sorted(years):
            findings.append(_at(row, "TBL-41", "inner_first", "/".join(str(year) for year in years)))
            continue
        if given(row.effect) and row.effect <= Decimal(-100):
            findings.append(_at(row, "TBL-42", "effect", str(row.effect)))
            continue
        if found.setdefault((_plain(row.maker), _plain(row.model)), row) is not row:
            findings.append(_at(row, "TBL-43", "model", row.model))
    return ModelPeriods(found), findings


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _at(row: ModelPeriod, code: str, key: str, found: str) -> Finding:
    return finding(code, place_of(MODEL_PERIODS, row, key), str(row.model), found=found, model=row.model)
