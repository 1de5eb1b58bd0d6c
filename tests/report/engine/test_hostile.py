"""The second wall: what gets past the reading of a template still can neither run code nor go on for ever."""

import io
from pathlib import Path

import pytest
from jinja2.exceptions import SecurityError, UndefinedError
from support.report_samples import EDGES, PROPERTIES, finder, house_bytes, item, report

from appraise.report.engine import helpers
from appraise.report.engine.environment import UnprintableError, environment
from appraise.report.engine.helpers import TooLargeError
from appraise.report.engine.render import render
from appraise.report.engine.views import SectionUse


@pytest.mark.parametrize(
    "source",
    [
        "{{ r.title.__class__ }}",
        "{{ r.title.upper }}",
        "{{ r.__class__ }}",
        "{{ r['title'] }}",
        "{{ item.photos[0].source }}",
        "{{ missing }}",
        "{{ r.missing }}",
    ],
)
def test_only_fields_of_views_open(source: str) -> None:
    with pytest.raises(UndefinedError):
        environment().from_string(source).render(r=report(), item=item(1))


@pytest.mark.parametrize("source", ["{{ 2 ** 9999999 }}", "{{ 'a' * 9999999 }}", "{{ r.title % 1 }}"])
def test_nothing_is_computed(source: str) -> None:
    with pytest.raises(SecurityError):
        environment().from_string(source).render(r=report())


def test_nothing_is_called_but_helpers() -> None:
    with pytest.raises(SecurityError):
        environment().from_string("{{ f() }}").render(f=lambda: "ran")


@pytest.mark.parametrize("value", [None, 1.5, float("nan"), len, object(), True])
def test_only_texts_and_whole_numbers_are_printed(value: object) -> None:
    with pytest.raises(UnprintableError):
        environment().from_string("{{ x }}").render(x=value)


def nested(folder: Path) -> None:
    from templates_source.kit import Sheet

    sheet = Sheet(house_bytes())
    with sheet.each("a", "r.rows"), sheet.each("b", "r.rows"), sheet.each("c", "r.rows"), sheet.each("d", "r.rows"):
        sheet.para("{{ d.title }}")
    (folder / "sections" / "overview.docx").write_bytes(sheet.finished())


def test_loops_within_loops_come_to_an_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    templates = finder(tmp_path)
    nested(tmp_path)
    monkeypatch.setattr(helpers, "MOST_STEPS", 20_000)
    with pytest.raises(TooLargeError):
        render(
            io.BytesIO(), (SectionUse("overview"),), report(60), (),
            templates=templates, properties=PROPERTIES, edges=EDGES,
        )  # fmt: skip
