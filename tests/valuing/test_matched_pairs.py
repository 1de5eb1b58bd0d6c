"""The effect of one feature from matched pairs."""

from decimal import Decimal

from appraise.records.declare import filled
from appraise.records.losses import PairedSale
from appraise.valuing.matched_pairs import Estimate, feature_effect, usable_pairs


def test_one_pair_as_in_the_licensing_exam_question() -> None:
    """Published licensing-exam practice question on paired sales: 285000 with, 275000 without: 10000."""
    effect = feature_effect([(Decimal(285000), Decimal(275000))])
    assert effect is not None
    assert effect.amount == Estimate(1, Decimal("10000.00"), None, None)
    assert effect.downward.mean == Decimal("-3.51")
    assert effect.upward.mean == Decimal("3.64")


def test_interval_of_several_pairs() -> None:
    """Mean 12, standard deviation 2, four pairs: half-width 3.1824 x 2 / 2 (t table, 3 degrees of freedom)."""
    prices = [(Decimal(110), Decimal(100)), (Decimal(112), Decimal(100)), (Decimal(112), Decimal(100))]
    effect = feature_effect([*prices, (Decimal(114), Decimal(100))])
    assert effect is not None
    assert effect.upward.mean == Decimal("12.00")
    assert effect.upward == effect.amount
    # The standard deviation is the root of 8/3: half-width 3.18245 x 1.63299 / 2 = 2.59846.
    assert (effect.upward.low, effect.upward.high) == (Decimal("9.40"), Decimal("14.60"))


def test_no_pair_no_effect() -> None:
    assert feature_effect([]) is None


def test_rows_that_cannot_serve_say_why() -> None:
    rows = [
        filled(PairedSale, row=2, id="p1", better=Decimal(100), poorer=Decimal(80), weight=Decimal(1)),
        filled(PairedSale, row=3, id="p2", better=Decimal(0), poorer=Decimal(80), weight=Decimal(1)),
        filled(PairedSale, row=4, id="p3", better=Decimal(100), weight=Decimal(1)),
        filled(PairedSale, row=5, id="p4", better=Decimal(100), poorer=Decimal(90), weight=Decimal(0)),
    ]
    pairs, findings = usable_pairs(rows)
    assert pairs == [(Decimal(100), Decimal(80))]
    assert [(one.code, one.place.row, one.place.column) for one in findings] == [
        ("LOS-07", 3, "better"),
        ("LOS-01", 4, "poorer"),
    ]
