"""The one place where typed text is cleaned of what nobody typed on purpose."""

import re
import unicodedata

#: `_x000D_` and its like: how a workbook spells characters that XML does not allow (ECMA-376 part 1, 22.9.2.19).
_SPELLED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_LINE_END = re.compile("\r\n?|[\u0085\u2028\u2029]")
_SPACES = re.compile("[\u00a0\u2000-\u200a\u202f\u205f\u3000\t]")
_UNSEEN = re.compile("[\u200b\u2060\ufeff\u00ad]")
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
_TURNED = re.compile("[\u202a-\u202e\u2066-\u2069]")
#: Anything that `clean` could change; most texts have none of it and pass through untouched.
_SUSPECT = re.compile(r"[^\x20-\x7e\xa1-\xac\xae-\u02ff]|_x[0-9A-Fa-f]{4}_|^ | $")


def clean(text: str) -> str:
    """Return `text` in composed form, without control and unseen characters, with plain spaces and line ends.

    Outer spaces go; inner line breaks stay. Characters that turn the direction of writing around go as well: with
    them a text can be shown otherwise than it is stored.
    """
    if not _SUSPECT.search(text):
        return text
    text = _LINE_END.sub("\n", spelled_out(text))
    text = _SPACES.sub(" ", text)
    for kind in (_UNSEEN, _CONTROL, _TURNED):
        text = kind.sub("", text)
    return unicodedata.normalize("NFC", text).strip()


def clean_word(text: str) -> str:
    """Return `text` cleaned for an id or a word of a closed list: on one line, single spaces, nothing invisible."""
    text = clean(text)
    if text.isascii():
        return " ".join(text.split())
    return " ".join("".join(one for one in text if unicodedata.category(one) != "Cf").split())


def spelled_out(text: str) -> str:
    """Return `text` with `_x000D_` and its like replaced by the characters they stand for."""
    return _SPELLED.sub(lambda found: chr(int(found[1], 16)), text) if "_x" in text else text


def has_control(text: str) -> bool:
    """Say whether `text` holds control characters other than tab and line ends."""
    return _SUSPECT.search(text) is not None and _CONTROL.search(_LINE_END.sub("", spelled_out(text))) is not None


def has_turned(text: str) -> bool:
    """Say whether `text` holds characters that turn the direction of writing around."""
    return _SUSPECT.search(text) is not None and _TURNED.search(spelled_out(text)) is not None
