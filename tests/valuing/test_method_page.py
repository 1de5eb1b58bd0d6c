"""What docs/method.md states is what the code does: operations, scale, limits, widths of wordings, its example."""

import re
import subprocess
import sys
from decimal import Decimal
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

import pytest

import appraise.dating
import appraise.valuing
from appraise.dating.settings import Settings
from appraise.dating.wordings import conventions
from appraise.model.kinds import COUNT, FACTOR, INDEX, PERCENT, SHOWN_PERCENT, TYPED, WEIGHT, minor_unit
from appraise.model.months import month_number
from appraise.model.operations import OPERATIONS
from appraise.valuing.codes import CODES
from appraise.valuing.limits import DEFAULT_LIMITS
from appraise.valuing.operations import LARGEST_INCREMENT, SCALE_S1
from appraise.valuing.steps.findings import SHORT_NAMES

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "method.md").read_text("utf-8")


def rows(heading: str) -> list[list[str]]:
    """Return the rows of the table whose heading line begins so."""
    after = PAGE.split(f"\n| {heading} |", 1)[1].splitlines()[2:]
    table = after[: next((at for at, line in enumerate(after) if not line.startswith("|")), len(after))]
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in table]


def number(text: str) -> Decimal:
    return Decimal(re.sub(r"[^\d.]", "", text))


def test_every_operation_is_listed_with_its_sentence() -> None:
    for package in (appraise.dating, appraise.valuing):
        for module in walk_packages(package.__path__, f"{package.__name__}."):
            import_module(module.name)
    listed = {name.strip("`"): sentence for name, sentence in rows("operation")}
    assert listed == {name: one.sentence for name, one in OPERATIONS.items()}


def test_codes_of_the_types_of_value() -> None:
    assert {code.strip("`"): name for code, name, _section in rows("code")} == {
        code: value_type.value for value_type, code in CODES.items()
    }


def test_decimals_of_each_kind_of_figure() -> None:
    money, *others = (rounded for _kind, rounded in rows("kind of figure"))
    assert {currency: int(places) for currency, places in re.findall(r"([A-Z]{3}) (\d)\b", money)} == {
        currency: minor_unit(currency) for currency in ("USD", "JPY", "KWD")
    }
    kinds = (FACTOR, INDEX, PERCENT, SHOWN_PERCENT, COUNT)
    stated = [int(number(one)) if any(map(str.isdigit, one)) else 0 for one in others[:-1]]
    assert stated == [kind.places for kind in kinds]
    assert others[-1] == "as typed"
    assert TYPED.places is None and WEIGHT.places is None


def test_scale_of_final_rounding() -> None:
    typed = [(number(band), number(step)) for band, step in rows("value before rounding")]
    assert typed == [*SCALE_S1, (SCALE_S1[-1][0], LARGEST_INCREMENT)]


def test_widths_of_vague_wordings() -> None:
    known = {one.example: [one.outer, one.core] for one in conventions(Settings(month_number(2026, 11)))}
    assert {example: months for example, *months in rows("example")} == known


def test_findings_on_comparisons_and_their_limits() -> None:
    stated = {re.findall("`(.+?)`", name)[0]: (name.split(" (")[0], when) for name, when in rows("finding")}
    assert {code: name for code, (name, _when) in stated.items()} == SHORT_NAMES
    limits = {
        "CMP-02": Decimal(DEFAULT_LIMITS.old_months),
        "CMP-07": DEFAULT_LIMITS.gross,
        "CMP-08": DEFAULT_LIMITS.net,
        "VAL-11": Decimal(DEFAULT_LIMITS.fewest),
        "VAL-12": DEFAULT_LIMITS.largest_share,
        "VAL-13": DEFAULT_LIMITS.widest_spread,
    }
    assert {code: number(stated[code][1]) for code in limits} == limits


@pytest.fixture(scope="module")
def explained() -> list[str]:
    """Return what the command of the worked example prints."""
    command = re.search(r"^appraise (check .+ --explain \w+)$", PAGE, re.MULTILINE)
    assert command is not None
    ran = subprocess.run(
        [sys.executable, "-m", "appraise", *command[1].split()], capture_output=True, text=True, cwd=ROOT, check=True
    )
    return ran.stdout.splitlines()


def test_the_worked_example_is_what_the_command_prints_in_its_order(explained: list[str]) -> None:
    shown = PAGE.split("```text\n", 1)[1].split("```", 1)[0].splitlines()
    places = [explained.index(line) for line in shown]
    assert len(shown) > 20
    assert places == sorted(places)
