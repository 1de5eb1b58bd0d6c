"""A small invented report for the engine's tests: views, two section templates, pictures made in memory."""

import hashlib
import io
import sys
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

from PIL import Image

from appraise.report.engine.find import TemplateFinder, shipped
from appraise.report.engine.views import (
    Edges,
    HistoryChart,
    Line,
    Picture,
    PriceChart,
    Properties,
    Rich,
    SectionUse,
    Series,
    Span,
    TimeBar,
    TimeChart,
)

ROOT = Path(__file__).parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))


@dataclass(frozen=True, slots=True)
class Row:
    number: str
    title: str
    details: str
    value: str


@dataclass(frozen=True, slots=True)
class Fact:
    label: str
    text: str


@dataclass(frozen=True, slots=True)
class Cell:
    text: str


@dataclass(frozen=True, slots=True)
class Step:
    label: str
    cells: tuple[Cell, ...]
    total: bool


@dataclass(frozen=True, slots=True)
class Pair:
    left: Picture
    right: Picture | None


@dataclass(frozen=True, slots=True)
class SampleReport:
    title: str
    subtitle: str
    client: str
    rows: tuple[Row, ...]
    total: str
    facts: tuple[Fact, ...]
    paragraphs: tuple[str, ...]
    history: HistoryChart | None


@dataclass(frozen=True, slots=True)
class SampleItem:
    key: str
    title: str
    facts: tuple[Fact, ...]
    description: Rich
    source: str
    columns: tuple[Cell, ...]
    steps: tuple[Step, ...]
    pairs: tuple[Pair, ...]
    photos: tuple[Picture, ...]
    time: TimeChart | None
    price: PriceChart | None
    opinion: str


def picture(seed: int, caption: str, *, width: int = 640, height: int = 480) -> Picture:
    """Return a picture made of two tones, so that its file is small."""
    stream = io.BytesIO()
    image = Image.new("RGB", (width, height), (90 + seed * 37 % 120, 110, 140))
    image.paste((225, 215, 190 + seed % 40), (width // 4, height // 4, 3 * width // 4, 3 * height // 4))
    image.save(stream, "JPEG", quality=80)
    content = stream.getvalue()
    return Picture(content, hashlib.sha256(content).hexdigest(), width, height, f"{caption}, seen straight on", caption)


def month(year: int, number: int = 1) -> int:
    return year * 12 + number - 1


TIME = TimeChart(
    alt="Time chart: five statements; the window is January 1937 to December 1938",
    bars=(
        TimeBar("Serial list, 2150-2260", month(1937), month(1938, 12)),
        TimeBar("Sound holes with bound edges", month(1936), month(1942, 12)),
        TimeBar("Parallel bracing", None, month(1939, 12)),
        TimeBar("Engraved tailpiece (later replacement)", month(1939), None, dropped=True),
        TimeBar("Receipt of March 1939", None, month(1939, 3)),
    ),
    window=(month(1937), month(1938, 12)),
    caption="Statements about the date of manufacture",
)
PRICE = PriceChart(
    alt="Price chart: three comparisons between 9,180 and 10,450 US dollars; mean 9,767, opinion 9,800",
    labels=("S01, March 2024", "S02, June 2024", "S03, November 2024"),
    values=(Decimal("9180.00"), Decimal("9671.25"), Decimal("10450.00")),
    printed=("9,180.00", "9,671.25", "10,450.00"),
    lines=(Line("Mean", Decimal("9767.08"), "9,767.08"), Line("Opinion", Decimal(9800), "9,800")),
    low=Decimal("9180.00"),
    high=Decimal("10450.00"),
    axis="US dollars",
    caption="Adjusted prices, range and opinion",
)
HISTORY = HistoryChart(
    alt="History chart: two families over four years",
    years=("2022", "2023", "2024", "2025"),
    series=(
        Series("Archtop guitars", (Decimal(41000), Decimal(43500), Decimal(44100), Decimal(46800))),
        Series("Banjos", (Decimal(18000), None, Decimal(17500), Decimal(17900))),
    ),
    axis="US dollars",
    caption="Totals by family and year",
)


def item(number: int, *, photos: int = 3, columns: int = 3, steps: int = 5) -> SampleItem:
    shots = tuple(picture(number * 10 + one, f"View {one + 1}") for one in range(photos))
    pairs = tuple(Pair(shots[one], shots[one + 1] if one + 1 < len(shots) else None) for one in range(0, len(shots), 2))
    return SampleItem(
        key=f"item{number}",
        title=f"Skarvholm Consul 17, serial {2200 + number}",
        facts=(
            Fact("Maker", "Skarvholm & Sons <Port Aldous>"),
            Fact("Markings", "label: 'Skarvholm'\nstamp: 2217"),
            Fact("Location", "Port Aldous house, music room"),
        ),
        description=Rich((Span("Carved top, "), Span("sunburst", italic=True), Span(" finish & gold parts."))),
        source=f"Sale catalogue of the house, lot {number}",
        columns=tuple(Cell(f"S{one + 1:02d}") for one in range(columns)),
        steps=tuple(
            Step(f"Step {one + 1}", tuple(Cell(f"{9000 + one * 10 + c}.00") for c in range(columns)), one == steps - 1)
            for one in range(steps)
        ),
        pairs=pairs,
        photos=shots[:1],
        time=TIME,
        price=PRICE if number % 2 else None,
        opinion="9,800 US dollars (range 9,180.00 to 10,450.00)",
    )


def report(rows: int = 30) -> SampleReport:
    return SampleReport(
        title="Appraisal of musical instruments",
        subtitle="Retail replacement value for insurance, as of 1 March 2025",
        client="Aldous Trust\nPort Aldous",
        rows=tuple(
            Row(str(one + 1), "Skarvholm Consul 17", "archtop guitar, 1937 to 1938", f"{9000 + one:,}.00")
            for one in range(rows)
        ),
        total="294,435.00",
        facts=(Fact("Client", "Aldous Trust"), Fact("Effective date", "1 March 2025")),
        paragraphs=(
            "The objects were inspected by daylight and under ultraviolet light.",
            "Text in braces stays text: {{ r.title }} and {% for %}.",
        ),
        history=HISTORY,
    )


def overview_template(house: bytes) -> bytes:
    from templates_source.kit import Column, Sheet

    sheet = Sheet(house)
    sheet.para("{{ r.title }}", "Title")
    sheet.para("{{ r.subtitle }}", "Subtitle")
    sheet.para("Client", "CoverLabel")
    sheet.para("{{ r.client }}", "CoverText")
    sheet.page_break()
    sheet.para("Contents", "ContentsTitle")
    sheet.contents(2)
    sheet.page_break()
    sheet.heading(1, "Summary", front=True)
    sheet.facts_of("fact", "r.facts", "{{ fact.label }}", "{{ fact.text }}", description="Facts of the assignment")
    sheet.heading(1, "Scope of work")
    with sheet.each("line", "r.paragraphs"):
        sheet.para("{{ line }}", "ListBullet")
    sheet.para("Summary of what the law asks, in our words.", "Quote")
    sheet.para("Invented standard, edition 3, section 4", "QuoteSource")
    sheet.para("The cautions are read first.", "Notice")
    sheet.heading(1, "Schedule")
    sheet.heading(2, "By number")
    sheet.table(
        [
            Column(12, "No.", "{{ row.number }}"),
            Column(108, "Object", ["{{ row.title }}", "{{ row.details }}"]),
            Column(40, "Value, USD", "{{ row.value }}", figure=True),
        ],
        each=("row", "r.rows"),
        total=["", "Total", "{{ r.total }}"],
        caption=("table", "Table", "Schedule of the objects"),
        description="Number, object and value of each line",
    )
    sheet.chart("r.history", label="Figure")
    sheet.signature("A. Appraiser", "Date:")
    return sheet.finished()


def item_template(house: bytes) -> bytes:
    from templates_source.kit import Sheet

    sheet = Sheet(house)
    sheet.heading(1, "{{ item.title }}{{ anchor(item.key) }}")
    sheet.facts_of("fact", "item.facts", "{{ fact.label }}", "{{ fact.text }}", description="Identification")
    sheet.para("Description: {{r item.description }}")
    sheet.para("The sale is published.{{ footnote(item.source) }}")
    sheet.heading(2, "Date of manufacture")
    sheet.chart("item.time", label="Figure")
    sheet.heading(3, "Photographs")
    sheet.picture_rows("pair", "item.pairs", label="Figure")
    sheet.heading(2, "Comparisons")
    sheet.grid(
        label_width=40,
        corner="Step",
        columns=("column", "item.columns"),
        head="{{ column.text }}",
        rows=("step", "item.steps"),
        label="{{ step.label }}",
        cells=("cell", "step.cells"),
        cell="{{ cell.text }}",
        total_if="step.total",
        caption=("table", "Table", "Adjustments"),
        description="Steps from each price to its adjusted price",
    )
    sheet.chart("item.price", label="Figure")
    sheet.para([("Opinion of value: ", "Strong"), "{{ item.opinion }}"], "Opinion")
    return sheet.finished()


SECTIONS = (SectionUse("overview"), SectionUse("object", per_item=True))
PROPERTIES = Properties("Appraisal of musical instruments", "en-US", date(2025, 3, 14), author="A. Appraiser")
EDGES = Edges("Appraisal of musical instruments", "Aldous Trust, assignment 25-014", "Issue 1, 14 March 2025")


def house_bytes() -> bytes:
    return (Path(str(shipped())) / "house.docx").read_bytes()


def finder(folder: Path) -> TemplateFinder:
    """Return a finder for a folder with the two sample sections, the house document being the shipped one."""
    target = folder / "sections"
    target.mkdir(parents=True, exist_ok=True)
    (target / "overview.docx").write_bytes(overview_template(house_bytes()))
    (target / "object.docx").write_bytes(item_template(house_bytes()))
    return TemplateFinder.with_own(folder)
