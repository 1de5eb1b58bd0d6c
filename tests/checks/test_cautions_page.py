"""docs/cautions.md lists every check that looks for English words in what a person wrote."""

import ast
from collections.abc import Iterator, Set
from pathlib import Path

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "cautions.md").read_text("utf-8")
#: Functions of `checks/text.py` that look for words.
READERS = {"mentions", "affirms"}


def called(function: ast.FunctionDef) -> Set[str]:
    return {
        node.func.id for node in ast.walk(function) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }


def reads_words(name: str, functions: dict[str, ast.FunctionDef], seen: frozenset[str] = frozenset()) -> bool:
    """Say whether a function looks for words, by itself or through functions of its own module."""
    if name in READERS:
        return True
    if name not in functions or name in seen:
        return False
    return any(reads_words(one, functions, seen | {name}) for one in called(functions[name]))


def checks_that_read_words() -> Iterator[tuple[str, str]]:
    """Yield code and rule of each such check."""
    for path in sorted((ROOT / "appraise" / "checks").glob("*.py")):
        module = ast.parse(path.read_text("utf-8"))
        functions = {one.name: one for one in module.body if isinstance(one, ast.FunctionDef)}
        for name, function in functions.items():
            for mark in function.decorator_list:
                if isinstance(mark, ast.Call) and isinstance(mark.func, ast.Name) and mark.func.id == "check":
                    code = mark.args[0]
                    assert isinstance(code, ast.Constant)
                    if reads_words(name, functions):
                        yield str(code.value), (ast.get_docstring(function) or "").splitlines()[0]


def test_every_check_that_reads_english_words_is_listed_with_its_rule() -> None:
    table = PAGE.split("| code | the check |\n|---|---|\n", 1)[1].split("\n\n", 1)[0]
    listed = [tuple(cell.strip(" `") for cell in line.strip("|").split("|")) for line in table.splitlines()]
    assert listed == sorted(checks_that_read_words())
    assert len(listed) > 20
