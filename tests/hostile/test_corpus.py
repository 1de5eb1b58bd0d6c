"""Broken and hostile files, each through the command as a person runs it.

Whatever is handed in, the program ends within ten seconds and one gigabyte, in one clear sentence or with findings,
without a trace; it writes nothing outside the output folder, reads nothing outside the job's, connects to nothing,
starts nothing, and leaves the user's files as they were. `support/hostile/server.py` holds it to that.
"""

import os
import re
from collections.abc import Iterator

import pytest
from support.hostile.case import Case
from support.hostile.corpus import corpus
from support.hostile.runs import Outcome, Run, Runs

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="limits of processes are those of POSIX")

#: Characters that change what a terminal shows: control characters, and those that turn the direction around.
_UNPRINTABLE = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")


@pytest.fixture(scope="module")
def runs(tmp_path_factory: pytest.TempPathFactory, request: pytest.FixtureRequest) -> Iterator[Runs]:
    # Where pytest itself runs in several processes, each sees all cases and is given some: none is run ahead.
    alone = not hasattr(request.config, "workerinput")
    asked = [item.callspec.params["case"] for item in request.session.items if alone and _has_case(item)]
    made = Runs(tmp_path_factory.mktemp("hostile"), asked)
    yield made
    made.close()


def _has_case(item: pytest.Item) -> bool:
    found = getattr(item, "callspec", None)
    return item.name.startswith("test_ends_well[") and found is not None and isinstance(found.params.get("case"), Case)


def test_there_are_at_least_three_hundred_different_cases() -> None:
    pairs = [(case.attack, case.part) for case in corpus()]
    assert len(pairs) == len(set(pairs)) >= 300


@pytest.mark.parametrize("case", corpus(), ids=lambda case: case.name)
def test_ends_well(case: Case, runs: Runs) -> None:
    outcome = runs.outcome(case)
    for run in outcome.runs:
        _ended(run)
    assert outcome.touched == (), "files of the user were touched"
    assert outcome.left == (), "something was left in the temporary folder"
    _as_expected(case, outcome)


def _ended(run: Run) -> None:
    said = run.stdout + run.stderr
    assert run.signal == 0, f"{run.command} was stopped by signal {run.signal}"
    assert run.code in (0, 1, 3), said[-2000:]
    assert "Traceback" not in said and 'File "' not in said
    assert not _UNPRINTABLE.search(said), repr(_UNPRINTABLE.findall(said)[:5])
    if run.code == 3:
        sentence = run.stderr.strip()
        assert run.stdout == "" or run.command == "report"
        assert sentence.endswith(".") and len(sentence.splitlines()) == 1 and len(sentence) < 400, sentence


def _as_expected(case: Case, outcome: Outcome) -> None:
    check = outcome.runs[0]
    if case.ends == "refused":
        assert check.code == 3, check.stdout[:2000]
    elif case.ends == "findings":
        assert check.code in (0, 1), check.stderr
    elif case.ends == "same":
        assert check.code == 0, check.stdout[:2000] + check.stderr
    printed = "".join(run.stdout for run in outcome.runs)
    for code in case.codes:
        assert f"  {code}  " in printed, printed[:2000]
