"""Catalogue, code and documentation say the same codes; every entry is whole."""

import ast
import re
import string
from pathlib import Path

import pytest

from appraise.checks.registry import all_checks
from appraise.findings.documentation import catalogue_page, topics
from appraise.findings.entries import Entry, catalogue

ROOT = Path(__file__).parents[2]
CODE = re.compile(r"[A-Z]{3}-\d{2}")


def codes_in_the_code() -> set[str]:
    """Every string of the program that is a code: `finding("ITM-02", ...)`, `work.refuse("basis", "CMP-21", ...)`."""
    found: set[str] = set()
    for file in sorted((ROOT / "appraise").rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and CODE.fullmatch(node.value):
                found.add(node.value)
    return found


def test_every_code_raised_is_in_the_catalogue() -> None:
    assert codes_in_the_code() - set(catalogue()) == set()


def test_every_code_of_the_catalogue_is_raised_somewhere() -> None:
    assert set(catalogue()) - codes_in_the_code() == set()


def test_a_topic_has_its_own_prefixes() -> None:
    owners: dict[str, set[str]] = {}
    for topic, codes in topics().items():
        for code in codes:
            owners.setdefault(code[:3], set()).add(topic)
    assert {prefix: found for prefix, found in owners.items() if len(found) > 1} == {}


def test_each_check_raises_its_own_code_and_no_other() -> None:
    raised: dict[str, set[str]] = {}
    for file in sorted((ROOT / "appraise" / "checks").glob("*.py")):
        for node in ast.parse(file.read_text("utf-8")).body:
            if isinstance(node, ast.FunctionDef):
                codes = {
                    call.args[0].value
                    for call in ast.walk(node)
                    if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "finding"
                    for _ in (0,)
                    if isinstance(call.args[0], ast.Constant)
                }
                declared = [
                    decorator.args[0].value
                    for decorator in node.decorator_list
                    if isinstance(decorator, ast.Call) and isinstance(decorator.args[0], ast.Constant)
                ]
                if declared:
                    raised[str(declared[0])] = {str(code) for code in codes}
    assert raised == {one.code: {one.code} for one in all_checks()}


@pytest.mark.parametrize("entry", catalogue().values(), ids=lambda entry: entry.code)
def test_an_entry_is_whole(entry: Entry) -> None:
    for text in (entry.message, entry.action, entry.why):
        assert text.strip() == text
        assert text
    assert entry.message[-1] in ".?)}'"
    assert entry.action.endswith((".", ")", "'", "}", "?"))
    assert entry.rule
    for sentence in (entry.message, entry.action):
        for _text, name, spec, conversion in string.Formatter().parse(sentence):
            assert not spec
            assert not conversion
            assert name is None or name.isidentifier()


def test_the_documentation_is_current() -> None:
    page = (ROOT / "docs" / "findings.md").read_text("utf-8")
    assert page == catalogue_page(), "docs/findings.md is old: see appraise/findings/documentation.py"


def test_the_documentation_names_every_code_once() -> None:
    headings = re.findall(r"^### (\S+)$", catalogue_page(), re.MULTILINE)
    assert sorted(headings) == sorted(catalogue())
    assert len(headings) == len(set(headings))
