"""Step e, condition: a typed percent, or two grades on a scale (method rule R9)."""

from appraise.model.figure import Outcome
from appraise.model.kinds import PERCENT
from appraise.model.missing import BLANK, given
from appraise.model.operations import PERCENT_ABOVE
from appraise.records.declare import place_of
from appraise.records.items import ITEMS
from appraise.records.market import SALES
from appraise.records.tables import SCALES
from appraise.valuing.inputs import Inputs
from appraise.valuing.steps.line import Line
from appraise.valuing.working import Working


def subject_condition(inputs: Inputs, work: Working) -> Outcome | None:
    """Return what the subject's grade is worth on its scale (figure `scale_value`); None: the item names no scale."""
    item = inputs.item
    if not given(item.scale):
        return None
    scale = inputs.tables.scales.get(item.scale)
    if scale is None:
        return work.refuse("scale_value", "VAL-05", place_of(ITEMS, item, "scale"), found=item.scale)
    if not given(item.grade):
        return work.keep("scale_value", work.lacking(ITEMS, item, "grade"))
    step = scale.steps.get(item.grade)
    if step is None:
        place = place_of(ITEMS, item, "grade")
        return work.refuse("scale_value", "VAL-06", place, found=str(item.grade), scale=scale.id)
    return work.cell(SCALES, step, "percent", name="scale_value")


def condition_percent(line: Line, subject: Outcome | None) -> Outcome | None:
    """Return the percent for condition (figure `pct_cond`); None: no percent is typed and the item names no scale."""
    if line.comparison.condition is not BLANK:
        return line.typed_percent("condition", "pct_cond")
    item, sale, work = line.inputs.item, line.sale, line.work
    if subject is None or not given(item.scale):
        return None
    scale = line.inputs.tables.scales.get(item.scale)
    if scale is None:
        return work.keep("pct_cond", subject)
    if not given(sale.grade):
        return work.keep("pct_cond", work.lacking(SALES, sale, "grade"))
    step = scale.steps.get(sale.grade)
    if step is None:
        place = place_of(SALES, sale, "grade")
        return work.refuse("pct_cond", "CMP-35", place, found=str(sale.grade), scale=scale.id)
    value = work.cell(SCALES, step, "percent", name="scale_value")
    return work.figure("pct_cond", PERCENT, PERCENT_ABOVE, subject, value)
