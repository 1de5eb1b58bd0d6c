"""Pieces of section templates that print the tables of the report view.

A table of the view has fixed cells, and perhaps figure columns whose number depends on the job (one for each type of
value); these share the width the fixed columns leave. A strong row is set bold.
"""

from collections.abc import Sequence

from templates_source.kit import Piece, Sheet, Text, _cell, _row, _tag_row, paragraph
from templates_source.look import twips


def page_heading(sheet: Sheet, text: Text, style: str = "Heading1") -> None:
    """Add a heading that begins a new page (without an empty paragraph that could fall on a page of its own)."""
    sheet.raw(paragraph(text, style, extra="<w:pageBreakBefore/>"))


def view_table(
    sheet: Sheet,
    table: str,
    widths: Sequence[float],
    *,
    right: Sequence[int] = (),
    figures: bool = False,
    numbered: bool = True,
    maybe: bool = False,
    description: str = "",
    name: str = "row",
    linked: int | None = None,
    together: bool = False,
) -> None:
    """Add a table of the view.

    table     expression of the table, for example `r.summary.table`
    widths    of the fixed columns [mm]; figure columns share the rest of the page
    right     numbers of the fixed columns set to the right
    numbered  the caption is counted
    maybe     the table may be none
    together  short: a page break does not part it, nor part it from what follows
    linked    number of the fixed column whose text leads to the section the row is about
    """
    if maybe:
        sheet.tag(f"if {table} is not none")
    caption = f"{{{{ {table}.caption }}}}"
    if numbered:
        sheet.caption("table", "{{ r.table_label }}", caption, style="TableCaption")
    else:
        sheet.para(caption, "TableCaption")
    rest = sheet.width - sum(widths)
    span = len(widths) + (1 if figures else 0)

    def line(cells: str, amounts: str, styles: tuple[str, str], source: str) -> str:
        made = ""
        for at, width in enumerate(widths):
            text = f"{{{{ {source}.{cells}[{at}] }}}}"
            if at == linked and source == name:
                linking = f"{{{{ link({name}.key, {name}.cells[{at}]) }}}}"
                text = f"{{% if {name}.key %}}{linking}{{% else %}}{text}{{% endif %}}"
            made += _cell(width, text, styles[at in right])
        if figures:
            made += _cell(rest, f"{{%tc for figure in {source}.{amounts} %}}", "TableText")
            made += _cell(rest, "{{ figure }}", styles[1])
            made += _cell(rest, "{%tc endfor %}", "TableText")
        return made

    rows = _row(line("heads", "figure_heads", ("TableHead", "TableHeadFigure"), table), head=True)
    rows += _tag_row(f"{{%tr for {name} in {table}.rows %}}", span, sheet.width)
    rows += _tag_row(f"{{%tr if {name}.strong %}}", span, sheet.width)
    rows += _row(line("cells", "figures", ("TableTotal", "TableTotalFigure"), name))
    rows += _tag_row("{%tr else %}", span, sheet.width)
    rows += _row(line("cells", "figures", ("TableText", "TableFigure"), name))
    rows += _tag_row("{%tr endif %}", span, sheet.width)
    rows += _tag_row("{%tr endfor %}", span, sheet.width)
    columns = [*widths, rest] if figures else list(widths)
    if together:
        rows = rows.replace("</w:pPr>", "<w:keepNext/></w:pPr>")
    sheet._table("Schedule", columns, rows, description, head=True)
    with sheet.when(f"{table}.note"):
        sheet.para(f"{{{{ {table}.note }}}}", "TableNote")
    if maybe:
        sheet.tag("endif")


def opinions_table(
    sheet: Sheet, table: str, by_count: dict[int, Sequence[float]], *, description: str, linked: int | None = None
) -> None:
    """Add a table with a column for each type of value, laid out by how many there are.

    by_count  widths of the fixed columns for one, two ... types of value; the last serves any larger number
    """
    count = f"{table}.figure_heads|length"
    last = max(by_count)
    for number, widths in by_count.items():
        with sheet.when(f"{count} == {number}" if number < last else f"{count} > {last - 1}"):
            view_table(sheet, table, widths, figures=True, description=description, linked=linked)


def comparisons_grid(sheet: Sheet, grid: str, *, label_width: float = 37) -> None:
    """Add one grid of comparisons: steps as rows, comparisons as columns; part rows divide it."""
    sheet.caption("table", "{{ r.table_label }}", f"{{{{ {grid}.caption }}}}", style="TableCaption")
    rest = sheet.width - label_width

    def repeated(loop: str, content: str | list[str], style: str) -> str:
        return (
            _cell(rest, f"{{%tc for {loop} %}}", "TableText")
            + _cell(rest, content, style)
            + _cell(rest, "{%tc endfor %}", "TableText")
        )

    def line(styles: tuple[str, str]) -> str:
        cells = repeated("cell in step.cells", "{{ cell }}", styles[1])
        return _row(_cell(label_width, "{{ step.label }}", styles[0]) + cells)

    head = ["{{ column.name }}", "{{ column.house }}", "{{ column.day }}"]
    rows = _row(
        _cell(label_width, f"{{{{ {grid}.corner }}}}", "TableHead")
        + repeated(f"column in {grid}.columns", head, "GridHead"),
        head=True,
    )
    tags = [
        f"{{%tr for step in {grid}.rows %}}",
        "{%tr if step.part %}",
        "{%tr elif step.strong %}",
        "{%tr else %}",
        "{%tr endif %}",
        "{%tr endfor %}",
    ]
    begin, part, strong, otherwise, done, end = (_tag_row(one, 2, sheet.width) for one in tags)
    # The name of a part stays with its first step; a grid may go on overleaf, under its headings.
    rows += begin + part + line(("TableHead", "TableFigure")) + strong + line(("TableTotal", "TableTotalFigure"))
    rows += otherwise + line(("TableText", "TableFigure")) + done + end
    sheet._table("Schedule", [label_width, rest], rows, "Comparisons side by side, one step a row", head=True)


def photo_rows(sheet: Sheet, sequence: str, *, height_mm: int = 52) -> None:
    """Add photographs three by three with their captions.

    The paragraphs are not kept with the next one: office programs would read that of the whole table and move it
    to a page of its own.
    """
    third = sheet.width / 3
    loose = '<w:keepNext w:val="0"/>'

    def shown(picture: str) -> str:
        placed = f"{{{{ picture({picture}, {int(third) - 3}, {height_mm}) }}}}"
        caption = paragraph(f"{{{{ {picture}.caption }}}}", "Caption", extra=loose)
        return paragraph(placed, "Figure", extra=loose) + caption

    def perhaps(picture: str) -> str:
        empty = paragraph(f"{{%p if {picture} is none %}}") + paragraph("", "TableText") + paragraph("{%p else %}")
        return empty + shown(picture) + paragraph("{%p endif %}")

    width = f'<w:tcPr><w:tcW w:w="{twips(third)}" w:type="dxa"/></w:tcPr>'
    cells = (shown("shelf.first"), perhaps("shelf.second"), perhaps("shelf.third"))
    rows = _tag_row(f"{{%tr for shelf in {sequence} %}}", 3, sheet.width)
    rows += _row("".join(f"<w:tc>{width}{cell}</w:tc>" for cell in cells))
    rows += _tag_row("{%tr endfor %}", 3, sheet.width)
    with sheet.when(sequence):
        sheet._table("Pictures", [third, third, third], rows, "Photographs, three in a row", head=False)


def clauses(sheet: Sheet, sequence: str, *, level: int = 2) -> None:
    """Add clauses: a heading and its paragraphs for each."""
    with sheet.each("clause", sequence):
        sheet.heading(level, "{{ clause.heading }}")
        with sheet.each("words", "clause.paragraphs"):
            sheet.para("{{ words }}")


#: Where the line for signing ends, and where the line for the date begins and ends [mm].
_SIGN_TO, _DATE_FROM, _DATE_TO = 80, 92, 140


def signatures(sheet: Sheet, sequence: str, *, dated: bool = True) -> None:
    """Add a line for signing and, if `dated`, one for the date beside it, for each person who signs."""
    ends = [(_SIGN_TO, ' w:leader="underscore"')]
    if dated:
        ends += [(_DATE_FROM, ""), (_DATE_TO, ' w:leader="underscore"')]
    stops = "".join(f'<w:tab w:val="left"{leader} w:pos="{twips(end)}"/>' for end, leader in ends)
    kept = '<w:keepNext/><w:keepLines/><w:spacing w:before="680" w:after="40"/>'
    line = kept.replace("<w:spacing", f"<w:tabs>{stops}</w:tabs><w:spacing")
    below = f'<w:keepNext/><w:tabs><w:tab w:val="left" w:pos="{twips(_DATE_FROM)}"/></w:tabs>'
    with sheet.each("signer", sequence):
        sheet.raw(paragraph("\t" * len(ends), "SignatureText", extra=line))
        named: list[Piece] = [("{{ signer.name }}", "Strong"), "{% if signer.role %}, {{ signer.role }}{% endif %}"]
        if dated:
            sheet.raw(paragraph([*named, "\t{{ signer.date_label }}"], "SignatureText", extra=below))
            sheet.para("{{ signer.sign_label }}", "SignatureText")
        else:
            sheet.para(named, "SignatureText")


def chapter(sheet: Sheet, name: str, shapes: dict[tuple[int, int], Sequence[float]], *, signed: bool = False) -> None:
    """Add a section that only some uses have (a `Chapter` of the view).

    name    its name in the report view
    shapes  widths of the fixed columns [mm] by number of fixed and of figure columns, for every table it may hold
    signed  the chapter ends with lines for signing
    """
    page_heading(sheet, f"{{{{ r.{name}.heading }}}}")
    with sheet.each("words", f"r.{name}.intro"):
        sheet.para("{{ words }}")
    with sheet.each("block", f"r.{name}.blocks"):
        with sheet.when("block.heading"):
            sheet.heading(2, "{{ block.heading }}")
        with sheet.each("words", "block.paragraphs"):
            sheet.para("{{ words }}")
        sheet.facts_of("line", "block.lines", "{{ line.label }}", "{{ line.text }}", description="Particulars")
        with sheet.when("block.quotation"):
            sheet.para("{{ block.quotation }}", "Quote")
            sheet.para("{{ block.quotation_source }}", "QuoteSource")
        with sheet.each("shown", "block.tables"):
            for (heads, figures), widths in shapes.items():
                sized = f"shown.heads|length == {heads} and shown.figure_heads|length == {figures}"
                with sheet.when(sized):
                    view_table(sheet, "shown", widths, figures=figures > 0, description="A table of this section")
        with sheet.when("block.notice"):
            sheet.para("{{ block.notice }}", "Notice")
    if signed:
        signatures(sheet, f"r.{name}.signatures")
