"""Why there is no value in a cell. Four different things, never confused with one another or with zero."""

from enum import Enum
from typing import TypeGuard, TypeVar

T = TypeVar("T")


class Missing(Enum):
    """A cell without a usable value: left blank, stated unknown, stated not inspected, or not readable."""

    BLANK = "blank"
    UNKNOWN = "unknown"
    NOT_INSPECTED = "not inspected"
    UNREADABLE = "unreadable"

    def __repr__(self) -> str:
        return self.name


BLANK = Missing.BLANK
UNKNOWN = Missing.UNKNOWN
NOT_INSPECTED = Missing.NOT_INSPECTED
UNREADABLE = Missing.UNREADABLE


def given(value: T | Missing) -> TypeGuard[T]:
    """Say whether a value was given, so that the type checker knows it too."""
    return not isinstance(value, Missing)


def value_or(value: T | Missing, otherwise: T) -> T:
    """Return the value if it was given, else `otherwise`."""
    return value if given(value) else otherwise
