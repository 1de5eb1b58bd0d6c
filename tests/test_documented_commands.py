"""Every command the documents name exists with the options it is given; those of the README are run."""

import importlib.util
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from appraise.cli import appraise

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
PAGES = (README, ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").glob("**/*.md")))

#: A command of ours, of Python's modules, or of neither, somewhere in a line; with an environment before it or not.
_OURS = re.compile(r"(?:^|[\s\\/])appraise (?P<rest>(?:--)?[a-z].*)$")
_MODULE = re.compile(r"python3? -m (?P<name>[\w.]+)")


def lines_of_code(text: str) -> Iterator[tuple[str, bool]]:
    """Yield each line of a block of commands and each inline code, and whether it is inline."""
    blocks = re.compile(r"^```(?:sh|text)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
    for block in blocks.findall(text):
        yield from ((line, False) for line in block.splitlines())
    rest = blocks.sub("", text)
    yield from ((found.strip(), False) for found in re.findall(r"^ {4}\S.*$", rest, re.MULTILINE))
    yield from ((" ".join(found.split()), True) for found in re.findall(r"(?<!`)`([^`]+)`(?!`)", rest))


def commands(text: str) -> Iterator[tuple[list[str], bool]]:
    """Yield the words behind `appraise` of each command of a page, and whether it stands inline.

    A description behind a command is set off by two blanks; a command inside a sentence of an output ends it.
    """
    for line, inline in lines_of_code(text):
        for part in re.split(r"&&|;|\|", line):
            found = _OURS.search(re.split(r" {2,}", part.strip())[0])
            if found:
                yield shlex.split(found["rest"]), inline


DOCUMENTED = [
    pytest.param(words, inline, id=f"{page.relative_to(ROOT).as_posix()}: {' '.join(words)}")
    for page in PAGES
    for words, inline in commands(page.read_text("utf-8"))
]


def test_commands_are_found() -> None:
    """The search sees what a reader sees."""
    page = "See `appraise check A.xlsx --json`.\n\n```sh\nappraise report a.xlsx --pdf    also as PDF\n```\n"
    page += "\n    NO_COLOR=1 appraise workfile --verify b.zip\n\n"
    page += "Put `.venv/bin/appraise new c.xlsx` there. `appraise/cli.py`\n"
    assert [words for words, _inline in commands(page)] == [
        ["report", "a.xlsx", "--pdf"],
        ["workfile", "--verify", "b.zip"],
        ["check", "A.xlsx", "--json"],
        ["new", "c.xlsx"],
    ]
    assert len(DOCUMENTED) > 30


@pytest.mark.parametrize(("words", "inline"), DOCUMENTED)
def test_a_documented_command_is_understood(words: list[str], inline: bool) -> None:
    """A whole command is parsed; of one inside a sentence, which may leave out its workbook, the names must exist."""
    root = click.Context(appraise, info_name="appraise")
    if words[0].startswith("--"):
        known = {name for param in appraise.get_params(root) for name in param.opts}
        assert {word for word in words if word.startswith("--")} <= known
        return
    verb = appraise.get_command(root, words[0])
    assert verb is not None, f"there is no command {words[0]}"
    known = {name for param in verb.get_params(root) for name in param.opts}
    assert {word.split("=")[0] for word in words[1:] if word.startswith("-") and word != "-"} <= known
    if not inline:
        verb.make_context(words[0], [word for word in words[1:] if word != "…"], parent=root)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_documented_modules_exist(page: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(ROOT))
    names = {found["name"].rstrip(".") for found in _MODULE.finditer(page.read_text("utf-8"))} - {"venv"}
    assert [name for name in names if importlib.util.find_spec(name) is None] == []


def test_documented_help_is_there() -> None:
    for verb in appraise.list_commands(click.Context(appraise)):
        ran = subprocess.run(
            [sys.executable, "-m", "appraise", verb, "--help"], capture_output=True, text=True, check=True
        )
        examples = [line for line in ran.stdout.splitlines() if line.strip().startswith(("Example:", "appraise "))]
        assert examples, verb
        for line in examples:
            words = shlex.split(line.strip().removeprefix("Example:").strip())
            assert words[:2] == ["appraise", verb]
            appraise.get_command(click.Context(appraise), verb).make_context(verb, words[2:])  # type: ignore[union-attr]


RUN = [words for words, inline in commands(README.read_text("utf-8")) if not inline and "quenby.xlsx" in words]


@pytest.mark.parametrize(
    "words",
    [pytest.param(words, marks=pytest.mark.office if "--pdf" in words else ()) for words in RUN],
    ids=" ".join,
)
def test_the_commands_of_the_readme_run(tmp_path: Path, words: list[str]) -> None:
    """On the demonstration job, under the name the README gives it."""
    demo = ROOT / "workbooks_demo" / "estate"
    if words[0] != "new":
        shutil.copy(demo / "estate.xlsx", tmp_path / "quenby.xlsx")
        for folder in ("photos", "pages"):
            shutil.copytree(demo / folder, tmp_path / folder)
    ran = subprocess.run(
        [sys.executable, "-m", "appraise", *words], capture_output=True, text=True, cwd=tmp_path, check=False
    )
    assert (ran.returncode, ran.stderr) == (0, "")
    assert ran.stdout


def test_the_readme_shows_every_command_that_is_run() -> None:
    assert {words[0] for words in RUN} == {"new", "check", "report", "workfile"}
