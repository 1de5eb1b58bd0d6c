"""Attacks on the workbook as a package: on the zip, and on the XML of its parts."""

import io
import struct
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

from support.hostile.case import Case, Ends, Home, zipped

#: Parts that are read, by what the cases call them.
READ_PARTS = {
    "package links": "_rels/.rels",
    "book": "xl/workbook.xml",
    "book links": "xl/_rels/workbook.xml.rels",
    "styles": "xl/styles.xml",
    "shared texts": "xl/sharedStrings.xml",
    "form sheet": "xl/worksheets/sheet2.xml",
    "table sheet": "xl/worksheets/sheet5.xml",
}
#: Parts nobody reads for a check.
OTHER_PARTS = {
    "content types": "[Content_Types].xml",
    "core properties": "docProps/core.xml",
    "custom properties": "docProps/custom.xml",
    "theme": "xl/theme/theme1.xml",
    "table": "xl/tables/table3.xml",
    "sheet links": "xl/worksheets/_rels/sheet5.xml.rels",
}
_LAUGHS = b"".join(
    b'<!ENTITY l%d "%s">' % (level, (b"&l%d;" % (level - 1)) * 10 if level else b"ha" * 10) for level in range(10)
)


def _before_root(addition: bytes) -> Callable[[bytes], bytes]:
    def change(content: bytes) -> bytes:
        end = content.index(b"?>") + 2
        return content[:end] + addition + content[end:]

    return change


def _in_root(addition: bytes) -> Callable[[bytes], bytes]:
    def change(content: bytes) -> bytes:
        end = content.rindex(b"</")
        return content[:end] + addition + content[end:]

    return change


def _on_root(attributes: bytes) -> Callable[[bytes], bytes]:
    def change(content: bytes) -> bytes:
        start = content.index(b"?>") + 2
        end = content.index(b" ", start)
        return content[:end] + b" " + attributes + content[end:]

    return change


def _declared(encoding: bytes) -> Callable[[bytes], bytes]:
    return lambda content: content.replace(b'encoding="UTF-8"', b'encoding="' + encoding + b'"')


def _entity(declaration: bytes) -> Callable[[bytes], bytes]:
    return _before_root(b"<!DOCTYPE x [" + declaration + b"]>")


#: Attacks on the XML of a part: how it is changed, and how a check ends where the part is read.
XML_ATTACKS: dict[str, tuple[Callable[[bytes], bytes], Ends]] = {
    "cut in half": (lambda content: content[: len(content) // 2], "refused"),
    "empty": (lambda _: b"", "refused"),
    "zeros": (lambda _: bytes(4096), "refused"),
    "no XML": (lambda _: b"These are notes.", "refused"),
    "binary": (lambda _: bytes(range(256)) * 20, "refused"),
    "document type": (_before_root(b"<!DOCTYPE x>"), "refused"),
    "document type elsewhere": (_before_root(b'<!DOCTYPE x SYSTEM "http://192.0.2.1/x.dtd">'), "refused"),
    "entities within entities": (_entity(_LAUGHS), "refused"),
    "one large entity": (_entity(b'<!ENTITY a "' + b"a" * 100_000 + b'">'), "refused"),
    "entity from a file": (_entity(b'<!ENTITY a SYSTEM "file:///etc/passwd">'), "refused"),
    "entity from the network": (_entity(b'<!ENTITY a SYSTEM "http://192.0.2.1/a">'), "refused"),
    "parameter entity": (_entity(b'<!ENTITY % a SYSTEM "file:///etc/hostname">%a;'), "refused"),
    "undeclared entity": (_in_root(b"<a>&nothing;</a>"), "refused"),
    "another root": (lambda _: b'<?xml version="1.0"?><html><body/></html>', "any"),
    "another namespace": (lambda content: content.replace(b"http://schemas.openxmlformats.org", b"urn:other"), "any"),
    "nested thirty thousand deep": (_in_root(b"<a>" * 30_000 + b"</a>" * 30_000), "any"),
    "nested and never closed": (_in_root(b"<a>" * 30_000), "refused"),
    "five megabytes in an attribute": (_on_root(b'more="' + b"x" * 5_000_000 + b'"'), "any"),
    "many attributes": (_on_root(b" ".join(b'a%d="1"' % number for number in range(20_000))), "any"),
    "an attribute twice": (_on_root(b'again="1" again="2"'), "refused"),
    "many namespaces": (_on_root(b" ".join(b'xmlns:a%d="urn:%d"' % (one, one) for one in range(5_000))), "any"),
    "an unknown prefix": (_in_root(b"<nobody:a/>"), "refused"),
    "an unknown encoding": (_declared(b"x-nothing"), "refused"),
    "declared as UTF-7": (_declared(b"utf-7"), "any"),
    "declared as UTF-16": (_declared(b"utf-16"), "refused"),
    "in UTF-16": (lambda content: _declared(b"UTF-16")(content).decode().encode("utf-16"), "any"),
    "not UTF-8": (_in_root(b"<a>\xff\xfe\xc3</a>"), "refused"),
    "a zero byte": (_in_root(b"<a>\x00</a>"), "refused"),
    "a control character": (_in_root(b"<a>\x08</a>"), "refused"),
    "a reference to no character": (_in_root(b"<a>&#x0;&#xFFFF;&#99999999999;</a>"), "refused"),
    "a byte order mark": (lambda content: b"\xef\xbb\xbf" + content, "any"),
    "spaces in front": (lambda content: b"  \n" + content, "refused"),
    "five megabytes of comment": (_in_root(b"<!--" + b"c" * 5_000_000 + b"-->"), "any"),
    "an instruction": (_before_root(b'<?xml-stylesheet href="http://192.0.2.1/a.xsl"?>'), "any"),
    "text behind the end": (lambda content: content + b"more", "refused"),
    "two roots": (lambda content: content + b"<a/>", "refused"),
}


def _changed(part: str, change: Callable[[bytes], bytes]) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        after = change(home.parts[part])
        assert after != home.parts[part], f"the attack does not change {part}"
        home.parts[part] = after
        home.save()

    return build


def _without(part: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        del home.parts[part]
        home.save()

    return build


def _renamed(part: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        home.parts = {name.upper() if name == part else name: content for name, content in home.parts.items()}
        home.save()

    return build


def _twice(part: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        content = bytearray(zipped({**home.parts, part[:-1] + "~": b"<other/>"}))
        false, true = (part[:-1] + "~").encode(), part.encode()
        home.job.write_bytes(bytes(content).replace(false, true))

    return build


def _patched_header(part: str, offset: int, value: bytes, *, local: int | None = None) -> Callable[[Home], None]:
    """Change the header of an entry: at an offset of the central directory, and of the local header if given."""

    def build(home: Home) -> None:
        content = bytearray(zipped(home.parts))
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            entry = package.getinfo(part)
            place = entry.header_offset
        name = part.encode()
        at = content.index(b"PK\x01\x02")
        while content[at + 46 : at + 46 + len(name)] != name or content[at + 28 : at + 30] != struct.pack(
            "<H", len(name)
        ):
            at = content.index(b"PK\x01\x02", at + 4)
        content[at + offset : at + offset + len(value)] = value
        if local is not None:
            content[place + local : place + local + len(value)] = value
        home.job.write_bytes(content)

    return build


def _bomb(part: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        home.parts[part] += b" " * 120_000_000
        home.save()

    return build


def _flipped(part: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        content = bytearray(zipped(home.parts))
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            entry = package.getinfo(part)
        middle = entry.header_offset + 30 + len(part) + entry.compress_size // 2
        for place in range(middle, middle + 4):
            content[place] ^= 0xFF
        home.job.write_bytes(content)

    return build


#: Attacks on the entry of a part in the zip.
ENTRY_ATTACKS: dict[str, tuple[Callable[[str], Callable[[Home], None]], Ends]] = {
    "missing": (_without, "any"),
    "in capitals": (_renamed, "any"),
    "there twice": (_twice, "refused"),
    "a bomb": (_bomb, "refused"),
    "flipped bytes": (_flipped, "refused"),
    "a wrong checksum": (lambda part: _patched_header(part, 16, b"\x01\x02\x03\x04", local=14), "refused"),
    "marked as encrypted": (lambda part: _patched_header(part, 8, b"\x01\x00", local=6), "refused"),
    "packed in an unknown way": (lambda part: _patched_header(part, 10, b"\x63\x00", local=8), "refused"),
    "packed as deflate64": (lambda part: _patched_header(part, 10, b"\x09\x00", local=8), "refused"),
    "a false size": (lambda part: _patched_header(part, 24, b"\x05\x00\x00\x00"), "refused"),
    "a size of four gigabytes": (lambda part: _patched_header(part, 24, b"\xfe\xff\xff\xff"), "refused"),
    "a place outside": (lambda part: _patched_header(part, 42, b"\xff\xff\xff\x0f"), "refused"),
    "a link of a file system": (lambda part: _patched_header(part, 38, struct.pack("<I", 0o120777 << 16)), "any"),
}


def _bytes(content: Callable[[Home], bytes]) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        home.job.write_bytes(content(home))

    return build


def _whole(home: Home) -> bytes:
    return zipped(home.parts)


def _with_entry(name: str, content: bytes = b"x") -> Callable[[Home], bytes]:
    return lambda home: zipped({**home.parts, name: content})


def _many_entries(home: Home) -> bytes:
    return zipped({**home.parts, **{f"a{number}": b"" for number in range(10_000)}}, method=zipfile.ZIP_STORED)


def _bomb_in_bomb(home: Home) -> bytes:
    inner = zipped({"0": bytes(20_000_000)})
    return zipped({**home.parts, "xl/embeddings/inner.zip": inner})


OLE = bytes.fromhex("D0CF11E0A1B11AE1")
PACKAGE_ATTACKS: dict[str, tuple[Callable[[Home], bytes], Ends]] = {
    "nothing": (lambda _: b"", "refused"),
    "one byte": (lambda _: b"P", "refused"),
    "two letters": (lambda _: b"PK", "refused"),
    "cut to a tenth": (lambda home: _whole(home)[: len(_whole(home)) // 10], "refused"),
    "cut to half": (lambda home: _whole(home)[: len(_whole(home)) // 2], "refused"),
    "without its last byte": (lambda home: _whole(home)[:-1], "refused"),
    "without the list of entries": (lambda home: _whole(home)[: _whole(home).index(b"PK\x01\x02")], "refused"),
    "only the list of entries": (lambda home: _whole(home)[_whole(home).index(b"PK\x01\x02") :], "refused"),
    "text in front": (lambda home: b"#!/bin/sh\n" + _whole(home), "any"),
    "text behind": (lambda home: _whole(home) + b"more" * 10, "any"),
    "a megabyte of text behind": (lambda home: _whole(home) + bytes(1_000_000), "refused"),
    "a false number of entries": (lambda home: _whole(home)[:-12] + b"\xff" * 4 + _whole(home)[-8:], "any"),
    "a false place of the list": (lambda home: _whole(home)[:-6] + b"\xff" * 4 + _whole(home)[-2:], "refused"),
    "no entries": (lambda _: zipped({}), "refused"),
    "ten thousand entries": (_many_entries, "any"),
    "a bomb in a bomb": (_bomb_in_bomb, "any"),
    "a name that climbs": (_with_entry("../../outside/secret.jpg"), "refused"),
    "a name that climbs with backslashes": (_with_entry("..\\..\\outside\\secret.jpg"), "refused"),
    "an absolute name": (_with_entry("/tmp/owned"), "refused"),
    "a name with a drive": (_with_entry("C:/owned"), "refused"),
    "a name of a device": (_with_entry("xl/CON"), "any"),
    "a name in Cyrillic": (_with_entry("xl/\u0430.xml"), "any"),
    "a name turned around": (_with_entry("xl/\u202excod.xml"), "any"),
    "a very long name": (_with_entry("xl/" + "n" * 60_000), "any"),
    "an empty name": (_with_entry(""), "any"),
    "a folder for a part": (_with_entry("xl/extra/", b""), "any"),
    "a RAR file": (lambda _: b"Rar!\x1a\x07\x01\x00" + bytes(100), "refused"),
    "a 7z file": (lambda _: b"7z\xbc\xaf\x27\x1c" + bytes(100), "refused"),
    "a gzip file": (lambda _: b"\x1f\x8b\x08\x00" + bytes(100), "refused"),
    "a PDF": (lambda _: b"%PDF-1.7\n", "refused"),
    "a web page": (lambda _: b"<html><table><tr><td>1</td></tr></table></html>", "refused"),
    "comma-separated values": (lambda _: b"id,maker\nG01,Voltigern\n", "refused"),
    "an old spreadsheet": (lambda _: OLE + bytes(600) + "Workbook".encode("utf-16-le"), "refused"),
    "a protected spreadsheet": (lambda _: OLE + bytes(600) + "EncryptedPackage".encode("utf-16-le"), "refused"),
    "an old container and no end": (lambda _: OLE, "refused"),
    "a large old container": (lambda _: OLE + bytes(30_000_000), "refused"),
    "an open document": (lambda _: zipped({"mimetype": b"application/vnd.oasis.opendocument.spreadsheet"}), "refused"),
    "a program": (lambda _: b"MZ" + bytes(200), "refused"),
    "a picture": (lambda home: home.photo.read_bytes(), "refused"),
}


def package_cases() -> Iterator[Case]:
    """Yield the cases: every attack on the XML of every part, on its entry, and on the zip as a whole."""
    for parts, read in ((READ_PARTS, True), (OTHER_PARTS, False)):
        for called, part in parts.items():
            for attack, (change, ends) in XML_ATTACKS.items():
                if read or attack in ("cut in half", "document type", "entities within entities", "binary"):
                    yield Case(attack, called, _changed(part, change), ends if read else "any")
            for attack, (entry, ends) in ENTRY_ATTACKS.items():
                if read or attack in ("a bomb", "there twice", "marked as encrypted", "missing"):
                    yield Case(attack, called, entry(part), ends if attack != "missing" and read else "any")
    for attack, (content, ends) in PACKAGE_ATTACKS.items():
        yield Case(attack, "zip", _bytes(content), ends)
    yield Case("a folder", "workbook file", _folder, "refused")
    yield Case("not there", "workbook file", lambda home: home.job.unlink(), "refused")
    yield Case("a link to nothing", "workbook file", _dangling, "refused")
    yield Case("a link in a ring", "workbook file", _ring, "refused")
    yield Case("a link to the sound one", "workbook file", _linked, "any")


def _folder(home: Home) -> None:
    home.job.unlink()
    home.job.mkdir()


def _dangling(home: Home) -> None:
    home.job.unlink()
    home.job.symlink_to("nowhere.xlsx")


def _ring(home: Home) -> None:
    home.job.unlink()
    home.job.symlink_to(home.job.name)


def _linked(home: Home) -> None:
    real = home.job.rename(Path(home.job.parent, "real.xlsx"))
    home.job.symlink_to(real.name)
