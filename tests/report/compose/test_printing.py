"""How figures and typed values are printed, and that every printed figure is remembered."""

from datetime import date
from decimal import Decimal

from appraise.model.figure import Figure, NoFigure
from appraise.model.kinds import DAY, FACTOR, PERCENT, SHOWN_PERCENT, TEXT, TYPED, money
from appraise.model.missing import BLANK, NOT_INSPECTED, UNKNOWN, UNREADABLE
from appraise.records.vocabulary import PartState
from appraise.report.compose.printing import Form, PrintedFigures, Printer
from appraise.wording.numbers import language
from appraise.wording.texts import texts

NBSP = "\N{NO-BREAK SPACE}"


def printer(code="en"):
    return Printer(language(code), texts(code), "USD", PrintedFigures())


def test_each_kind_of_figure_has_its_decimals():
    one = printer()
    assert one.printed(Figure("a", money("USD"), Decimal("26220.00"), "sum")) == "26,220.00"
    assert one.printed(Figure("b", FACTOR, Decimal("0.998089"), "quotient")) == "0.998089"
    assert one.printed(Figure("c", PERCENT, Decimal("9.09"), "percent above"), Form.SIGNED) == "+9.09%"
    assert one.printed(Figure("d", SHOWN_PERCENT, Decimal("19.1"), "spread")) == "19.1%"
    assert one.printed(Figure("e", DAY, date(2024, 9, 13), "noted")) == "Sep 13, 2024"
    assert one.printed(Figure("f", TEXT, "tie", "noted")) == "tie"


def test_originality_out_of_a_hundred_has_no_percent_sign():
    assert printer().printed(Figure("a", PERCENT, Decimal("91.20"), "product"), Form.NUMBER) == "91.20"


def test_a_typed_percent_gets_its_sign_from_the_form():
    assert printer().printed(Figure("a", TYPED, Decimal("-15"), "typed"), Form.SIGNED_PERCENT) == "−15%"


def test_money_with_currency_and_whole_opinions():
    figure = Figure("a", money("USD"), Decimal("22100.00"), "by scale")
    one = printer()
    assert one.printed(figure, Form.MONEY) == f"USD{NBSP}22,100.00"
    assert one.printed(figure, Form.WHOLE) == f"USD{NBSP}22,100"
    assert one.printed(figure, Form.WHOLE_PLAIN) == "22,100"


def test_a_figure_in_another_currency_keeps_its_minor_unit():
    assert printer().printed(Figure("a", money("JPY"), Decimal("1250000"), "typed")) == "1,250,000"


def test_every_printed_figure_is_noted_once_with_each_text():
    one = printer()
    figure = Figure("G01.fmv.mean", money("USD"), Decimal("22128.58"), "weighted mean")
    for form in (Form.PLAIN, Form.MONEY, Form.PLAIN):
        one.printed(figure, form)
    assert one.figures.texts == {"G01.fmv.mean": ["22,128.58", f"USD{NBSP}22,128.58"]}


def test_no_figure_is_not_concluded_and_not_noted():
    one = printer()
    assert one.printed(NoFigure(())) == "not concluded"
    assert one.figures.texts == {}


def test_the_ways_of_having_no_value_are_told_apart():
    one = printer()
    shown = [one.shown(value) for value in (BLANK, UNKNOWN, NOT_INSPECTED, UNREADABLE)]
    assert shown == ["not stated", "unknown", "not inspected", "not readable in the workbook"]
    assert one.cell(BLANK) == ""
    assert one.cell(UNKNOWN) == "unknown"


def test_typed_values():
    one = printer()
    assert one.shown(PartState.PERIOD_REPLACEMENT) == "period replacement"
    assert one.shown(True) == "yes"
    assert one.shown(date(2025, 2, 10)) == "February 10, 2025"
    assert one.percent(Decimal("-2.5"), signed=True) == "−2.5%"
    assert one.amount(BLANK) == ""
    assert one.money(Decimal("180")) == f"USD{NBSP}180.00"
