"""How vague words of date are read, as the dating settings of the job have it."""

from dataclasses import replace
from decimal import Decimal

from appraise.dating.settings import Settings, Width
from appraise.model.missing import value_or
from appraise.report.compose.context import Context
from appraise.report.view_parts import Row, Table
from appraise.wording.numbers import month_name

#: The year and the decade that stand for any other in the table.
_YEAR, _DECADE = 1959, 1950


def circa_years(context: Context) -> Decimal:
    """Return how many years either side `circa` means in this job."""
    return value_or(context.job.assignment.circa_years, Decimal(Settings(examined=0).circa_years))


def conventions(context: Context) -> Table:
    """Return one row for each kind of vague word, with its months at the widest and at the narrowest."""
    text = context.text
    settings = replace(Settings(examined=0), circa_years=int(circa_years(context)))
    same = text("method.word.same")
    within_year = (settings.early_year, settings.mid_year, settings.late_year)
    within_decade = (settings.early_decade, settings.mid_decade, settings.late_decade)
    seasons = (settings.spring, settings.summer, settings.autumn)
    whole_year = Width((1, 12), (1, 12))
    whole_decade = Width((0, 9), (0, 9))
    rows = (
        Row((text("method.word.year", year=str(_YEAR)), _months(context, (whole_year,))[0], same)),
        Row((text("method.word.parts_of_year", year=str(_YEAR)), *_months(context, within_year))),
        Row((text("method.word.season", year=str(_YEAR)), *_months(context, seasons))),
        Row((text("method.word.decade", decade=str(_DECADE)), _years(context, (whole_decade,))[0], same)),
        Row((text("method.word.parts_of_decade", decade=str(_DECADE)), *_years(context, within_decade))),
        Row((text("method.word.until"), text("method.word.until_wide"), text("method.word.until_core"))),
        Row(
            (
                text("method.word.circa", year=str(_YEAR)),
                text(
                    "method.word.circa_wide",
                    first=str(_YEAR - settings.circa_years),
                    last=str(_YEAR + settings.circa_years),
                    years=str(settings.circa_years),
                ),
                text("method.word.circa_core", year=str(_YEAR)),
            )
        ),
        Row((text("method.word.from_to"), text("method.word.from_to_wide"), text("method.word.from_to_core"))),
    )
    heads = (text("head.wording"), text("head.widest"), text("head.narrowest"))
    return Table(text("caption.conventions"), heads, rows)


def _months(context: Context, widths: tuple[Width, ...]) -> tuple[str, str]:
    def span(ends: tuple[int, int]) -> str:
        first, last = (month_name(one, context.printer.lang) for one in ends)
        return context.text("window.between", first=first, last=last)

    return "; ".join(span(one.outer) for one in widths), "; ".join(span(one.core) for one in widths)


def _years(context: Context, widths: tuple[Width, ...]) -> tuple[str, str]:
    def span(ends: tuple[int, int]) -> str:
        return context.text("window.between", first=str(_DECADE + ends[0]), last=str(_DECADE + ends[1]))

    return "; ".join(span(one.outer) for one in widths), "; ".join(span(one.core) for one in widths)
