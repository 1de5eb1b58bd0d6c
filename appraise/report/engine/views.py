"""The small frozen objects a view hands to the engine. They hold finished texts and values; nothing acts."""

from collections.abc import Callable
from dataclasses import field
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import BinaryIO, Literal

from appraise.model.frozen import frozen

#: Marks a field that code reads and no template can name.
HIDDEN = {"template": False}


@frozen
class Picture:
    """A picture ready to be placed.

    source   file, bytes, or a function that opens a stream; read once, when the picture is first placed
    sha256   of the source; equal marks are stored once
    width, height   [pixels], of the source as it stands
    alt      what it shows, for who cannot see it; never empty
    caption  printed by the template, "" if none
    """

    source: Path | bytes | Callable[[], BinaryIO] = field(metadata=HIDDEN, repr=False)
    sha256: str = field(metadata=HIDDEN)
    width: int = field(metadata=HIDDEN)
    height: int = field(metadata=HIDDEN)
    alt: str
    caption: str = ""
    kind: Literal["jpeg", "png"] = field(default="jpeg", metadata=HIDDEN)


@frozen
class Span:
    """A stretch of text with one emphasis."""

    text: str
    bold: bool = False
    italic: bool = False


@frozen
class Rich:
    """Text with emphasis; printed with the tag `{{r ... }}`, which plain text must not use."""

    spans: tuple[Span, ...] = field(metadata=HIDDEN)

    def plain(self) -> str:
        """Return the text without its emphasis."""
        return "".join(span.text for span in self.spans)


@frozen
class Line:
    """A value drawn across a price chart and in a row of its own: the mean, the median, the opinion."""

    label: str
    value: Decimal
    printed: str = ""


@frozen
class PriceChart:
    """Each comparison's adjusted price as a bar, the range as a band, mean, median and opinion as lines.

    labels, values   one per comparison, in the order of the grid
    printed          the values as the report prints them
    low, high        ends of the band, or None for no band
    axis             what the axis counts, for example "US dollars"
    words            what the bars are, and the label of the band's row
    group            what stands between groups of three digits on the scale
    """

    alt: str
    labels: tuple[str, ...]
    values: tuple[Decimal, ...]
    printed: tuple[str, ...]
    lines: tuple[Line, ...] = ()
    low: Decimal | None = None
    high: Decimal | None = None
    axis: str = ""
    words: tuple[str, str] = ("Adjusted price", "Range")
    caption: str = ""
    group: str = ","


@frozen
class TimeBar:
    """One statement about the date of manufacture.

    first, last   months as year * 12 + month - 1; None: open at that end
    dropped       the statement was set aside and does not bound the window
    """

    label: str
    first: int | None
    last: int | None
    dropped: bool = False


@frozen
class TimeChart:
    """A bar for each statement on a scale of years, the window shaded across all of them.

    window   first and last month, or None when the evidence conflicts
    words    names in the legend: counts, set aside, without a first date, without a last date, window
    """

    alt: str
    bars: tuple[TimeBar, ...]
    window: tuple[int, int] | None = None
    words: tuple[str, str, str, str, str] = ("counts", "set aside", "no first date", "no last date", "window")
    caption: str = ""


@frozen
class Series:
    """A named row of values; None leaves a gap."""

    label: str
    values: tuple[Decimal | None, ...]


@frozen
class HistoryChart:
    """Values by year, one line per series; `group` as in `PriceChart`."""

    alt: str
    years: tuple[str, ...]
    series: tuple[Series, ...]
    axis: str = ""
    caption: str = ""
    group: str = ","


Chart = PriceChart | TimeChart | HistoryChart


@frozen
class Properties:
    """What the file says about itself.

    title      at most 255 characters are kept
    language   BCP 47, for example "en-US"
    created    the report's own day, never the clock's
    paper      "" leaves the house document's own size; the text width stays the same
    """

    title: str
    language: str
    created: date
    author: str = ""
    subject: str = ""
    paper: Literal["", "A4", "letter"] = ""


@frozen
class Edges:
    """The texts in the margins of each page; the house document calls them `edges`.

    page, of   the words of "Page 3 of 12"
    draft      the word written across each page of a draft
    """

    header_left: str = ""
    header_right: str = ""
    footer_left: str = ""
    page: str = "Page"
    of: str = "of"
    draft: str = "DRAFT"


@frozen
class SectionUse:
    """One section of a report: name of its template, and whether it is repeated for each item.

    Neighbouring sections that are repeated belong together: an item has all of them before the next item begins.
    """

    name: str
    per_item: bool = False
