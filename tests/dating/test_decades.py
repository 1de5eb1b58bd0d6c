"""A collection by decade."""

from support.dating import EXAMINED, month, plain

from appraise.dating.decades import Span, by_decade
from appraise.dating.result import DateWindow, Statement
from appraise.dating.window import date_window


def _window(item: str, *statements: Statement) -> DateWindow:
    return date_window(item, statements, EXAMINED)


def _run(first: str | None, last: str | None, name: str = "a", strength: int = 3) -> Statement:
    return plain(name, month(first) if first else None, month(last) if last else None, strength=strength)


def test_each_item_counts_once() -> None:
    lines = by_decade(
        [
            _window("G1", _run("1957-01", "1959-12")),
            _window("G2", _run("1958-01", "1960-01")),
            _window("G3", _run("1950-01", "1950-12")),
            _window("G4", _run("1954-05", None)),
            _window("G5", _run(None, "1931-12")),
            _window("G6"),
            _window("G7", _run("1950-01", "1950-12"), _run("1960-01", "1960-12", "b")),
            _window("G8", _run("1951-01", "1951-12"), _run("1960-01", "1960-12", "b", 2)),
        ]
    )
    assert [(one.span, one.first, one.last, one.items, one.provisional) for one in lines] == [
        (Span.NOT_AFTER, None, 1930, ("G5",), ()),
        (Span.NOT_BEFORE, 1950, None, ("G4",), ()),
        (Span.WITHIN, 1950, 1950, ("G1", "G3", "G8"), ("G8",)),
        (Span.ACROSS, 1950, 1960, ("G2",), ()),
        (Span.NONE, None, None, ("G6", "G7"), ()),
    ]


def test_an_empty_collection_has_no_lines() -> None:
    assert by_decade([]) == ()
