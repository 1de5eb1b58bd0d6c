"""Sets and pairs that lost a piece (method rule R20, first part).

What a set is worth beyond its pieces is lost with the first piece: a share by count or by singles understates it.
The usual clause lets the insurer restore the set, or pay its value before less the value of what is left; some pay
the whole value against handing over the rest. The measure is the policy's; all are shown.
"""

from collections.abc import Sequence
from decimal import Decimal

from appraise.model.figure import Figure, Outcome
from appraise.model.kinds import SHOWN_PERCENT, money
from appraise.model.ledger import Ledger
from appraise.model.missing import Missing, given, value_or
from appraise.model.operations import DIFFERENCE, PERCENT_SHARE, SMALLER, SUM, Numbers, operation
from appraise.records.declare import place_of
from appraise.records.losses import PIECES, SETS, Piece, SetLoss
from appraise.records.vocabulary import SetClause
from appraise.valuing.operations import CARRIED
from appraise.valuing.working import Worked, Working

ZERO = Decimal(0)


@operation("share of", "{0} ÷ {1} × {2}", lambda refs, places: f"{refs[0]}/{refs[1]}*{refs[2]}")
def SHARE_OF(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    """Part, whole, amount that is shared out."""
    return values[0] * values[2] / values[1]


@operation("difference and addition", "{0} − {1} + {2}", lambda refs, places: f"{refs[0]}-{refs[1]}+{refs[2]}")
def DIFFERENCE_PLUS(values: Numbers, places: int | None) -> Decimal:  # noqa: N802
    return values[0] - values[1] + values[2]


def set_loss(
    ledger: Ledger, line: SetLoss, *, pieces: Sequence[Piece], clause: SetClause | Missing, currency: str
) -> Worked:
    """Return the measures of the loss of part of a set, and the one the policy's clause takes, to the cent.

    Figures: sum_of_singles, assembly_premium, assembly_premium_pct, lost_singles, pro_rata, difference_measure,
    restore_measure (where replacement pieces can be had), surrender_measure, covered_loss.
    """
    work = Working(ledger, "LOS-01", line.set_id)
    whole = work.cell(SETS, line, "whole")
    rest = work.cell(SETS, line, "rest")
    repair = work.cell(SETS, line, "repair", blank=ZERO)
    _shares(work, line, pieces, whole, currency=currency)
    difference = work.figure("difference_measure", money(currency), DIFFERENCE_PLUS, whole, rest, repair)
    restore = _restore(work, line, repair, currency=currency)
    surrender = work.figure("surrender_measure", money(currency), CARRIED, whole)
    chosen = value_or(clause, SetClause.SMALLER)
    if restore is None and chosen in (SetClause.SMALLER, SetClause.RESTORE):
        work.find("LOS-14", place_of(SETS, line, "replacement"))
        chosen = SetClause.DIFFERENCE
    taken = {
        SetClause.SMALLER: (difference, *([restore] if restore is not None else [])),
        SetClause.DIFFERENCE: (difference,),
        SetClause.RESTORE: (restore,) if restore is not None else (difference,),
        SetClause.SURRENDER: (surrender,),
        SetClause.SHARE: (work.figures["pro_rata"],),
    }[chosen]
    work.figure("covered_loss", money(currency), SMALLER, *taken)
    return work.done()


def _shares(work: Working, line: SetLoss, pieces: Sequence[Piece], whole: Outcome, *, currency: str) -> None:
    """Work out what the pieces are worth alone, the premium of the set, and the share of the lost ones."""
    if not pieces:
        work.refuse("pro_rata", "LOS-13", place_of(SETS, line, "set_id"), found=str(value_or(line.set_id, "")))
        return
    singles = [work.cell(PIECES, piece, "alone", name=f"piece{number}") for number, piece in enumerate(pieces, start=1)]
    total = work.figure("sum_of_singles", money(currency), SUM, *singles)
    premium = work.figure("assembly_premium", money(currency), DIFFERENCE, whole, total)
    for piece in pieces:
        if not given(piece.lost):
            work.keep("lost_singles", work.lacking(PIECES, piece, "lost"))
    if isinstance(total, Figure) and total.number <= 0:
        work.refuse("pro_rata", "LOS-13", place_of(PIECES, pieces[0], "alone"), found=str(total.number))
        return
    work.figure("assembly_premium_pct", SHOWN_PERCENT, PERCENT_SHARE, premium, total)
    lost = work.figures.get("lost_singles")
    if lost is None:
        gone = [single for piece, single in zip(pieces, singles, strict=True) if piece.lost is True]
        lost = work.figure("lost_singles", money(currency), SUM, *gone)
    work.figure("pro_rata", money(currency), SHARE_OF, lost, total, whole)


def _restore(work: Working, line: SetLoss, repair: Outcome, *, currency: str) -> Outcome | None:
    """Return the cost of making the set whole again; None where no like pieces can be had."""
    if line.replacement is Missing.BLANK:
        return None
    replacement = work.cell(SETS, line, "replacement")
    matching = work.cell(SETS, line, "matching", blank=ZERO)
    lasting = work.cell(SETS, line, "repair_loss", blank=ZERO)
    return work.figure("restore_measure", money(currency), SUM, replacement, matching, repair, lasting)
