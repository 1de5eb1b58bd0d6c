"""The certification: each statement is there because of something entered, and says what was entered."""

from collections.abc import Iterator

from appraise.model.missing import given
from appraise.records.assignment import Person
from appraise.records.vocabulary import FeeBasis, PersonRole, Use
from appraise.report.compose.assignment import official_clause, quotation_source
from appraise.report.compose.context import Context, ids_in, is_word
from appraise.report.compose.front import signatures, signers
from appraise.report.compose.yearly.sentences import certified, not_seen_anew
from appraise.report.view import CertificationView
from appraise.report.view_parts import Row, Table

_FEE = {
    FeeBasis.HOUR: "hour",
    FeeBasis.DAY: "day",
    FeeBasis.ITEM: "item",
    FeeBasis.FIXED: "fixed",
    FeeBasis.PERCENT: "percent",
    FeeBasis.OUTCOME: "outcome",
}
_TAX_USES = (Use.ESTATE, Use.GIFT, Use.DONATION)
#: Slot of the declaration a law prescribes; its wording is never ours.
_DECLARATION = "declaration.{use}"


def certification(context: Context) -> CertificationView:
    """Return the certification with lines for signing; it is unsigned by design."""
    text, a = context.text, context.job.assignment
    declaration = official_clause(context, _DECLARATION.format(use=context.use.value.replace(" ", "-")))
    signed = text("certification.signed_on", day=context.printer.shown(a.signed_on)) if given(a.signed_on) else ""
    return CertificationView(
        heading=text("section.certification"),
        intro=text("certification.intro_we" if len(signers(context)) > 1 else "certification.intro"),
        statements=tuple(_statements(context)),
        inspection=_inspection(context),
        declaration=str(declaration.official) if declaration else "",
        declaration_source=quotation_source(context, declaration) if declaration else "",
        unsigned_note=" ".join(one for one in (text("certification.unsigned"), signed) if one),
        signatures=signatures(context),
    )


def _statements(context: Context) -> Iterator[str]:
    text = context.text
    yield text("certification.facts")
    yield text("certification.opinions")
    signing = _signing(context)
    yield from (_interest(context, person) for person in signing)
    yield _services(context)
    if context.use is Use.YEARLY:
        yield from certified(context)
    yield text("certification.bias")
    yield text("certification.predetermined")
    yield _fee(context)
    yield text("certification.standards")
    yield from (_inspected(context, person) for person in context.job.people if given(person.name))
    helpers = [one for one in context.job.people if one.role is PersonRole.ASSISTANT or given(one.assistance)]
    for one in helpers:
        help_given = context.printer.shown(one.assistance)
        yield text("certification.assistance", name=context.printer.shown(one.name), text=_inside(help_given))
    if not helpers:
        yield text("certification.assistance_none")
    for person in signing:
        if given(person.categories):
            kinds = context.printer.joined(ids_in(person.categories))
            yield text(
                "certification.qualified",
                name=context.printer.shown(person.name),
                section=text("section.qualifications"),
                categories=kinds,
            )
    yield from _of_the_use(context, signing)
    yield text("certification.signed")


def _of_the_use(context: Context, signing: list[Person]) -> Iterator[str]:
    """Yield what only this use asks to be certified, each because of something entered."""
    text, use = context.text, context.use
    if use in _TAX_USES:
        yield text("certification.tax_use")
    for person in signing:
        name = context.printer.shown(person.name)
        if use in (Use.DONATION, Use.GIFT) and given(person.regular):
            yield text("certification.regular" if person.regular else "certification.not_regular", name=name)
        if use is Use.DONATION and given(person.barred):
            yield text("certification.barred" if person.barred else "certification.not_barred", name=name)
    if use is Use.ESTATE and context.job.assignment.under_oath is True:
        yield text("certification.oath", section=text("section.return_figures"))
    if use is Use.CLAIM:
        yield text("certification.claim")
    if use is Use.DIVISION:
        yield text("certification.division")
    if use is Use.EXPERT:
        yield text("certification.expert", section=text("section.expert"))
        pay = context.job.court_case.compensation
        if given(pay):
            yield text("certification.compensation", text=_inside(pay))


def _signing(context: Context) -> list[Person]:
    names = signers(context)
    return [one for one in context.job.people if one.name in names]


def _interest(context: Context, person: Person) -> str:
    name = context.printer.shown(person.name)
    if not given(person.interest):
        return context.text("certification.interest_blank", name=name)
    if is_word(person.interest, "none"):
        return context.text("certification.interest_none", name=name)
    return context.text("certification.interest", name=name, text=_inside(person.interest))


def _services(context: Context) -> str:
    services = context.job.assignment.prior_services
    if not given(services):
        return context.text("certification.services_blank")
    if is_word(services, "none"):
        return context.text("certification.services_none")
    return context.text("certification.services", text=_inside(services))


def _fee(context: Context) -> str:
    basis = context.job.assignment.fee_basis
    if not given(basis):
        return context.text("certification.fee_blank")
    words = context.text(f"certification.basis_{_FEE[basis]}")
    contingent = basis in (FeeBasis.PERCENT, FeeBasis.OUTCOME)
    return context.text("certification.fee_contingent" if contingent else "certification.fee", basis=words)


def _inspected(context: Context, person: Person) -> str:
    name = context.printer.shown(person.name)
    if not given(person.inspected):
        return context.text("certification.inspected_blank", name=name)
    if is_word(person.inspected, "none"):
        return context.text("certification.inspected_none", name=name)
    anew = _inspected_anew(context, person)
    if anew:
        return anew
    if is_word(person.inspected, "all"):
        not_seen = [str(one.item.id) for one in context.summaries if not given(one.item.inspected_on)]
        if not not_seen:
            return context.text("certification.inspected_all", name=name)
        return context.text("certification.inspected_but", name=name, items=context.numbers_of(not_seen))
    items = context.numbers_of(ids_in(person.inspected)) or person.inspected
    return context.text("certification.inspected", name=name, items=items)


def _inspected_anew(context: Context, person: Person) -> str:
    """Return what a person inspected for this report, where some of it was seen for an earlier one only; else empty."""
    everything = {str(one.item.id): one.item for one in context.summaries}
    listed = set(everything) if is_word(person.inspected, "all") else set(ids_in(person.inspected)) & set(everything)
    earlier = {one for one in listed & not_seen_anew(context) if given(everything[one].inspected_on)}
    if not earlier:
        return ""
    seen = {one for one in listed - earlier if given(everything[one].inspected_on)}
    key = "certification.inspected_anew" if seen else "certification.inspected_none_anew"
    return context.text(key, name=context.printer.shown(person.name), items=context.numbers_of(seen))


def _inspection(context: Context) -> Table:
    """Return who inspected which item on which day."""
    text, printer = context.text, context.printer
    rows = []
    for one in context.summaries:
        item = one.item
        if given(item.inspected_on):
            who = printer.joined(_inspectors(context, str(item.id))) or text("common.not_stated")
            seen = printer.day(item.inspected_on)
        else:
            who = text("item.not_inspected", reason=printer.shown(item.not_inspected_reason))
            seen = text("common.dash")
        rows.append(Row((context.number(item), context.named(item), who, seen)))
    heads = (text("head.number"), text("head.item"), text("head.person"), text("head.inspected_on"))
    return Table(text("caption.inspected"), heads, tuple(rows))


def _inspectors(context: Context, item_id: str) -> list[str]:
    return [
        str(one.name)
        for one in context.job.people
        if given(one.name) and (is_word(one.inspected, "all") or item_id in ids_in(one.inspected))
    ]


def _inside(sentence: str) -> str:
    """Return a typed sentence as it stands inside one of ours: without its full stop."""
    return sentence.strip().rstrip(".;")
