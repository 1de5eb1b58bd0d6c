"""A casualty loss of US income tax, from figures that counsel or the preparer types.

The smaller of the fall in value and the basis, less insurance, less a floor for each event, less a share of income
(IRC 165(h); 26 CFR 1.165-7). The appraisal supports the fall in value; the deduction is the preparer's and is never
called a value. Floor and share are dated figures of law and come in as arguments.
"""

from appraise.model.figure import Outcome
from appraise.model.kinds import money
from appraise.model.ledger import Ledger
from appraise.model.operations import PERCENT_OF, SMALLER
from appraise.valuing.amounts import LESS_OTHERS, RISE
from appraise.valuing.working import Worked, Working


def casualty_loss(
    ledger: Ledger,
    *,
    fall: Outcome,
    basis: Outcome,
    insurance: Outcome,
    floor: Outcome,
    income: Outcome,
    share: Outcome,
    currency: str,
) -> Worked:
    """Return the steps down to the loss that counts (figures loss, after_floor, income_share, counted), not below 0.

    fall    value before less value after
    share   percent of the income that stays without relief
    """
    cash = money(currency)
    work = Working(ledger, "LOS-01")
    loss = work.figure("loss", cash, SMALLER, fall, basis)
    after_insurance = work.figure("after_insurance", cash, RISE, loss, insurance)
    after_floor = work.figure("after_floor", cash, LESS_OTHERS, after_insurance, floor)
    income_share = work.figure("income_share", cash, PERCENT_OF, income, share)
    work.figure("counted", cash, RISE, after_floor, income_share)
    return work.done()
