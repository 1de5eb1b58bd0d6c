"""One item's section as finished texts: window, originality, condition, photographs and opinions. See `view`."""

from appraise.model.frozen import frozen
from appraise.report.engine.views import Picture, PriceChart, TimeChart
from appraise.report.view_parts import Line, Passage, Table


@frozen
class WindowView:
    """The window of manufacture with its reasons; `points` are conflicts, explanations and readings."""

    heading: str
    sentence: str
    reason: str
    points: tuple[str, ...]
    statements: Table | None
    notes: tuple[str, ...]
    chart: TimeChart | None


@frozen
class GridColumn:
    """The heading of one comparison in the grid."""

    name: str
    house: str
    day: str


@frozen
class GridRow:
    """One step of the grid: its name and one cell for each comparison of this grid; `part` rows divide the steps."""

    label: str
    cells: tuple[str, ...]
    strong: bool = False
    part: bool = False


@frozen
class Grid:
    """Comparisons as columns (six at most), steps as rows."""

    caption: str
    corner: str
    columns: tuple[GridColumn, ...]
    rows: tuple[GridRow, ...]


@frozen
class OpinionView:
    """One opinion of value with all that led to it."""

    heading: str
    intro: tuple[str, ...]
    sales: Table | None
    grids: tuple[Grid, ...]
    reasons: Table | None
    notes: tuple[str, ...]
    reconciliation_heading: str
    reconciliation: tuple[str, ...]
    results: Table | None
    chart: PriceChart | None
    opinion_label: str
    opinion: str
    opinion_note: str


@frozen
class PhotoRow:
    """Photographs side by side; the last row may hold fewer than three."""

    first: Picture
    second: Picture | None
    third: Picture | None


@frozen
class ItemView:
    """One item's section.

    group_heading  the heading above all items: given with the first one only
    key            anchor of the section
    photo_rows     the photographs three by three
    """

    id: str
    key: str
    number: str
    group_heading: str
    heading: str
    identification_heading: str
    identification: tuple[Line, ...]
    window: WindowView
    originality: Passage
    condition_heading: str
    condition: tuple[Line, ...]
    condition_notes: tuple[str, ...]
    inspection: Table | None
    provenance_heading: str
    provenance: tuple[Line, ...]
    history: Table | None
    cautions_heading: str
    cautions: tuple[str, ...]
    photos_heading: str
    photo_rows: tuple[PhotoRow, ...]
    photos_note: str
    opinions: tuple[OpinionView, ...]
    bridge: Passage | None
