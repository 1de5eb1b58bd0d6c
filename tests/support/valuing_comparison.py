"""Runs the cases of the sales comparison and of the retail replacement value."""

from collections.abc import Mapping

from support.valuing import Aliases, Part, case_method, figure_text, job_of, months_of, texts_of

from appraise.model.figure import Figure
from appraise.model.finding import Finding
from appraise.model.ledger import RecordingLedger
from appraise.valuing import value_item
from appraise.valuing.comparing import Compared, compare
from appraise.valuing.inputs import Inputs
from appraise.valuing.result import Valuation
from appraise.valuing.steps.findings import SHORT_NAMES
from appraise.valuing.tables import build_tables


def inputs_of(part: Part) -> Inputs:
    """Return the inputs of the one opinion that a part of a case asks for."""
    job = part.job
    tables, _ = build_tables(job)
    item = job.items[0]
    return Inputs(
        tables=tables,
        item=item,
        terms=job.value_terms[0],
        parts=job.parts,
        comparisons=job.comparisons,
        sales={str(sale.id): sale for sale in job.sales},
        opinion=next(iter(job.opinions), None),
        window=part.windows.get(str(item.id)),
        sale_windows=part.windows,
    )


def valuation_of(part: Part, ledger: RecordingLedger) -> Valuation:
    """Return the opinion of a part of a case."""
    inputs = inputs_of(part)
    return value_item(
        inputs.tables,
        inputs.item,
        inputs.parts,
        inputs.comparisons,
        inputs.sales,
        inputs.opinion,
        inputs.terms,
        inputs.window,
        ledger,
        sale_windows=inputs.sale_windows,
    )


def short_names(findings: tuple[Finding, ...]) -> str:
    """Return the short names of the findings of rule R22, or `none`."""
    return ", ".join(SHORT_NAMES[one.code] for one in findings if one.code in SHORT_NAMES) or "none"


def compared_texts(part: Part) -> tuple[Compared, dict[str, str]]:
    """Return the comparisons of a part and its figures as text; `usd` is the price in report currency."""
    ledger = RecordingLedger(part.scope)
    compared = compare(inputs_of(part), ledger)
    return compared, texts_of(ledger)


@case_method("price basis")
def price_basis(part: Part) -> Mapping[str, str]:
    """Every record as far as its price in report currency."""
    compared, texts = compared_texts(part)
    for result in compared.lines:
        own = f"{part.scope}.{result.line}"
        texts[f"{own}.paid"] = texts[f"{own}.sold_equivalent"] = texts.get(f"{own}.basis", "")
        texts[f"{own}.usd"] = texts.get(f"{own}.converted", texts.get(f"{own}.basis", ""))
        texts[f"{own}.findings"] = short_names(result.findings)
    return texts


@case_method("time")
def time(part: Part) -> Mapping[str, str]:
    """Every record as far as the time step."""
    _, texts = compared_texts(part)
    return Aliases({"time_factor": "factor", "time": "usd"}).added(texts)


@case_method("sales comparison")
def sales_comparison(part: Part) -> Mapping[str, str]:
    """The opinion of the one item, with the findings of each line and of the conclusion."""
    ledger = RecordingLedger(part.scope)
    valuation = valuation_of(part, ledger)
    texts = texts_of(ledger)
    for result in valuation.comparisons:
        texts[f"{part.scope}.{result.comparison.id}.findings"] = short_names(result.findings)
    of_lines = {one for result in valuation.comparisons for one in result.findings}
    texts[f"{part.scope}.findings"] = short_names(tuple(one for one in valuation.findings if one not in of_lines))
    return texts


@case_method("retail replacement value")
def retail_replacement_value(part: Part) -> Mapping[str, str]:
    """The opinion of the one item with its costs; `usd` is the price in report currency."""
    texts = dict(sales_comparison(part))
    for comparison in part.job.comparisons:
        own = f"{part.scope}.{comparison.id}"
        texts[f"{own}.usd"] = texts.get(f"{own}.converted", texts.get(f"{own}.basis", ""))
    return texts


def figure(valuation: Valuation, name: str) -> Figure:
    """Return a figure of an opinion by name; a missing one fails the test."""
    found = valuation.figures[name]
    assert isinstance(found, Figure), found
    return found


def drawn(sheets: Mapping[str, str], windows: Mapping[str, str] | None = None, scope: str = "G01.fmv") -> Part:
    """Return a part from sheets drawn as text under their fields of `Job`."""
    months = {key: months_of(text) for key, text in (windows or {}).items()}
    return Part(scope, "sales comparison", job_of(sheets), months, {})


def opinion_of(
    sheets: Mapping[str, str], windows: Mapping[str, str] | None = None
) -> tuple[Valuation, RecordingLedger]:
    """Return the opinion of the one item that is drawn, with its recording ledger."""
    part = drawn(sheets, windows)
    ledger = RecordingLedger(part.scope)
    return valuation_of(part, ledger), ledger


#: A small job: three plain sales in report currency, no index, no scale. Tests replace single sheets.
PLAIN = {
    "assignment": """
        currency            | USD
        effective_date      | 2024-11-15
        combine_deductions  | multiply
        combine_adjustments | multiply
    """,
    "value_terms": """
        value_type        | market  | price_basis | premium_tax  | conclusion
        fair market value | auction | all-in      | in the price | weighted mean
    """,
    "items": """
        id  | maker     | model
        G01 | Skarvholm | Consul 17
    """,
    "sales": """
        id | kind        | currency | price    | day        | maker     | model
        s1 | all-in      | USD      | 10000.00 | 2024-03-01 | Skarvholm | Consul 17
        s2 | dealer sold | USD      | 12000.00 | 2024-05-01 | Skarvholm | Consul 17
        s3 | all-in      | USD      | 11000.00 | 2024-06-01 | Skarvholm | Consul 17
    """,
    "comparisons": """
        id | item | value_type        | sale | weight
        c1 | G01  | fair market value | s1   | 1
        c2 | G01  | fair market value | s2   | 1
        c3 | G01  | fair market value | s3   | 1
    """,
}


def codes(findings: tuple[Finding, ...]) -> list[str]:
    """Return the codes of findings, in order."""
    return [one.code for one in findings]


def figures_text(valuation: Valuation) -> dict[str, str]:
    """Return the figures of an opinion as text by name; no figure is `none`."""
    return {
        name: figure_text(outcome) if isinstance(outcome, Figure) else "none"
        for name, outcome in valuation.figures.items()
    }
