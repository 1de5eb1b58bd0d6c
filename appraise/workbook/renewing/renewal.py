"""Which cells of a workbook do not pass into next year's as they are, and why. All others do.

Dropped: what belongs to last year's report or event. Moved: last year's words and judgements that a new report must
not repeat unread; they stand beside the empty cell.
"""

from functools import cache

from appraise.records.job import SHEETS
from appraise.workbook.layout import AGE, LAST_YEAR

_REPORT = "belongs to last year's report"
_EVENT = "belongs to the loss of last year's report"
_SELLING = "belongs to the sale that last year's report was for"

#: By field of the job.
DROPPED_SHEETS = {
    "losses": _EVENT,
    "damage": _EVENT,
    "repairs": _EVENT,
    "sets": _EVENT,
    "pieces": _EVENT,
    "proceeds": _SELLING,
    "liquidation_terms": _SELLING,
    "liquidation": _SELLING,
    "absorption": _SELLING,
    "alternate": "belongs to the estate that last year's report was for",
    "counsel_figures": "belongs to the estate that last year's report was for",
    "treatments": "last year's line; its outcome is the prior value on Treatments",
    "answers": "answered last year; shown again on Answers if it is found again",
}

#: By field of the job and column key.
DROPPED_CELLS = {
    ("assignment", "use"): "the new workbook is for a yearly reappraisal",
    ("assignment", "effective_date"): "the new effective date stands there",
    ("assignment", "prior_services"): "now also names last year's report",
    ("assignment", "engaged_on"): _REPORT,
    ("assignment", "report_date"): _REPORT,
    ("assignment", "signed_on"): _REPORT,
    ("assignment", "delivered_on"): _REPORT,
    ("assignment", "death_date"): _REPORT,
    ("assignment", "gift_date"): _REPORT,
    ("assignment", "loss_date"): _REPORT,
    ("assignment", "return_due"): _REPORT,
    ("assignment", "issue_number"): _REPORT,
    ("assignment", "replaces_issue"): _REPORT,
    ("people", "assistance"): "who helps this year is to be said anew",
    ("opinions", "typed_value"): "last year's figure; it is the prior value on Treatments",
    ("policy", "starts"): "last year's period of insurance",
    ("policy", "ends"): "last year's period of insurance",
    ("policy", "agreed_until"): "last year's period of insurance",
    ("covers", "value"): "last year's figure; blank means as concluded in this workbook",
    ("yearly_terms", "prior_day"): "the day of last year's schedule stands there",
    ("yearly_terms", "currency_reason"): "speaks of last year's change",
}

#: By field of the job and column key; the old cell stands under its heading with "last year" behind it.
MOVED_CELLS = {
    ("assignment", "scope"): "the scope of this year's work is to be said anew",
    ("opinions", "typed_reason"): "reasons are to be given anew",
    ("opinions", "reconciliation"): "reasons are to be given anew",
    ("comparisons", "weight"): "0 until the sale is confirmed for this year",
    ("comparisons", "weight_reason"): "0 until the sale is confirmed for this year",
    ("market_notes", "trend"): "the trend to the new effective date is to be said anew",
}

#: Column keys of Answers that stand beside a finding that is open again.
ANSWERED_CELLS = ("reason", "initials", "day")


def last_year_heading(name: str, key: str) -> str:
    """Return the heading over last year's cell of a column; `name` is the field of the job."""
    return f"{SHEETS[name].column(key).heading}{LAST_YEAR}"


@cache
def shown_headings(sheet_name: str) -> frozenset[str]:
    """Return the headings of a sheet that are only shown, not read: last year's words, the age of a sale."""
    moved = [*MOVED_CELLS, *(("answers", key) for key in ANSWERED_CELLS)]
    found = {last_year_heading(name, key) for name, key in moved if SHEETS[name].name == sheet_name}
    return frozenset(found | ({AGE} if sheet_name == SHEETS["sales"].name else set()))
