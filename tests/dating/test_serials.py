"""Serial numbers and ranges; makers and numbers are invented."""

import pytest

from appraise.dating.serials import Serial, holds, neighbours, of_model, read_serial
from appraise.records.dating import SerialRange
from appraise.records.declare import filled


def _range(name: str, first: str, last: str, **values: str) -> SerialRange:
    return filled(SerialRange, id=name, maker="Skarvholm", first=first, last=last, date="1937", **values)


@pytest.mark.parametrize(
    ("text", "serial"),
    [
        ("2217", Serial("", "2217", "")),
        (" A-2217 b ", Serial("A", "2217", "B")),
        ("No. 0042", Serial("NO", "0042", "")),
        ("A 12 B 34", None),
        ("", None),
        ("A", None),
    ],
)
def test_parts_of_a_serial(text: str, serial: Serial | None) -> None:
    assert read_serial(text) == serial


def test_both_ends_of_a_range_belong_to_it() -> None:
    one = _range("r", "2150", "2260")
    inside = [number for number in ("2149", "2150", "2200", "2260", "2261") if holds(one, Serial("", number, ""))]
    assert inside == ["2150", "2200", "2260"]


def test_prefix_suffix_and_leading_zeros_count() -> None:
    plain, marked = _range("p", "2150", "2260"), _range("m", "0100", "0200", prefix="a-", suffix="x")
    assert not holds(plain, Serial("A", "2200", ""))
    assert not holds(plain, Serial("", "02200", ""))
    assert holds(marked, Serial("A", "0150", "X"))
    assert not holds(marked, Serial("A", "150", "X"))


def test_a_range_whose_ends_have_different_lengths() -> None:
    one = _range("r", "950", "1050")
    assert holds(one, Serial("", "1000", ""))
    assert holds(one, Serial("", "999", ""))


def test_a_range_without_figures_holds_nothing() -> None:
    assert not holds(_range("r", "about 100", "200"), Serial("", "150", ""))


def test_neighbours_explain_a_number_outside() -> None:
    ranges = [_range("low", "100", "199"), _range("high", "300", "399"), _range("other", "200", "299", prefix="B")]
    below, above = neighbours(ranges, Serial("", "250", ""))
    assert below is ranges[0]
    assert above is ranges[1]


def test_ranges_of_a_model_and_for_all_models() -> None:
    ranges = [
        _range("any", "1", "2"),
        _range("own", "1", "2", model="Consul 17"),
        _range("no", "1", "2", model="Pattern 9"),
    ]
    assert of_model(ranges, "consul 17") == ranges[:2]
    assert of_model(ranges, "") == ranges
