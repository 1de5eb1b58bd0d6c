"""Checks are found by themselves; a code belongs to one check; a rule is a sentence."""

from collections.abc import Iterator

import pytest

from appraise.checks.context import CheckContext
from appraise.checks.registry import all_checks, check
from appraise.findings.entries import catalogue
from appraise.model.finding import Finding


def test_every_check_has_its_rule_its_entry_and_its_place_in_the_order() -> None:
    checks = all_checks()
    assert len(checks) > 150
    assert [one.code for one in checks] == sorted({one.code for one in checks})
    assert len({one.rule for one in checks}) == len(checks)
    for one in checks:
        assert one.rule[0].isupper() or one.rule[0] == "'"
        assert one.code in catalogue()


def test_a_code_of_another_check_is_refused() -> None:
    def again(context: CheckContext) -> Iterator[Finding]:
        """A second check of one code."""
        yield from ()

    with pytest.raises(ValueError, match="ASG-02 belongs to two checks"):
        check("ASG-02")(again)


def test_a_check_without_a_rule_is_refused() -> None:
    def bare(context: CheckContext) -> Iterator[Finding]:
        yield from ()

    with pytest.raises(ValueError, match="not the rule as a sentence"):
        check("ZZZ-99")(bare)
    assert "ZZZ-99" not in {one.code for one in all_checks()}


def test_every_module_of_the_package_is_imported() -> None:
    modules = {one.run.__module__.rpartition(".")[2] for one in all_checks()}
    assert {"assignment", "people", "items", "originality", "photos", "sales", "comparability"} <= modules
    assert {"opinions", "assumptions", "dates", "insurance", "schedule"} <= modules
