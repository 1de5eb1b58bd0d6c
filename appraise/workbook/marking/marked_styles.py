"""Cell styles with a mark: each is a copy of a style the workbook has, with another fill."""

from collections.abc import Mapping

from appraise.workbook.marking.xml_patch import (
    Edit,
    Located,
    append_to,
    edited,
    locate,
    prefix_of,
    tag_end,
    with_attributes,
)
from appraise.workbook.sheet_xml import MAIN

#: Fill of each kind of mark. Words in the comment say the same; dark text stays readable on all of them.
FILLS: Mapping[str, str] = {"stop": "FFF6C6BE", "warn": "FFFFE3A3", "note": "FFD5E4F3"}
_EMPTY = (
    f'<styleSheet xmlns="{MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>'
    '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>'
    '</fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs>'
    '<cellXfs count="1"><xf fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs></styleSheet>'
).encode()


class MarkedStyles:
    """The styles of a workbook and the marked ones asked for so far.

    Raises `UnsafeXml` where the part is not well formed. A part without styles of cells is replaced by a plain one.
    """

    def __init__(self, content: bytes | None) -> None:
        found = [] if content is None else locate(content, lambda _, depth: depth <= 2)
        by_name = {one.name: one for one in found}
        if content is None or "cellXfs" not in by_name or "fills" not in by_name:
            content = _EMPTY
            found = locate(content, lambda _, depth: depth <= 2)
            by_name = {one.name: one for one in found}
        self._content = content
        self._formats = by_name["cellXfs"]
        self._fills = by_name["fills"]
        self._own = [one for one in found if one.name == "xf" and _within(one, self._formats)]
        self._fill_count = sum(one.name == "fill" and _within(one, self._fills) for one in found)
        self._made: dict[tuple[int, str], int] = {}

    def marked(self, style: int, mark: str) -> int:
        """Return the number of the style with a mark."""
        key = (style if style < len(self._own) else 0, mark)
        return self._made.setdefault(key, len(self._own) + len(self._made))

    def content(self) -> bytes:
        """Return the part with the marked styles in it."""
        marks = list(dict.fromkeys(mark for _, mark in self._made))
        before = prefix_of(self._content, self._fills)
        fills = "".join(_fill(before, FILLS[mark]) for mark in marks)
        formats = b"".join(self._copy(style, self._fill_count + marks.index(mark)) for style, mark in self._made)
        edits: list[Edit] = [
            *append_to(self._content, self._fills, fills.encode(), count=str(self._fill_count + len(marks))),
            *append_to(self._content, self._formats, formats, count=str(len(self._own) + len(self._made))),
        ]
        return edited(self._content, edits)

    def _copy(self, style: int, fill: int) -> bytes:
        if not self._own:
            return f'<{prefix_of(self._content, self._formats)}xf fillId="{fill}" applyFill="1"/>'.encode()
        one = self._own[style]
        whole = self._content[one.start : one.end]
        end = tag_end(whole, 0)
        return with_attributes(whole[:end], {"fillId": str(fill), "applyFill": "1"}) + whole[end:]


def _within(one: Located, around: Located) -> bool:
    return around.inside <= one.start < around.close


def _fill(prefix: str, colour: str) -> str:
    p = prefix
    return (
        f'<{p}fill><{p}patternFill patternType="solid"><{p}fgColor rgb="{colour}"/><{p}bgColor indexed="64"/>'
        f"</{p}patternFill></{p}fill>"
    )
