"""Runs all checks."""

from appraise.checks.context import CheckContext
from appraise.checks.registry import all_checks
from appraise.findings.order import in_order
from appraise.model.finding import Finding


def run_checks(context: CheckContext) -> list[Finding]:
    """Return what every check that is for the use finds, each finding once, sorted by place."""
    found: dict[Finding, None] = {}
    for one in all_checks():
        if one.applies(context):
            found.update(dict.fromkeys(one.run(context)))
    return in_order(found)
