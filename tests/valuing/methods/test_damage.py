"""Damage: published example, origin of the damage, betterment, salvage, total loss; casualty loss; sets."""

from decimal import Decimal

import pytest
from support.figures import codes, number, reasons, typed

from appraise.model.figure import Figure
from appraise.model.ledger import Ledger, RecordingLedger
from appraise.model.missing import BLANK, Missing
from appraise.records.declare import filled
from appraise.records.losses import Damage, Loss, PairedSale, Piece, RepairLine, SetLoss
from appraise.records.vocabulary import DamageOrigin, RepairState, SetClause
from appraise.valuing.methods.casualty import casualty_loss
from appraise.valuing.methods.damage import damage
from appraise.valuing.methods.sets import set_loss
from appraise.valuing.working import Worked


def worked_out(
    loss: Loss, repairs: list[RepairLine], damages: list[Damage] | None = None, pairs: list[PairedSale] | None = None
) -> Worked:
    return damage(RecordingLedger("T"), loss, damages=damages or [], repairs=repairs, pairs=pairs or [], currency="USD")


def a_loss(before: str, stands: str, **values: object) -> Loss:
    return filled(Loss, row=2, item="G1", before=Decimal(before), as_it_stands=Decimal(stands), **values)


def repair(amount: str, damage_id: str | Missing = BLANK, row: int = 2) -> RepairLine:
    return filled(
        RepairLine, row=row, item="G1", damage=damage_id, work="work", amount=Decimal(amount), state=RepairState.DONE
    )


def test_the_smaller_of_cost_and_loss_of_value_tax_help_page() -> None:
    """A tax-help page on casualty losses: value before 6000, after 2000, cost 12000: 4000."""
    worked = worked_out(a_loss("6000", "2000", after_repair=Decimal(6000)), [repair("12000")])
    assert number(worked["loss"]) == Decimal("4000.00")
    assert number(worked["measure1"]) == Decimal("12000.00")


def test_repair_plus_what_it_stays_worth_less() -> None:
    """Before 18000, unrepaired 11500, repair 2600, after repair 14800: 6500 against 5800."""
    worked = worked_out(a_loss("18000", "11500", after_repair=Decimal(14800)), [repair("2600")])
    assert (number(worked["measure1"]), number(worked["measure2"])) == (5800, 6500)
    assert number(worked["loss"]) == 5800


ORIGINS = [
    filled(Damage, row=row, id=f"D{row}", item="G1", origin=origin)
    for row, origin in enumerate((DamageOrigin.BEFORE, DamageOrigin.FROM_EVENT, DamageOrigin.CANNOT_TELL), start=2)
]


def test_earlier_damage_is_left_out_and_doubtful_damage_stands_beside() -> None:
    repairs = [repair("100", "D2", 2), repair("1000", "D3", 3), repair("300", "D4", 4)]
    worked = worked_out(a_loss("18000", "9000", after_repair=Decimal(17000)), repairs, ORIGINS)
    assert number(worked["repair_total"]) == 1000
    assert number(worked["loss"]) == 2000
    assert number(worked["loss_if_from_event"]) == 2300
    assert codes(worked) == ["LOS-08", "LOS-09"]


def test_a_typed_percent_stands_for_pairs() -> None:
    worked = worked_out(a_loss("20000", "10000", stigma=Decimal("12.5")), [repair("1500")])
    assert number(worked["after_repair"]) == Decimal("17500.00")
    assert number(worked["loss"]) == Decimal("4000.00")


def test_nothing_says_how_much_less_a_repaired_one_brings() -> None:
    worked = worked_out(a_loss("20000", "10000"), [repair("1500")])
    assert reasons(worked["loss"]) == ["LOS-06"]
    assert number(worked["measure2"]) == 10000


@pytest.mark.parametrize(("better", "weight"), [("0", "1"), ("100", "-1")])
def test_a_pair_that_cannot_serve(better: str, weight: str) -> None:
    pair = filled(PairedSale, row=2, id="p1", better=Decimal(better), poorer=Decimal(50), weight=Decimal(weight))
    worked = worked_out(a_loss("20000", "10000"), [repair("1500")], pairs=[pair])
    assert reasons(worked["stigma_pct"]) == ["LOS-07"]


def test_betterment_is_taken_off_only_where_the_policy_says_so() -> None:
    paid_in_full = worked_out(a_loss("10000", "5000", after_repair=Decimal(11000)), [repair("3000")])
    assert number(paid_in_full["loss"]) == 3000
    assert codes(paid_in_full) == ["LOS-11"]
    net = worked_out(a_loss("10000", "5000", after_repair=Decimal(11000), net_of_betterment=True), [repair("3000")])
    assert number(net["betterment"]) == 1000
    assert number(net["loss"]) == 2000


def test_salvage_cap() -> None:
    worked = worked_out(
        a_loss("10000", "1000", after_repair=Decimal(8000), salvage=Decimal(3000), cap_by_salvage=True),
        [repair("9000")],
    )
    assert number(worked["loss"]) == 7000


@pytest.mark.parametrize(("cost", "total"), [("7500", "yes"), ("7499.99", "no")])
def test_total_loss_from_the_trigger_on(cost: str, total: str) -> None:
    loss = a_loss("10000", "1000", after_repair=Decimal(10000), threshold=Decimal(75))
    answer = worked_out(loss, [repair(cost)])["total_loss"]
    assert isinstance(answer, Figure)
    assert answer.value == total


def test_a_value_after_above_the_value_before_is_said() -> None:
    worked = worked_out(a_loss("10000", "12000", after_repair=Decimal(9000)), [repair("100")])
    assert codes(worked) == ["LOS-12"]


def test_no_repair_at_all_costs_nothing() -> None:
    worked = worked_out(a_loss("10000", "9000", after_repair=Decimal(9500)), [])
    assert number(worked["loss"]) == 500


def test_casualty_loss_after_floor_and_share_study_aid() -> None:
    """A study-aid answer on a casualty loss: 14000, insurance 10000, floor 100, 10 % of 37000: 200.00."""
    worked = casualty_loss(
        Ledger("T"),
        fall=typed("14000"),
        basis=typed("20000"),
        insurance=typed("10000"),
        floor=typed("100"),
        income=typed("37000"),
        share=typed("10"),
        currency="USD",
    )
    assert number(worked["counted"]) == Decimal("200.00")


def four(lost: int = 1) -> list[Piece]:
    return [
        filled(Piece, row=row, set_id="S", piece=f"p{row}", alone=Decimal(1000), lost=row < 2 + lost)
        for row in range(2, 6)
    ]


def a_set(pieces: list[Piece], clause: SetClause | Missing = BLANK, **values: object) -> Worked:
    line = filled(SetLoss, row=2, set_id="S", whole=Decimal(10000), rest=Decimal(6000), **values)
    return set_loss(RecordingLedger("T"), line, pieces=pieces, clause=clause, currency="USD")


def test_set_of_four_before_and_after_against_equal_shares() -> None:
    """Pair-and-set clauses: a set worth 10000, the remaining three 6000: 4000 by difference, 2500 by shares."""
    worked = a_set(four())
    assert number(worked["difference_measure"]) == Decimal("4000.00")
    assert number(worked["pro_rata"]) == Decimal("2500.00")
    assert number(worked["covered_loss"]) == Decimal("4000.00")
    assert codes(worked) == ["LOS-14"]


def test_pair_worth_more_together() -> None:
    """Pair 20000, survivor alone 6000: 14000, not 10000."""
    line = filled(SetLoss, row=2, set_id="S", whole=Decimal(20000), rest=Decimal(6000))
    worked = set_loss(Ledger("T"), line, pieces=four(2), clause=SetClause.DIFFERENCE, currency="USD")
    assert number(worked["covered_loss"]) == 14000
    assert number(worked["pro_rata"]) == 10000


@pytest.mark.parametrize(
    ("clause", "covered"),
    [
        (SetClause.SMALLER, "3200"),
        (SetClause.DIFFERENCE, "4100"),
        (SetClause.RESTORE, "3200"),
        (SetClause.SURRENDER, "10000"),
        (SetClause.SHARE, "2500"),
    ],
)
def test_each_clause_takes_its_measure(clause: SetClause, covered: str) -> None:
    worked = a_set(
        four(),
        clause,
        replacement=Decimal(2500),
        matching=Decimal(400),
        repair=Decimal(100),
        repair_loss=Decimal(200),
    )
    assert number(worked["covered_loss"]) == Decimal(covered)


def test_a_set_without_pieces_has_no_share_but_a_difference() -> None:
    worked = a_set([])
    assert reasons(worked["pro_rata"]) == ["LOS-13"]
    assert number(worked["covered_loss"]) == 4000


def test_odd_and_doubled_names_break_nothing() -> None:
    pairs = [
        filled(PairedSale, row=row, id=name, better=Decimal(100), poorer=Decimal(80), weight=Decimal(1))
        for row, name in enumerate(("loss", "p1", "p1", "a b", BLANK, "measure1"), start=2)
    ]
    repairs = [
        filled(RepairLine, row=row, item="G1", work="materials", amount=Decimal(100), tax=Decimal(10)) for row in (2, 3)
    ]
    worked = worked_out(a_loss("1000", "100"), repairs, pairs=pairs)
    assert number(worked["stigma_pct"]) == Decimal("20.00")
    assert number(worked["repair_total"]) == Decimal("220.00")
    assert number(worked["loss"]) == Decimal("420.00")
