"""Frozen classes behave as the standard decorator's do; it is the oracle here."""

import copy
import pickle
from dataclasses import FrozenInstanceError, asdict, dataclass, field, fields, is_dataclass, replace
from typing import Any

import pytest

from appraise.model.frozen import frozen


@frozen
class Ours:
    """One of ours."""

    name: str
    count: int = 1
    parts: list[str] = field(default_factory=list)
    made: str = field(init=False, default="")


@dataclass(frozen=True, slots=True)
class Theirs:
    """The same by the standard library."""

    name: str
    count: int = 1
    parts: list[str] = field(default_factory=list)


@frozen(kw_only=True)
class Named:
    """All by name, one field hidden."""

    only: int
    secret: str = field(default="", repr=False)


@frozen
class Checked:
    """Refuses what makes no sense."""

    low: int
    high: int

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError("low above high")

    @property
    def width(self) -> int:
        return self.high - self.low


@frozen
class Single:
    """One field only."""

    one: object


@frozen
class Nothing:
    """No field."""


def test_objects_are_built_shown_and_compared_as_the_standard_library_does() -> None:
    for given, named in ((("a",), {}), (("a", 2), {}), (("a",), {"parts": ["x"]}), ((), {"count": 5, "name": "b"})):
        ours, theirs = Pair(*given, **named), Theirs(*given, **named)
        assert asdict(ours) == asdict(theirs)
        assert repr(ours) == repr(theirs).replace("Theirs", "Pair")
    assert Pair("a") == Pair("a") != Pair("b")
    assert Pair("a") != Theirs("a")
    assert Pair.__match_args__ == Theirs.__match_args__


@frozen
class Pair:
    """As Theirs."""

    name: str
    count: int = 1
    parts: list[str] = field(default_factory=list)


def test_every_object_gets_a_list_of_its_own() -> None:
    assert Pair("a").parts is not Pair("a").parts


@pytest.mark.parametrize(
    "call",
    [lambda: Pair(), lambda: Pair("a", 1, [], "more"), lambda: Pair("a", unknown=1), lambda: Named(3), lambda: Named()],  # type: ignore[call-arg, misc]
)
def test_wrong_arguments_are_refused_at_the_first_object_too(call: Any) -> None:
    with pytest.raises(TypeError, match=r"__init__\(\)"):
        call()


def test_nothing_is_changed_or_deleted() -> None:
    one = Checked(1, 2)
    with pytest.raises(FrozenInstanceError, match="'low'"):
        one.low = 5  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del one.low
    with pytest.raises(FrozenInstanceError):
        one.other = 5  # type: ignore[attr-defined]
    assert one == Checked(1, 2)
    assert not hasattr(one, "__dict__")


def test_what_follows_after_the_fields_runs() -> None:
    assert Checked(1, 4).width == 3
    with pytest.raises(ValueError, match="low above high"):
        Checked(4, 1)


def test_equal_objects_have_equal_hashes_and_what_cannot_be_hashed_says_so() -> None:
    assert hash(Checked(1, 2)) == hash(Checked(1, 2)) == hash((1, 2))
    assert len({Single(1), Single(1), Single(2), Nothing(), Nothing()}) == 3
    with pytest.raises(TypeError, match="list"):
        hash(Pair("a"))


def test_a_field_may_stay_out_of_the_arguments_or_of_what_is_shown() -> None:
    assert Ours("a").made == ""
    with pytest.raises(TypeError):
        Ours("a", 1, [], "x")  # type: ignore[call-arg]
    assert repr(Named(only=1, secret="x")) == "Named(only=1)"


def test_an_object_that_holds_itself_is_shown() -> None:
    held: list[object] = []
    one = Single(held)
    held.append(one)
    assert repr(one) == "Single(one=[...])"


@pytest.mark.parametrize("one", [Pair("a", 2, ["x"]), Named(only=1), Checked(1, 2), Single(3), Nothing()])
def test_copies_and_kept_objects_are_equal(one: Any) -> None:
    assert is_dataclass(one)
    for other in (copy.copy(one), copy.deepcopy(one), pickle.loads(pickle.dumps(one)), replace(one)):
        assert other == one
        assert type(other) is type(one)
        assert {each.name for each in fields(other)} == {each.name for each in fields(one)}


def test_replacing_a_field_checks_the_object_again() -> None:
    assert replace(Checked(1, 4), low=2) == Checked(2, 4)
    with pytest.raises(ValueError, match="low above high"):
        replace(Checked(1, 4), low=5)


def test_methods_written_in_the_class_are_kept() -> None:
    @frozen
    class Odd:
        """Compares by length alone."""

        name: str

        def __eq__(self, other: object) -> bool:
            return isinstance(other, Odd) and len(other.name) == len(self.name)

        def __hash__(self) -> int:
            return len(self.name)

    assert Odd("ab") == Odd("cd")
    assert hash(Odd("ab")) == 2
