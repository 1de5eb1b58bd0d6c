"""Assignment, definitions of value, assumptions, market notes."""

from datetime import date

from appraise.model.missing import Missing, given, value_or
from appraise.records.assignment import Assumption, ValueTerms
from appraise.records.tables import Clause as ClauseRecord
from appraise.records.vocabulary import AssumptionKind, PremiumTax, PriceBasis
from appraise.report.compose.context import BY_OTHER_METHODS, Context, capital, closed, ids_in, is_word
from appraise.report.view import AssignmentView, AssumptionsView, Clause, MarketNoteView, MarketView, ValueMeaning
from appraise.report.view_parts import Line, Row, Table
from appraise.rules.cited import NO_EDITION, Citation
from appraise.rules.thresholds import threshold
from appraise.rules.uses import use_rules
from appraise.rules.value_types import Definition, definition_for
from appraise.schedule.retention import keep_until

#: A day on which rules are looked up where no effective date was typed; a finding says that it is missing.
_NO_DAY = date.max


def assignment(context: Context) -> AssignmentView:
    """Return the terms of the assignment and what each type of value means."""
    a, printer, text = context.job.assignment, context.printer, context.text
    typed: list[tuple[str, object]] = [
        ("client", a.client),
        ("intended_users", a.intended_users),
        ("intended_use", a.intended_use),
        ("owner", a.owner),
        ("interest", a.interest),
        ("effective", a.effective_date),
        ("report_date", a.report_date),
        ("jurisdiction", printer.territory(a.jurisdiction)),
        ("currency", a.currency),
        ("option", a.report_option),
    ]
    optional: list[tuple[str, object]] = [
        ("engaged", a.engaged_on),
        ("death", a.death_date),
        ("gift", a.gift_date),
        ("loss", a.loss_date),
        ("return_due", a.return_due),
        ("replaces", a.replaces_issue),
    ]
    lines = [Line(text(f"label.{key}"), printer.shown(value)) for key, value in typed]
    lines += [Line(text(f"label.{key}"), printer.shown(value)) for key, value in optional if given(value)]
    kept = _kept_until(context)
    if kept:
        lines.append(Line(text("label.kept_until"), kept))
    inspected = sorted({one.item.inspected_on for one in context.summaries if given(one.item.inspected_on)})
    if inspected:
        days = printer.joined(printer.shown(day) for day in inspected)
        lines.append(Line(text("label.inspections"), days))
    return AssignmentView(
        heading=text("section.assignment"),
        intro=text("assignment.intro"),
        lines=tuple(lines),
        values_heading=text("part.values_defined"),
        value_meanings=tuple(_meaning(context, one) for one in context.job.value_terms if given(one.value_type)),
        caution=_caution(context),
    )


def _kept_until(context: Context) -> str:
    """Return until when the file is kept, or that no day can be named; empty without the day of the report."""
    a, case = context.job.assignment, context.job.court_case
    prepared = a.signed_on if given(a.signed_on) else a.report_date
    if not given(prepared):
        return ""
    ended = value_or(case.ended_on, None)
    pending = case.testimony_expected is True and ended is None
    years = (threshold(name, prepared).figure for name in ("retention-years", "retention-years-after-testimony"))
    after_preparation, after_testimony = map(int, years)
    day = keep_until(
        prepared,
        years=after_preparation,
        disposed=ended if case.testimony_expected is True else None,
        years_after_testimony=after_testimony,
        pending=pending,
    )
    return context.text("assignment.held") if day is None else context.printer.shown(day)


def _caution(context: Context) -> tuple[str, ...]:
    """Return the use's own caution and whose rules the report draws on."""
    rules = use_rules(context.use)
    here = value_or(context.job.assignment.jurisdiction, "")
    country = here.split("-")[0].strip().upper()
    shown = context.printer.territory(context.job.assignment.jurisdiction)
    if not rules.covered:
        local = context.text("assignment.local_none", jurisdiction=shown)
    elif country in rules.covered:
        local = context.text("limiting.local")
    else:
        covered = context.printer.joined(map(context.printer.territory, rules.covered))
        local = context.text("assignment.local", covered=covered, jurisdiction=shown)
    caution = context.words.rule(f"caution.{rules.use}", rules.caution)
    return (caution, local, context.text("assignment.languages")) if context.words.translated else (caution, local)


def citation_text(context: Context, citation: Citation) -> str:
    """Return where a rule stands, its edition, and how it came to us."""
    fields = {"source": citation.source, "edition": citation.edition, "seen": context.words.word(citation.seen)}
    if citation.edition == NO_EDITION:
        return context.text("assignment.source_plain", source=citation.source, seen=fields["seen"])
    if citation.valid_from is None:
        return context.text("assignment.source", **fields)
    return context.text("assignment.source_from", day=context.printer.shown(citation.valid_from), **fields)


def _meaning(context: Context, terms: ValueTerms) -> ValueMeaning:
    assert given(terms.value_type)
    text, printer = context.text, context.printer
    a = context.job.assignment
    definition = definition_for(
        terms.value_type, context.use, value_or(a.jurisdiction, ""), value_or(a.effective_date, _NO_DAY)
    )
    name = context.words.word(terms.value_type)
    lines = [
        Line(text("label.market"), printer.shown(terms.market)),
        Line(text("label.market_reason"), printer.shown(terms.market_reason)),
        Line(text("label.price_basis"), basis_words(context, terms.price_basis)),
        Line(text("label.premium_tax"), tax_words(context, terms.premium_tax)),
        Line(text("label.exposure"), printer.shown(terms.exposure_time)),
    ]
    if terms.value_type not in BY_OTHER_METHODS:
        lines.append(Line(text("label.conclusion"), printer.shown(terms.conclusion)))
    if definition:
        treatment = context.words.rule(f"{definition.slot}.treatment", definition.treatment)
        lines.insert(0, Line(text("label.treatment"), treatment))
    quotation, quotation_source = _official(context, definition)
    return ValueMeaning(
        heading=capital(name),
        statement=_statement(context, definition) if definition else text("assignment.no_definition"),
        source=_source(context, definition) if definition else "",
        quotation=quotation,
        quotation_source=quotation_source,
        lines=tuple(lines),
        approaches=_approaches(context, terms, name),
    )


def _statement(context: Context, definition: Definition) -> str:
    return context.words.rule(f"{definition.slot}.statement", definition.statement)


def _source(context: Context, definition: Definition) -> str:
    """Return where a definition stands; a translation of it is called one."""
    source = citation_text(context, definition.citation)
    translated = _statement(context, definition) != definition.statement
    return f"{source} {context.text('assignment.translated')}" if translated else source


def _approaches(context: Context, terms: ValueTerms, name: str) -> Table:
    text = context.text
    rows = (
        Row((text("assignment.sales_comparison"), context.printer.shown(terms.sales_comparison))),
        Row((text("assignment.cost_approach"), context.printer.shown(terms.cost_approach))),
        Row((text("assignment.income_approach"), context.printer.shown(terms.income_approach))),
    )
    return Table(text("caption.approaches", value_type=name), (text("head.approach"), text("head.use_made")), rows)


def basis_words(context: Context, basis: PriceBasis | Missing) -> str:
    """Return the price basis of auction prices in words."""
    if not given(basis):
        return context.printer.shown(basis)
    return context.text("assignment.basis_all_in" if basis is PriceBasis.ALL_IN else "assignment.basis_hammer")


def tax_words(context: Context, tax: PremiumTax | Missing) -> str:
    """Return how tax on the premium is treated."""
    return context.printer.shown(tax)


def official_clause(context: Context, key: str) -> ClauseRecord | None:
    """Return the clause that holds an official wording for a slot, None if the slot is empty."""
    return next((one for one in context.job.clauses if one.key == key and given(one.official)), None)


def quotation_source(context: Context, clause: ClauseRecord) -> str:
    """Return where an official wording stands, who compared it and when."""
    shown = context.printer.shown
    return context.text(
        "assignment.quotation_source",
        citation=shown(clause.citation),
        edition=shown(clause.edition),
        day=shown(clause.checked_on),
        initials=shown(clause.checked_by),
    )


def _official(context: Context, definition: Definition | None) -> tuple[str, str]:
    clause = official_clause(context, definition.slot) if definition else None
    return (str(clause.official), quotation_source(context, clause)) if clause else ("", "")


def assumptions(context: Context) -> AssumptionsView:
    """Return extraordinary assumptions and hypothetical conditions, apart, each with its effect."""
    text = context.text
    extraordinary = _assumption_table(context, AssumptionKind.EXTRAORDINARY, text("caption.extraordinary"))
    hypothetical = _assumption_table(context, AssumptionKind.HYPOTHETICAL, text("caption.hypothetical"))
    return AssumptionsView(
        heading=text("section.assumptions"),
        intro=text("assumptions.intro"),
        extraordinary=Clause(
            text("part.extraordinary"), () if extraordinary else (text("assumptions.extraordinary_none"),)
        ),
        extraordinary_table=extraordinary,
        hypothetical=Clause(
            text("part.hypothetical"), () if hypothetical else (text("assumptions.hypothetical_none"),)
        ),
        hypothetical_table=hypothetical,
    )


def _assumption_table(context: Context, kind: AssumptionKind, caption: str) -> Table | None:
    text, printer = context.text, context.printer
    rows = tuple(
        Row((printer.shown(one.id), _applies_to(context, one), printer.shown(one.text), printer.shown(one.effect)))
        for one in context.job.assumptions
        if one.kind is kind
    )
    heads = (text("head.id"), text("head.applies_to"), text("head.assumption"), text("head.effect"))
    return Table(caption, heads, rows) if rows else None


def _applies_to(context: Context, assumption: Assumption) -> str:
    if is_word(assumption.items, "all"):
        return context.text("assignment.all_items")
    return context.numbers_of(ids_in(assumption.items)) or context.printer.shown(assumption.items)


def market(context: Context) -> MarketView:
    """Return the market notes, family by family."""
    text, printer = context.text, context.printer
    notes = tuple(
        MarketNoteView(
            capital(printer.shown(one.family)),
            tuple(
                Line(text(f"market.{key}"), closed(printer.shown(value)))
                for key, value in (
                    ("where", one.market),
                    ("supply", one.supply),
                    ("demand", one.demand),
                    ("trend", one.trend),
                )
            ),
        )
        for one in context.job.market_notes
    )
    return MarketView(text("section.market"), text("market.intro") if notes else text("market.none"), notes)
