"""`@frozen`: a dataclass that is never changed, whose methods are made only when they are first needed.

The standard decorator compiles six methods of every class where the class is written, a millisecond in all; a command
that starts makes nearly two hundred classes and builds objects of half of them. Here the class gets its fields from
the standard library (so `fields`, `replace` and `asdict` work), shares all methods with the others but `__init__`, and
that one is compiled when the first object is built.
"""

from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from reprlib import recursive_repr
from typing import Any, TypeVar, dataclass_transform, overload

_Class = TypeVar("_Class")


@overload
def frozen(cls: type[_Class], /) -> type[_Class]: ...
@overload
def frozen(*, kw_only: bool = ...) -> Callable[[type[_Class]], type[_Class]]: ...


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[Any] | None = None, /, *, kw_only: bool = False) -> Any:
    """Make the class a dataclass with slots whose objects are compared by value, hashed, and never changed.

    kw_only   every field is given by name

    Fields are declared as for `dataclasses.dataclass`, `field` and `__post_init__` included; `InitVar` and
    fields left out of comparison are not known.
    Setting or deleting an attribute raises `dataclasses.FrozenInstanceError`.
    """
    return _made(cls, kw_only) if cls is not None else lambda named: _made(named, kw_only)


def _made(cls: type[Any], kw_only: bool) -> type[Any]:
    own = frozenset(vars(cls))
    made: Any = dataclass(init=False, repr=False, eq=False, slots=True, kw_only=kw_only)(cls)
    names = tuple(one.name for one in fields(made))
    values = _values(names)

    def first(self: Any, /, *given: Any, **named: Any) -> None:
        made.__init__ = _init(made)
        made.__init__(self, *given, **named)

    def equal(self: Any, other: object) -> Any:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    def hashed(self: Any) -> int:
        return hash(values(self))

    def kept(self: Any) -> tuple[Any, ...]:
        return values(self)

    def restored(self: Any, state: tuple[Any, ...]) -> None:
        for name, value in zip(names, state, strict=True):
            object.__setattr__(self, name, value)

    methods: dict[str, Any] = {
        "__init__": first,
        "__eq__": equal,
        "__hash__": hashed,
        "__repr__": _shown,
        "__setattr__": _refused,
        "__delattr__": _refused,
        "__getstate__": kept,
        "__setstate__": restored,
    }
    for name, method in methods.items():
        if name not in own:
            setattr(made, name, method)
    return made  # type: ignore[no-any-return]


def _values(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """Return what gives the values of an object's fields as a tuple."""
    if len(names) > 1:
        return attrgetter(*names)
    return lambda one: tuple(getattr(one, name) for name in names)


def _init(cls: type[Any]) -> Any:
    """Return the compiled `__init__`: it writes each value straight into its slot."""
    known: dict[str, Any] = {"MISSING": MISSING}
    given: list[str] = []
    named: list[str] = []
    lines: list[str] = []
    for one in fields(cls):
        known[f"_set_{one.name}"] = getattr(cls, one.name).__set__
        if one.init:
            (named if one.kw_only else given).append(_parameter(one, known))
        elif one.default is MISSING and one.default_factory is MISSING:
            continue
        lines.append(f" _set_{one.name}(self, {_value(one, known)})")
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    parameters = ", ".join(["self", *given, *(["*", *named] if named else [])])
    exec(f"def __init__({parameters}):\n" + "\n".join(lines or [" pass"]), known)  # noqa: S102 - names of fields only
    init = known["__init__"]
    init.__qualname__ = f"{cls.__qualname__}.__init__"
    return init


def _parameter(one: Field[Any], known: dict[str, Any]) -> str:
    if one.default is not MISSING:
        known[f"_default_{one.name}"] = one.default
        return f"{one.name}=_default_{one.name}"
    return one.name if one.default_factory is MISSING else f"{one.name}=MISSING"


def _value(one: Field[Any], known: dict[str, Any]) -> str:
    if one.default_factory is not MISSING:
        known[f"_make_{one.name}"] = one.default_factory
        made = f"_make_{one.name}()"
        return f"{made} if {one.name} is MISSING else {one.name}" if one.init else made
    if one.init:
        return one.name
    known[f"_default_{one.name}"] = one.default
    return f"_default_{one.name}"


@recursive_repr()
def _shown(self: Any) -> str:
    shown = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{self.__class__.__qualname__}({shown})"


def _refused(self: Any, name: str, *_: object) -> None:
    raise FrozenInstanceError(f"{self.__class__.__name__} is never changed: '{name}'")
