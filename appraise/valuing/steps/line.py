"""One comparison on its way to the subject."""

from datetime import date
from decimal import Decimal

from appraise.model.figure import Outcome
from appraise.model.frozen import frozen
from appraise.model.kinds import TYPED, Kind, money, typed_money
from appraise.model.missing import Missing, given
from appraise.model.place import Place
from appraise.records.market import COMPARISONS, Comparison, Sale
from appraise.valuing.inputs import Inputs
from appraise.valuing.working import Working

#: The finding for a cell that is needed and not given.
NOT_GIVEN = "VAL-01"


@frozen
class Line:
    """A comparison with its sale, and the working that remembers its figures and findings.

    name  the line's name in ids of figures: its id, or its row where the id cannot serve
    """

    name: str
    inputs: Inputs
    comparison: Comparison
    sale: Sale
    work: Working

    @property
    def subjects(self) -> tuple[str, str]:
        """Item and line, as findings name them."""
        return (self.inputs.item_id, self.name)

    def once(self, name: str, value: Decimal, place: Place) -> Outcome:
        """Return the figure of something typed that several steps use; it is made once."""
        if name not in self.work.figures:
            self.work.keep(name, self.work.ledger.typed(name, value, place))
        return self.work.figures[name]

    @property
    def report_money(self) -> Kind:
        """Money in the report's currency; rounded to cents where no currency is given (there is no figure then)."""
        return report_money(self.inputs)

    def typed_percent(self, key: str, name: str) -> Outcome:
        """Return the percent typed in a column of Comparisons that was given."""
        return self.work.cell(COMPARISONS, self.comparison, key, name=name, kind=TYPED)

    @property
    def weight(self) -> Decimal:
        """The weight typed, 0 where none is given."""
        return self.comparison.weight if given(self.comparison.weight) else Decimal(0)

    @property
    def effective(self) -> date | Missing:
        """The effective date of the opinion."""
        return self.inputs.tables.effective


def report_money(inputs: Inputs) -> Kind:
    """Return the kind of money in the report's currency (US dollars stand in where none is given: no figure then)."""
    currency = inputs.tables.currency
    return money(currency if given(currency) else "USD")


def typed_report_money(inputs: Inputs) -> Kind:
    """Return the kind of an amount typed in the report's currency."""
    currency = inputs.tables.currency
    return typed_money(currency if given(currency) else "")
