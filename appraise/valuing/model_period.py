"""The model period effect: what the years of a maker's model add, month by month, over the window of manufacture.

Full effect from January of the first inner year to December of the last; none at January of the first outer year and
at December of the last outer year, and beyond; a straight line between, by month. The share of an object is the mean
over the months of its window, which takes every month as equally likely: a convention, stated in the report.
Percent = 100 x ((1 + e x subject's share) / (1 + e x comparable's share) - 1).
"""

from collections.abc import Sequence
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.kinds import COUNT, FACTOR, PERCENT
from appraise.model.months import Months
from appraise.model.operations import Numbers, operation
from appraise.records.dating import MODEL_PERIODS, ModelPeriod
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.market import SALES
from appraise.valuing.inputs import Inputs
from appraise.valuing.lookup.periods import YEARS
from appraise.valuing.steps.line import Line
from appraise.valuing.working import Working

ZERO, ONE = Decimal(0), Decimal(1)


def effect_of(month: int, *, outer_first: int, inner_first: int, inner_last: int, outer_last: int) -> Decimal:
    """Return the effect of one month, 0 to 1; years as typed, months numbered 12 x year + month - 1.

    >>> effect_of(12 * 1936, outer_first=1931, inner_first=1934, inner_last=1939, outer_last=1942)
    Decimal('1')
    """
    return _ramp(month, 12 * outer_first, 12 * inner_first) * _ramp(
        -month, -12 * outer_last - 11, -12 * inner_last - 11
    )


def _ramp(month: int, none: int, full: int) -> Decimal:
    """Return 0 up to the month `none`, 1 from the month `full` on, a line between; a step at `full` if both are one."""
    step = 1 if none == full else 0
    return min(ONE, max(ZERO, Decimal(month - none + step) / Decimal(full - none + step)))


def _share_formula(refs: Sequence[str], places: int | None) -> str:
    outer_first, inner_first, inner_last, outer_last = refs[:4]
    runs = list(zip(refs[4::2], refs[5::2], strict=True))
    sums = [_run_formula(outer_first, inner_first, inner_last, outer_last, first, last) for first, last in runs]
    counts = [f"({last}-{first}+1)" for first, last in runs]
    return f"({'+'.join(sums)})/({'+'.join(counts)})"


def _run_formula(outer_first: str, inner_first: str, inner_last: str, outer_last: str, first: str, last: str) -> str:
    """Return the sum of the effects of a run of months: arrays of months, no function that refuses arrays."""
    month = f'({first}-1+ROW(INDIRECT("1:"&({last}-{first}+1))))'
    rise = _ramp_formula(
        f"({month}-12*{outer_first}", f"12*({inner_first}-{outer_first})", f"({inner_first}={outer_first})"
    )
    fall = _ramp_formula(
        f"(12*{outer_last}+11-{month}", f"12*({outer_last}-{inner_last})", f"({outer_last}={inner_last})"
    )
    return f"SUMPRODUCT({rise}*{fall})"


def _ramp_formula(above: str, width: str, step: str) -> str:
    ramp = f"({above}+{step})/({width}+{step}))"
    return f"(({ramp}>0)*({ramp}<1)*{ramp}+({ramp}>=1))"


@operation(
    "model period share",
    "the mean over the months of the window of the effect of each: none in {0}, full {1} to {2}, none after {3}",
    _share_formula,
)
def PERIOD_SHARE(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Years outer first, inner first, inner last, outer last; then first and last month of each run of the window."""
    outer_first, inner_first, inner_last, outer_last = (int(year) for year in values[:4])
    total, count = ZERO, 0
    for first, last in zip(values[4::2], values[5::2], strict=True):
        for month in range(int(first), int(last) + 1):
            total += effect_of(
                month, outer_first=outer_first, inner_first=inner_first, inner_last=inner_last, outer_last=outer_last
            )
            count += 1
    return total / count


@operation(
    "model period percent",
    "100 × ((1 + {0} % × {1}) ÷ (1 + {0} % × {2}) − 1)",
    lambda refs, places: f"100*((1+{refs[0]}/100*{refs[1]})/(1+{refs[0]}/100*{refs[2]})-1)",
)
def PERIOD_PERCENT(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Effect in percent, subject's share, comparable's share."""
    effect, subject, comparable = values
    return 100 * ((1 + effect / 100 * subject) / (1 + effect / 100 * comparable) - 1)


def period_of(inputs: Inputs) -> ModelPeriod | None:
    """Return the period typed for the item's maker and model, None if there is none: then there is no effect."""
    return inputs.tables.periods.of(inputs.item.maker, inputs.item.model)


def subject_share(inputs: Inputs, work: Working) -> Outcome | None:
    """Return the share of the subject (figure `period_share`); None: no period is typed."""
    period = period_of(inputs)
    if period is None:
        return None
    place = place_of(ITEMS, inputs.item, "")
    if inputs.window is None or not inputs.window:
        return work.refuse("period_share", "VAL-08", place, model=period.model)
    if inputs.window.first is None or inputs.window.last is None:
        return work.refuse("period_share", "VAL-09", place, found=inputs.window.edtf(), model=period.model)
    return _share(work, period, inputs.window)


def period_percent(line: Line, subject: Outcome | None) -> Outcome | None:
    """Return the percent for the model period (figure `pct_period`); None: no period is typed."""
    period = period_of(line.inputs)
    if period is None or subject is None:
        return None
    work = line.work
    window = line.inputs.sale_windows.get(str(line.sale.id))
    if window is None or not window or window.first is None or window.last is None:
        found = "" if window is None else window.edtf()
        return work.refuse("pct_period", "CMP-41", place_of(SALES, line.sale, "made_from"), found=found)
    own = _share(work, period, window)
    effect = work.cell(MODEL_PERIODS, period, "effect", name="period_effect")
    return work.figure("pct_period", PERCENT, PERIOD_PERCENT, effect, subject, own)


def _share(work: Working, period: ModelPeriod, window: Months) -> Outcome:
    years = [work.cell(MODEL_PERIODS, period, key, name=f"period_{key}") for key in YEARS]
    ends: list[Outcome] = []
    for number, run in enumerate(window.runs, 1):
        for name, month in (("first", run.first), ("last", run.last)):
            if month is not None:
                ends.append(work.note(f"window_{name}_{number}", Decimal(month), kind=COUNT))
    return work.figure("period_share", FACTOR, PERIOD_SHARE, *years, *ends)
