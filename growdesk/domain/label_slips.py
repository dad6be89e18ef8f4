"""Usual slips in typing a label: a number missing or nameless, a nutrient told twice.

Many labels print the oxide with its element behind it, "P2O5 (P) 20 (8.7)". Where both
fit they are one; where they do not, one was taken for the other, and it is said what
the oxide comes to.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from growdesk.domain.chemistry import as_element
from growdesk.domain.speech import plain, tr

if TYPE_CHECKING:
    from collections.abc import Iterable

LABEL_NUMBER: Final = r"(?:[0-9]{1,3}(?:[.,][0-9]{1,5})?|\.[0-9]{1,5})"
_TWO: Final = re.compile(
    rf"(?:n-?p-?k\s*:?\s*)?{LABEL_NUMBER}\s*[-:/]\s*{LABEL_NUMBER}", re.IGNORECASE
)
_NAMELESS: Final = re.compile(
    rf"\s*(?:[-:/]\s*[0-9]|\(?\s*\+\s*{LABEL_NUMBER}\s*\)?\s*$)"
)
_ROUNDED_PERCENT: Final = 0.06
"""A label rounds to a tenth."""
_ROUNDED_SHARE: Final = 0.03
"""Or to whole per cents, by a factor of two digits: 17 % K beside 20 % K2O."""

Told = tuple[str, float]


def is_two_numbers(label: str) -> bool:
    """Tell whether a label holds two numbers of its three and nothing else."""
    return _TWO.fullmatch(label) is not None


def begins_nameless(rest: str) -> bool:
    """Tell whether a fourth number without a name follows the three."""
    return _NAMELESS.match(rest) is not None


def told_once(named: Iterable[Told]) -> tuple[list[Told], str]:
    """Give each nutrient once, as told first; and what is wrong where two differ."""
    kept: dict[str, Told] = {}
    for name, percent in named:
        element, amount = as_element(name, percent)
        first = kept.setdefault(element, (name, percent))
        if first[0] == name:
            if first[1] != percent:
                return [], tr("gives {name} twice").format(name=name)
        elif not _alike(as_element(*first)[1], amount):
            return [], _not_alike(element, first, (name, percent))
    return list(kept.values()), ""


def _alike(one: float, other: float) -> bool:
    return abs(one - other) <= max(_ROUNDED_PERCENT, _ROUNDED_SHARE * max(one, other))


def _not_alike(element: str, one: Told, other: Told) -> str:
    (name, percent), (_, told) = sorted(
        (one, other), key=lambda each: each[0] == element
    )
    if other[0] != element != one[0]:
        return tr("gives {element} twice").format(element=element)
    held = as_element(name, percent)[1]
    return tr(
        "gives {element} twice: {percent} % {name} is {held} % {element}, not {told} %"
    ).format(
        element=element,
        percent=plain(percent),
        name=name,
        held=plain(float(f"{held:.3g}")),
        told=plain(told),
    )
