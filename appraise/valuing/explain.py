"""The chain of figures of one opinion, line by line, so that a calculator can redo it."""

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure
from appraise.model.frozen import frozen
from appraise.model.operations import OPERATIONS
from appraise.model.place import Place


@frozen
class ExplainedFigure:
    """One line of the chain.

    id        id of the figure
    sentence  how it was made, with the figures it was made from; for a typed one where it stands
    result    the figure as it is carried on, in plain digits with a point
    currency  of an amount of money, else ""
    places    the cells of a typed figure
    """

    id: str
    sentence: str
    result: str
    currency: str
    places: tuple[Place, ...]


def explained(figures: Mapping[str, Figure]) -> tuple[ExplainedFigure, ...]:
    """Return the chain in the order in which the figures were made; `figures` are those of a recording ledger."""
    return tuple(_line(one, figures) for one in figures.values())


def chain_of(figure_id: str, figures: Mapping[str, Figure]) -> tuple[ExplainedFigure, ...]:
    """Return only what one figure was made from, and itself, in the order made. An unknown id gives nothing."""
    wanted: set[str] = set()
    open_ids = [figure_id] if figure_id in figures else []
    while open_ids:
        one = open_ids.pop()
        if one not in wanted:
            wanted.add(one)
            open_ids += [argument for argument in figures[one].arguments if argument in figures]
    return tuple(_line(one, figures) for one in figures.values() if one.id in wanted)


def _line(figure: Figure, figures: Mapping[str, Figure]) -> ExplainedFigure:
    return ExplainedFigure(figure.id, _sentence(figure, figures), plain(figure), figure.kind.currency, figure.places)


def _sentence(figure: Figure, figures: Mapping[str, Figure]) -> str:
    if figure.operation == "typed":
        return f"as typed: {_where(figure.places)}" if figure.places else "as typed"
    if figure.operation == "noted":
        return f"looked up: {_where(figure.places)}" if figure.places else "noted"
    return OPERATIONS[figure.operation].words([plain(figures[one]) for one in figure.arguments])


def _where(places: Iterable[Place]) -> str:
    return "; ".join(", ".join(_words(place)) for place in places)


def _words(place: Place) -> list[str]:
    return [place.sheet, *([f"row {place.row}"] if place.row else []), *([place.column] if place.column else [])]


def plain(figure: Figure) -> str:
    """Return a figure's value in plain digits with the decimals of its kind; a day as ISO, a text as it is.

    >>> from appraise.model.kinds import money
    >>> plain(Figure("a", money("USD"), Decimal("1250.5"), "typed"))
    '1250.50'
    """
    value = figure.value
    if isinstance(value, Decimal):
        return f"{value:f}" if figure.kind.places is None else f"{value:.{figure.kind.places}f}"
    return value.isoformat() if isinstance(value, date) else value
