"""Attacks on what stands in the cells: each is tried on columns of several kinds."""

from collections.abc import Callable, Iterator

from support.hostile.case import Case, Command, Home

#: Columns of every kind: field of the job, key.
COLUMNS = (
    ("items", "maker"), ("items", "serial"), ("items", "description"), ("items", "id"), ("items", "family"),
    ("items", "inspected_on"), ("items", "grade"), ("items", "number"), ("items", "location"),
    ("sales", "price"), ("sales", "day"), ("sales", "made_from"), ("sales", "currency"), ("sales", "related"),
    ("sales", "house"), ("sales", "premium_table"), ("comparisons", "deductions"), ("comparisons", "weight"),
    ("comparisons", "condition_reason"), ("comparisons", "level"), ("evidence", "from_"), ("evidence", "statement"),
    ("photos", "caption"), ("assignment", "client"), ("assignment", "effective_date"), ("assignment", "currency"),
    ("assignment", "workbook_locale"), ("assignment", "report_language"), ("assignment", "intended_use"),
    ("assignment", "title"), ("assignment", "circa_years"), ("people", "name"),
)  # fmt: skip
#: How many columns each attack is tried on; the choice moves on from attack to attack.
_EACH = 2
_RUNS: tuple[tuple[Command, ...], ...] = (("check", "report"), ("check",))

#: Texts as they stand in XML.
TEXTS = {
    "a million characters": "x" * 1_000_000,
    "thirty thousand line breaks": "a&#10;" * 30_000,
    "a hundred thousand digits": "7" * 100_000,
    "fifty thousand letters and a sign": "a" * 50_000 + "!",
    "ten thousand opening brackets": "(" * 10_000,
    "ten thousand commas": "1," * 10_000,
    "ten thousand times circa": "circa " * 10_000,
    "ten thousand times before": "before the " * 10_000 + "1930s",
    "ten thousand minus signs": "-" * 10_000 + "1",
    "ten thousand semicolons": "10; " * 10_000,
    "spelt control characters": "_x0000__x0001__x0008__x001B_[31mred_x001B_[0m_x007F_",
    "a spelt half of a character": "_xD83C_",
    "spelt characters of no kind": "_xFFFE__xFFFF__x0000_",
    "terminal sequences": "&#x9B;31mred&#x9B;0m",
    "a bell and a title": "_x001B_]0;owned_x0007_",
    "terminal markup": "[red]stop[/red] [link=http://192.0.2.1]here[/link] :guitar:",
    "text turned around": "gp&#x202E;fdp.exe&#x202C; &#x2066;x&#x2069;",
    "unseen characters": "G&#x200B;0&#xFEFF;1&#x2060;&#xAD;",
    "ten thousand accents on one letter": "e" + "&#x301;" * 10_000,
    "emoji": "&#x1F3B8;&#x200D;&#x1F469;&#x1F3FD;",
    "characters of no kind": "&#xE000;&#xFFFD;&#x10FFFF;",
    "line separators": "one&#x2028;two&#x2029;three&#x85;four",
    "digits of other scripts": "&#x0661;&#x0669;&#x0664;&#x0660;",
    "wide digits": "&#xFF11;&#xFF19;",
    "template tags": "{{ 7 * 7 }} {% for x in y %} {# c #} {{r rich }}",
    "a template that climbs": "{{ ''.__class__.__mro__[1].__subclasses__() }}",
    "half a template tag": "}} {% endif %} {{",
    "names of a format": "{found} {0} {} {found.__class__} %s %n %(a)s",
    "one brace": "{",
    "markup of a Word file": "&lt;/w:t&gt;&lt;/w:r&gt;&lt;w:p/&gt; &amp;amp; ]]&gt;",
    "an entity in text": "&amp;lt;!DOCTYPE x&amp;gt; &amp;#0;",
    "a command as a formula": "=cmd|' /C calc'!A0",
    "a formula with a plus": "+1+cmd",
    "a formula with an at sign": "@SUM(A1:A9)",
    "a formula with a tab": "&#9;=1+1",
    "a path that climbs": "../../outside/secret.xlsx",
    "an absolute path": "/etc/passwd",
    "a link": "http://192.0.2.1/x?a=1&amp;b=2",
    "a link to a file": "file:///etc/passwd",
    "a link that runs": "javascript:alert(1)",
    "a query": "'; DROP TABLE items; --",
    "a shell command": "$(touch owned) `touch owned` ; touch owned | cat",
    "a number written with points": "1.234,56",
    "a number written with apostrophes": "1'234.56",
    "a number of many signs": "1.2.3,4,5",
    "a number with a unit": "12 EUR 50",
    "not a number": "NaN",
    "infinity": "Infinity",
    "a large power": "1e999999999",
    "a power of Unicode": "10&#x2079;",
    "a day that never was": "2025-02-30",
    "a year with five digits": "12025-01-01",
    "year zero": "0000-00-00",
    "the word unknown many times": "unknown " * 5_000,
    "words of other marks": "leave out",
    "an apostrophe": "'",
    "a number sign": "#REF!",
}
#: Cells as a spreadsheet might hold them; `{ref}` is the address.
CELLS = {
    "an error": '<c r="{ref}" t="e"><v>#DIV/0!</v></c>',
    "an error nobody knows": '<c r="{ref}" t="e"><v>#OWNED!</v></c>',
    "a formula never calculated": '<c r="{ref}"><f>1+1</f></c>',
    "an array formula": '<c r="{ref}"><f t="array" ref="{ref}:{ref}">SUM(A1:A9*1)</f><v>1</v></c>',
    "a shared formula without its first": '<c r="{ref}"><f t="shared" si="999"/><v>3</v></c>',
    "a table of data": '<c r="{ref}"><f t="dataTable" ref="{ref}" dt2D="1" r1="A1" r2="A2"/><v>3</v></c>',
    "a formula that calls a program": "<c r=\"{ref}\"><f>cmd|' /C calc'!A0</f><v>0</v></c>",
    "a formula that fetches": '<c r="{ref}" t="str"><f>WEBSERVICE("http://192.0.2.1")</f><v>owned</v></c>',
    "a formula of another file": '<c r="{ref}"><f>[1]Sheet1!A1</f><v>3</v></c>',
    "a formula of sixty thousand signs": '<c r="{ref}"><f>' + "1+" * 30_000 + "1</f><v>1</v></c>",
    "a formula with ten thousand brackets": '<c r="{ref}"><f>' + "(" * 10_000 + "</f><v>1</v></c>",
    "an empty result": '<c r="{ref}" t="str"><f>""</f><v></v></c>',
    "a result that is an error": '<c r="{ref}" t="e"><f>1/0</f><v>#DIV/0!</v></c>',
    "a million digits": '<c r="{ref}"><v>' + "9" * 1_000_000 + "</v></c>",
    "a million digits behind the point": '<c r="{ref}"><v>0.' + "3" * 1_000_000 + "</v></c>",
    "a number too large": '<c r="{ref}"><v>1e309</v></c>',
    "a number with a huge power": '<c r="{ref}"><v>1e999999999</v></c>',
    "the largest number": '<c r="{ref}"><v>1.7976931348623157E+308</v></c>',
    "the smallest number": '<c r="{ref}"><v>4.9E-324</v></c>',
    "a negative number": '<c r="{ref}"><v>-1E+15</v></c>',
    "minus zero": '<c r="{ref}"><v>-0</v></c>',
    "nan as a number": '<c r="{ref}"><v>nan</v></c>',
    "hexadecimal": '<c r="{ref}"><v>0x10</v></c>',
    "text as a number": '<c r="{ref}"><v>twelve</v></c>',
    "yes and no": '<c r="{ref}" t="b"><v>2</v></c>',
    "a day of no calendar": '<c r="{ref}" t="d"><v>2025-13-45</v></c>',
    "a day in words": '<c r="{ref}" t="d"><v>yesterday</v></c>',
    "a kind nobody knows": '<c r="{ref}" t="zz"><v>1</v></c>',
    "a shared text that is not there": '<c r="{ref}" t="s"><v>999999</v></c>',
    "a shared text before the first": '<c r="{ref}" t="s"><v>-1</v></c>',
    "a shared text with no number": '<c r="{ref}" t="s"><v>abc</v></c>',
    "a shared text of thirty digits": '<c r="{ref}" t="s"><v>' + "9" * 30 + "</v></c>",
    "a style that is not there": '<c r="{ref}" s="99999"><v>1</v></c>',
    "a style before the first": '<c r="{ref}" s="-5"><v>1</v></c>',
    "a style with no number": '<c r="{ref}" s="x"><v>1</v></c>',
    "rich text of ten thousand runs": '<c r="{ref}" t="inlineStr"><is>' + "<r><t>a</t></r>" * 10_000 + "</is></c>",
    "markup inside a value": '<c r="{ref}"><v><b>1</b></v></c>',
    "two values": '<c r="{ref}"><v>1</v><v>2</v></c>',
    "a cell in a cell": '<c r="{ref}"><v>1</v><c r="{ref}"><v>2</v></c></c>',
    "nothing": '<c r="{ref}"/>',
    "a marked section": '<c r="{ref}" t="inlineStr"><is><t><![CDATA[</row></sheetData> & <b>]]></t></is></c>',
}


def content_cases() -> Iterator[Case]:
    """Yield each attack on some columns, in turn so that every column meets attacks of every kind."""
    attacks = [(name, _text(text)) for name, text in TEXTS.items()]
    attacks += [(name, _cell(cell)) for name, cell in CELLS.items()]
    for number, (name, build) in enumerate(attacks):
        for step in range(_EACH):
            sheet, key = COLUMNS[(5 * number + 13 * step) % len(COLUMNS)]
            yield Case(name, f"{sheet} {key}", build(sheet, key), runs=_RUNS[step])


def _text(text: str) -> Callable[[str, str], Callable[[Home], None]]:
    return lambda sheet, key: lambda home: home.put_text(sheet, key, text)


def _cell(cell: str) -> Callable[[str, str], Callable[[Home], None]]:
    return lambda sheet, key: lambda home: home.put_cell(sheet, key, cell)
