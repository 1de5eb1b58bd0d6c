"""Age tests of restricted materials run on the unfavourable end of the window."""

from dataclasses import replace

import pytest
from support.report_job import inputs, results

from appraise.model.missing import UNKNOWN
from appraise.report.compose.report import compose


def cautions(materials: object) -> tuple[str, ...]:
    first, second = results()
    item = replace(first.item, restricted_materials=materials)  # type: ignore[arg-type]
    made = compose(replace(inputs(), results=lambda: (replace(first, item=item), second)))
    return next(made.items).cautions


@pytest.mark.parametrize("materials", ["ivory nut", UNKNOWN])
def test_an_archtop_of_1937_to_1938_in_2024(materials: object) -> None:
    """16 U.S.C. 1539(h)(1) asks 100 years; 50 CFR 17.40(e) names 26 February 1976; CITES App. I: 1992."""
    said = cautions(materials)
    by_source = {source: one for one in said for source in ("1539(h)(1)", "17.40(e)", "Appendix I;") if source in one}
    assert by_source["1539(h)(1)"].endswith("not met.") or "not met. Later" in by_source["1539(h)(1)"]
    assert "met by every month of the window" in by_source["17.40(e)"]
    assert "met by every month of the window" in by_source["Appendix I;"]


def test_nothing_is_said_where_nothing_was_seen() -> None:
    assert not [one for one in cautions("none seen") if "U.S.C." in one]
