"""Adds comments to cells of somebody else's workbook, beside those that are there.

A spreadsheet keeps a comment in three places: its text in a part for the sheet, its box in a drawing of an older kind
(VML), and, of a conversation, its messages in a part of their own. All three are added to, never written anew.
"""

import re
import uuid
from collections.abc import Mapping

from appraise.files.xml_parts import UnsafeXml
from appraise.workbook.marking.marked_sheet import Address, drawing_link, reference, with_drawing
from appraise.workbook.marking.patched import PatchedPackage
from appraise.workbook.marking.xml_patch import Edit, Located, append_to, edited, escaped, locate, prefix_of
from appraise.workbook.sheet_xml import MAIN

#: Who signs the comments: the program, never the user of this machine.
AUTHOR = "appraise check"
_COMMENTS_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
_DRAWING_TYPE = "application/vnd.openxmlformats-officedocument.vmlDrawing"
_NEW_COMMENTS = f'<comments xmlns="{MAIN}"><authors/><commentList/></comments>'.encode()
_SPACES = (
    ("v", "urn:schemas-microsoft-com:vml"),
    ("o", "urn:schemas-microsoft-com:office:office"),
    ("x", "urn:schemas-microsoft-com:office:excel"),
)
_NEW_DRAWING = (
    "<xml " + " ".join(f'xmlns:{prefix}="{space}"' for prefix, space in _SPACES) + '><o:shapelayout v:ext="edit">'
    '<o:idmap v:ext="edit" data=""/></o:shapelayout></xml>'
).encode()
_BOX_TYPE = (
    '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">'
    '<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>'
)
#: Boxes are numbered in blocks; a drawing says which blocks are its own.
_BLOCK = 1024
_BLOCKS = re.compile(rb"""(<o:idmap\b[^>]*\bdata=)("[^"]*"|'[^']*')""")
_NUMBERS = re.compile(rb"_x0000_s([0-9]{1,9})")
#: Namespace in which the ids of messages are made: the same comment has the same id in every run.
_IDS = uuid.UUID("7d7a9f5e-6c0b-4a55-9c61-3b2f6f1c8e04")
_LAST_ROW, _LAST_COLUMN = 1_048_575, 16_383


def add_comments(package: PatchedPackage, sheet: str, book: str, texts: Mapping[Address, str]) -> None:
    """Add a comment to each cell of the sheet in part `sheet`; `book` is the part of the workbook.

    A cell that has a comment keeps it, and ours is added below it; to a conversation it is added as an answer.
    Raises `UnsafeXml` where a part that has to be changed is not well formed.
    """
    part = package.linked(sheet, "comments")
    if part is None:
        part = package.add("xl", "appraiseComments", "xml", _COMMENTS_TYPE)
        package.put(part, _NEW_COMMENTS)
        package.link(sheet, "comments", part)
    content, new = _with_texts(package.read(part), texts)
    package.put(part, content)
    if new:
        _add_boxes(package, sheet, sorted(new), texts)
    thread = package.linked(sheet, "threadedComment")
    if thread is not None:
        _add_answers(package, thread, book, {reference(one): text for one, text in texts.items()})


def _with_texts(content: bytes, texts: Mapping[Address, str]) -> tuple[bytes, list[Address]]:
    """Return the part with the texts in it, and the cells that had no comment before."""
    found = locate(content, lambda name, depth: depth <= 3 or name in ("t", "r"))
    by_name = {one.name: one for one in found if one.name in ("authors", "commentList", "comments")}
    if set(by_name) != {"authors", "commentList", "comments"}:
        raise UnsafeXml("the part holds no comments")
    p = prefix_of(content, by_name["comments"])
    authors = sum(one.name == "author" for one in found)
    edits = append_to(content, by_name["authors"], f"<{p}author>{escaped(AUTHOR)}</{p}author>".encode())
    there = {one.attributes.get("ref", ""): one for one in found if one.name == "comment"}
    new, pieces = [], []
    for address, text in sorted(texts.items()):
        comment = there.get(reference(address))
        if comment is not None:
            edits += _below(content, comment, found, text)
            continue
        new.append(address)
        pieces.append(
            f'<{p}comment ref="{reference(address)}" authorId="{authors}"><{p}text>{_run(p, text)}</{p}text>'
            f"</{p}comment>"
        )
    edits += append_to(content, by_name["commentList"], "".join(pieces).encode())
    return edited(content, edits), new


def _run(prefix: str, text: str) -> str:
    p = prefix
    return (
        f'<{p}r><{p}rPr><{p}sz val="9"/><{p}rFont val="Tahoma"/></{p}rPr>'
        f'<{p}t xml:space="preserve">{escaped(text)}</{p}t></{p}r>'
    )


def _below(content: bytes, comment: Located, found: list[Located], text: str) -> list[Edit]:
    """Return the edits that add a text below a comment that is there."""
    p = prefix_of(content, comment)
    run = _run(p, f"\n\n{AUTHOR}:\n{text}").encode()
    inner = [one for one in found if comment.start < one.start and one.end < comment.end]
    body = next((one for one in inner if one.name == "text"), None)
    if body is None:
        return append_to(content, comment, f"<{p}text>".encode() + run + f"</{p}text>".encode())
    runs = [one for one in inner if one.name == "r" and body.inside <= one.start < body.close]
    if runs:
        last = max(one.end for one in runs)
        return [Edit(last, last, run)]
    plain = next((one for one in inner if one.name == "t"), None)
    if plain is None:
        return append_to(content, body, run)
    # A text is either plain or made of runs.
    whole = f"<{p}r>".encode() + content[plain.start : plain.end] + f"</{p}r>".encode()
    return [Edit(plain.start, plain.end, whole + run)]


def _add_boxes(package: PatchedPackage, sheet: str, addresses: list[Address], texts: Mapping[Address, str]) -> None:
    """Add the box of each new comment to the drawing of the sheet's comments."""
    content = package.read(sheet)
    link = drawing_link(content)
    _, part = package.links(sheet).get(link, ("", "")) if link else ("", "")
    if link is None or part not in package:
        part = package.add("xl/drawings", "appraiseDrawing", "vml", _DRAWING_TYPE)
        package.put(part, _NEW_DRAWING)
        made = package.link(sheet, "vmlDrawing", part)
        if link is not None:
            raise UnsafeXml("the drawing of the sheet's comments is not there")
        package.put(sheet, with_drawing(content, made))
    package.put(part, _with_boxes(package, part, addresses, texts))


def _with_boxes(package: PatchedPackage, part: str, addresses: list[Address], texts: Mapping[Address, str]) -> bytes:
    # Programs write these drawings with tags that are not closed, so this is no work for a parser.
    content = package.read(part)
    end = content.rfind(b"</xml>")
    if end < 0:
        raise UnsafeXml("the drawing of the sheet's comments has no end")
    blocks = -(-(len(addresses) + 1) // _BLOCK)
    first = _first_free_block(package)
    declared = "".join(
        f' xmlns:{name}="{space}"' for name, space in _SPACES if f"xmlns:{name}=".encode() not in content
    )
    kind = "" if b'id="_x0000_t202"' in content else _BOX_TYPE.replace(" id=", f"{declared} id=", 1)
    shapes = "".join(
        _box(first * _BLOCK + number, address, texts[address], declared) for number, address in enumerate(addresses, 1)
    )
    more = ",".join(str(first + block) for block in range(blocks))
    content = content[:end] + (kind + shapes).encode() + content[end:]

    def with_blocks(match: re.Match[bytes]) -> bytes:
        own = match[2].strip(b"\"'").decode("latin-1")
        return match[1] + f'"{own},{more}"'.replace('",', '"', 1).encode()

    return _BLOCKS.sub(with_blocks, content, count=1)


def _first_free_block(package: PatchedPackage) -> int:
    """Return the first block of numbers that no drawing of the workbook uses."""
    used = {0}
    for name in package.namelist():
        if name.lower().endswith(".vml"):
            content = package.read(name)
            used |= {int(number) // _BLOCK for number in _NUMBERS.findall(content)}
            for _, data in _BLOCKS.findall(content):
                used |= {int(one) for one in re.findall(rb"[0-9]{1,6}", data)}
    return max(used) + 1


def _box(number: int, address: Address, text: str, declared: str) -> str:
    row, column = address[0] - 1, address[1] - 1
    lines = min(4 + sum(1 + len(line) // 45 for line in text.split("\n")), 30)
    left = min(column + 1, _LAST_COLUMN - 4)
    top = min(max(row - 1, 0), _LAST_ROW - lines)
    return (
        f'<v:shape{declared} id="_x0000_s{number}" type="#_x0000_t202" '
        'style="position:absolute;margin-left:60pt;margin-top:2pt;width:260pt;height:120pt;visibility:hidden" '
        'fillcolor="#ffffe1" o:insetmode="auto"><v:fill color2="#ffffe1"/>'
        '<v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>'
        '<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>'
        '<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/>'
        f"<x:Anchor>{left}, 15, {top}, 4, {left + 4}, 15, {top + lines}, 4</x:Anchor><x:AutoFill>False</x:AutoFill>"
        f"<x:Row>{row}</x:Row><x:Column>{column}</x:Column></x:ClientData></v:shape>"
    )


def _add_answers(package: PatchedPackage, thread: str, book: str, texts: Mapping[str, str]) -> None:
    """Add our text as an answer to each conversation about one of the cells."""
    content = package.read(thread)
    found = locate(content, lambda name, depth: depth <= 1)
    root = found[-1]
    firsts: dict[str, str] = {}
    for one in found[:-1]:
        if "parentId" not in one.attributes and one.attributes.get("ref") in texts:
            firsts.setdefault(one.attributes["ref"], one.attributes.get("id", ""))
    if not firsts:
        return
    person = _person(package, book)
    p = prefix_of(content, root)
    answers = "".join(
        f'<{p}threadedComment ref="{ref}" dT="2000-01-01T00:00:00.00" personId="{person}" '
        f'id="{_id(thread + ref)}" parentId="{escaped(parent)}"><{p}text>{escaped(texts[ref])}</{p}text>'
        f"</{p}threadedComment>"
        for ref, parent in sorted(firsts.items())
    )
    package.put(thread, edited(content, append_to(content, root, answers.encode())))


def _person(package: PatchedPackage, book: str) -> str:
    """Return the id of the one who signs our answers, added to the persons of the workbook."""
    person = _id(AUTHOR)
    part = package.linked(book, "person")
    if part is None:
        raise UnsafeXml("the persons of the conversations are not there")
    content = package.read(part)
    root = locate(content, lambda _, depth: depth == 0)[0]
    if person.encode() not in content:
        p = prefix_of(content, root)
        one = f'<{p}person displayName="{AUTHOR}" id="{person}" userId="{AUTHOR}" providerId="None"/>'
        package.put(part, edited(content, append_to(content, root, one.encode())))
    return person


def _id(text: str) -> str:
    return f"{{{str(uuid.uuid5(_IDS, text)).upper()}}}"
