"""What is reckoned of frozen values at most once: of one value, or of several at once.

``once`` is ``functools.cached_property`` without its lock, which costs as much as most
of what a case is asked for: reckoned twice by two threads, a value is the same.
"""

from __future__ import annotations

from functools import wraps
from typing import TYPE_CHECKING, Any, Generic, Self, TypeVar, overload

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from growdesk.domain.facts import House

Value = TypeVar("Value")
Case = TypeVar("Case")
Of = TypeVar("Of")
Day = TypeVar("Day")

_set = object.__setattr__  # of a frozen value too; past its __dict__, which is slower


class Once(Generic[Value]):
    """A property that is reckoned when first asked for, and then stands."""

    def __init__(self, made: Callable[[Any], Value]) -> None:
        self._made = made
        self._name = made.__name__
        self.__doc__ = made.__doc__

    @overload
    def __get__(self, of: None, owner: type) -> Self: ...

    @overload
    def __get__(self, of: object, owner: type) -> Value: ...

    def __get__(self, of: object | None, owner: type) -> Self | Value:
        if of is None:
            return self
        value = self._made(of)
        _set(of, self._name, value)
        return value


once = Once


def once_for(made: Callable[[Case], Value]) -> Callable[[Case], Value]:
    """Let a function of a case be reckoned once for each case."""
    name = f"{made.__module__}.{made.__qualname__}"

    @wraps(made)
    def asked(case: Case) -> Value:
        kept = case.__dict__
        if name not in kept:
            kept[name] = made(case)
        value: Value = kept[name]
        return value

    return asked


class ByDay(Generic[Of, Day]):
    """What many plants share on a day: made once for a value, a house and a day.

    Values are told apart by identity, for to compare them costs more than to make it
    anew. What is made must hold the value and the house, as a field or in what it is
    made of, so that neither can make room for another one that is taken for it.
    """

    def __init__(self, made: Callable[[Of, House, date], Day], most: int = 256) -> None:
        self._made = made
        self._most = most
        self._kept: dict[tuple[int, int, date], Day] = {}

    def __len__(self) -> int:
        return len(self._kept)

    def __call__(self, of: Of, house: House, on: date) -> Day:
        """Give what is kept, else make it; when there is too much, begin anew."""
        key = (id(of), id(house), on)
        found = self._kept.get(key)
        if found is None:
            if len(self._kept) >= self._most:
                self._kept.clear()
            found = self._kept[key] = self._made(of, house, on)
        return found
