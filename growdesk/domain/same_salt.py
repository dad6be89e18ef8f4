"""Whether a tin's analysis is that of the salt it is said to be, and how much of it.

The ions of a salt serve its EC and what falls out with it, its analysis the dose: both
must be of one thing. Labels round, and technical grades hold less than the pure salt.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import InputError
from growdesk.domain.salt_table import analysis_of, analysis_text_of
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.analysis import Analysis

LEAST_SHARE: Final = 0.8
"""Less of the pure salt is another product, or a solution of it; ours."""
MOST_SHARE: Final = 1.06
"""As far as labels round up: 19 % Ca of 18.6 in calcium nitrate of the greenhouse."""
_FOREIGN_PERCENT: Final = 1.0
_LEFT_OUT: Final = frozenset({"S", "Na", "Cl"})
"""What labels need not tell of a salt."""


def check_salt(analysis: Analysis, formula: str, field: str = "formula") -> None:
    """Refuse a salt whose pure analysis is not, as labels round it, the tin's."""
    if not _is_salt(analysis.elements_percent(), formula):
        raise InputError(
            field,
            formula,
            tr("holds {analysis_text_of}, which is not what the analysis says").format(
                analysis_text_of=analysis_text_of(formula)
            ),
            tr("Take the salt's analysis, or choose no salt."),
        )


@lru_cache(maxsize=64)
def share_of_salt(analysis: Analysis, formula: str) -> float:
    """Give how much of a tin is the salt, from 0 to 1, by what its label tells best."""
    told = _shares(analysis.elements_percent(), formula)
    return min(max(told.values(), default=1.0), 1.0)


def _is_salt(held: Mapping[str, float], formula: str) -> bool:
    shares = _shares(held, formula)
    foreign = math.fsum(
        percent
        for element, percent in held.items()
        if element not in shares and element not in _LEFT_OUT
    )
    fits = all(LEAST_SHARE <= share <= MOST_SHARE for share in shares.values())
    return fits and foreign <= _FOREIGN_PERCENT


def _shares(held: Mapping[str, float], formula: str) -> dict[str, float]:
    """Give each element's amount over the pure salt's, of those that labels tell."""
    pure = analysis_of(formula).elements_percent()
    told = {e: percent for e, percent in pure.items() if e not in _LEFT_OUT} or pure
    return {e: held.get(e, 0.0) / percent for e, percent in told.items()}
