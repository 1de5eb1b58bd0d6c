"""Every date-window case, run from its file as it is: ours, and those APPRAISE_EXTRA_CASES adds."""

from typing import Any

import pytest
from support.dating import as_expected, cases, window


def _comparable(expected: dict[str, Any]) -> dict[str, Any]:
    """Return the parts of a case in which the order means nothing in a fixed order."""
    return {
        **expected,
        "conflicts": sorted(sorted(one) for one in expected["conflicts"]),
        "consistent": sorted(
            ({**one, "keep": sorted(one["keep"])} for one in expected["consistent"]), key=lambda one: one["keep"]
        ),
        "best": sorted(sorted(one) for one in expected["best"]),
    }


@pytest.mark.parametrize("case", cases(), ids=lambda case: case["id"])
def test_case(case: dict[str, Any]) -> None:
    found = as_expected(window(case))
    assert _comparable(found) == _comparable(case["expected"])
    listed = [sorted(one["keep"]) for one in found["consistent"]]
    best = [sorted(one) for one in case["expected"]["best"]]
    assert sorted(listed[: len(best)]) == sorted(best), "the best-ranked explanations come first"
