"""Every check case, run from its file through a real workbook: ours, and those APPRAISE_EXTRA_CASES adds."""

from collections import Counter
from pathlib import Path

import pytest
from support.check_files import CheckCase, all_check_cases, base_of, examined

from appraise.findings.answers import Judged


def told(judged: list[Judged]) -> Counter[tuple[str, str, str]]:
    return Counter((one.finding.code, one.finding.place.sheet, one.finding.place.column) for one in judged)


@pytest.mark.parametrize("case", all_check_cases(), ids=lambda case: case.id)
def test_case(case: CheckCase, tmp_path: Path) -> None:
    before = told(base_of(case, tmp_path / "base").judged)
    after = examined(case, tmp_path / "case").judged
    new = told(after) - before
    expected = Counter((one["code"], one["sheet"], one.get("column", "")) for one in case.data["expected"])
    if case.data.get("silent"):
        assert not (set(new) & set(expected))
        return
    assert new == expected if case.data.get("alone") else not expected - new
    for one in case.data["expected"]:
        found = [each for each in after if each.finding.code == one["code"]]
        if "severity" in one:
            assert {each.severity.value for each in found} == {one["severity"]}
        if "found" in one:
            assert one["found"] in {each.finding.found for each in found}
