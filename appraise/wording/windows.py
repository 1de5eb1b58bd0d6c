"""Windows of manufacture in words."""

from appraise.model.months import Months, Run
from appraise.wording.numbers import Language, list_text, month_text
from appraise.wording.texts import Texts


def window_text(months: Months, words: Texts, lang: Language) -> str:
    """Return a set of months in words, run by run.

    Whole calendar years are written as years (`1937 to 1938`), anything else by month; an open end is `not before`
    or `not after`; the empty set and the set of all months have words of their own.
    """
    if not months:
        return words.text("window.none")
    return list_text([run_text(run, words, lang) for run in months.runs], lang, either=True)


def run_text(run: Run, words: Texts, lang: Language) -> str:
    """Return one run of months in words."""
    if run.first is None and run.last is None:
        return words.text("window.open")
    starts_year = run.first is None or run.first % 12 == 0
    ends_year = run.last is None or run.last % 12 == 11
    in_years = starts_year and ends_year

    def named(month: int) -> str:
        return str(month // 12) if in_years else month_text(month, lang)

    if run.first is None:
        assert run.last is not None
        return words.text("window.not_after", last=named(run.last))
    if run.last is None:
        return words.text("window.not_before", first=named(run.first))
    if named(run.first) == named(run.last):
        return named(run.first)
    return words.text("window.between", first=named(run.first), last=named(run.last))
