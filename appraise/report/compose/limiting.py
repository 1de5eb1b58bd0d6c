"""Limiting conditions: each stands because of something in the assignment, in the order of the trade's topics."""

from collections.abc import Callable, Iterator

from appraise.model.missing import given
from appraise.records.items import Item
from appraise.records.vocabulary import AssumptionKind, Use
from appraise.report.compose.context import Context, is_word
from appraise.report.view import Clause, ClausesView

Applies = Callable[[Context], bool]


def _always(context: Context) -> bool:
    return True


def _uses(*wanted: Use) -> Applies:
    return lambda context: context.use in wanted


def _assumed(kind: AssumptionKind) -> Applies:
    return lambda context: any(one.kind is kind for one in context.job.assumptions)


def _reported(context: Context) -> Iterator[Item]:
    """Yield the items that have a section; one removed from a yearly schedule has none."""
    return (one for one in context.job.items if one.id in context.by_id)


def _mains(context: Context) -> bool:
    return any(one.mains_powered is True for one in _reported(context))


def _materials(context: Context) -> bool:
    return any(not is_word(one.restricted_materials, "none") for one in _reported(context))


def _several_currencies(context: Context) -> bool:
    return any(given(one.currency) and one.currency != context.printer.currency for one in context.job.sales)


def _sets(context: Context) -> bool:
    return any(given(one.set_id) for one in _reported(context))


def _left_out(context: Context) -> bool:
    return bool(_left_out_ids(context))


def _left_out_ids(context: Context) -> list[str]:
    return [str(one.item) for one in context.job.opinions if given(one.not_valued)]


def _retrospective(context: Context) -> bool:
    a = context.job.assignment
    return given(a.effective_date) and given(a.report_date) and a.effective_date < a.report_date


def _photographs(context: Context) -> bool:
    return any(given(photo.file) for photo in context.job.photos)


def _counsel(context: Context) -> bool:
    told = context.job.counsel_figures
    return given(told.other_at_death) or given(told.other_alternate)


#: Clause and when it stands, in printed order.
CONDITIONS: tuple[tuple[str, Applies], ...] = (
    ("use", _always),
    ("date", _always),
    ("retrospective", _retrospective),
    ("title", _always),
    ("supplied-facts", _always),
    ("inspection", _always),
    ("no-dismantling", _always),
    ("no-tests", _always),
    ("attribution", _always),
    ("window", _always),
    ("condition", _always),
    ("electrical", _mains),
    ("materials", _materials),
    ("theft", _always),
    ("market-data", _always),
    ("market-change", _always),
    ("replacement-time", _uses(Use.INSURANCE, Use.CLAIM, Use.YEARLY)),
    ("currency", _several_currencies),
    ("price-basis", _always),
    ("whole", _always),
    ("sets", _sets),
    ("photographs", _photographs),
    ("update", _always),
    ("testimony", _always),
    ("no-offer", _always),
    ("confidentiality", _always),
    ("copying", _always),
    ("extraordinary", _assumed(AssumptionKind.EXTRAORDINARY)),
    ("hypothetical", _assumed(AssumptionKind.HYPOTHETICAL)),
    ("excluded", _left_out),
    ("original", _always),
    ("liability", _always),
    ("provenance", _always),
    ("policy", _uses(Use.INSURANCE, Use.CLAIM, Use.YEARLY)),
    ("damage", _uses(Use.CLAIM)),
    ("division", _uses(Use.DIVISION)),
    ("sale", _uses(Use.SALE)),
    ("court", _uses(Use.EXPERT)),
    ("counsel", _counsel),
    ("parties", _uses(Use.GIFT, Use.DONATION)),
    ("tax", _uses(Use.ESTATE, Use.GIFT, Use.DONATION)),
    ("advice", _always),
    ("local", _always),
)


def limiting(context: Context) -> ClausesView:
    """Return the limiting conditions of this assignment, numbered."""
    clauses = tuple(
        Clause(
            context.text(f"limiting-title.{name}"),
            (
                context.text(
                    f"limiting.{name}",
                    day=context.effective_day,
                    currency=context.printer.currency,
                    items=context.numbers_of(_left_out_ids(context)),
                ),
            ),
            number=str(number),
        )
        for number, name in enumerate(_standing(context), start=1)
    )
    return ClausesView(context.text("section.limiting"), context.text("limiting.intro"), clauses)


def _standing(context: Context) -> Iterator[str]:
    return (name for name, applies in CONDITIONS if applies(context))
