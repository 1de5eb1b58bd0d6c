"""Everything the opinion of one item under one type of value is made from."""

from collections.abc import Mapping, Sequence
from dataclasses import field

from appraise.model.finding import Finding
from appraise.model.frozen import frozen
from appraise.model.months import Months
from appraise.records.assignment import ValueTerms
from appraise.records.items import Item, Part
from appraise.records.market import Comparison, Opinion, Sale
from appraise.records.vocabulary import ValueType
from appraise.valuing.result import Valuation
from appraise.valuing.tables import JobTables
from appraise.valuing.use_rows import UseRows


@frozen(kw_only=True)
class Inputs:
    """One item, one type of value.

    terms         the line of Value types
    comparisons   the lines of this item and type of value, in the order typed
    sales         sales by id
    opinion       the line of Opinions; None: the job's terms apply
    window        months of manufacture of the item; None: not dated
    sale_windows  months of manufacture of the sales, by sale id, where they are typed
    uses          rows of the sheets that only some uses need
    concluded     opinions of the same item concluded before this one, by type of value
    """

    tables: JobTables
    item: Item
    terms: ValueTerms
    parts: Sequence[Part] = ()
    comparisons: Sequence[Comparison] = ()
    sales: Mapping[str, Sale] = field(default_factory=dict)
    opinion: Opinion | None = None
    window: Months | None = None
    sale_windows: Mapping[str, Months] = field(default_factory=dict)
    uses: UseRows = field(default_factory=UseRows)
    concluded: Mapping[ValueType, Valuation] = field(default_factory=dict)

    @property
    def item_id(self) -> str:
        """The item's id; an item without one is called by its row."""
        return self.item.id if isinstance(self.item.id, str) else f"row {self.item.row}"

    @property
    def value_type(self) -> ValueType:
        """The type of value; a line of Value types without one is not valued, and asking it is our own mistake."""
        if not isinstance(self.terms.value_type, ValueType):
            raise TypeError("a line of Value types without a value type")
        return self.terms.value_type


def each_once(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return the findings in order, each once."""
    return tuple(dict.fromkeys(findings))
