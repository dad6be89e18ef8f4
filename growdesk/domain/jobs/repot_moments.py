"""The right moment to repot, by a kind's own words, and whether a look shows it.

The words are a grower's ("new shoots with roots starting") and may be corrected by
one, in English or in German, so that they are read here for the sign they wait for.
"""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING

from growdesk.domain import seasons, signs
from growdesk.domain.facts import Flowering, RootTips

if TYPE_CHECKING:
    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look


class Moment(StrEnum):
    """The sign that a repot waits for."""

    ANY = "any"
    ROOTS = "roots"
    GROWTH = "growth"
    BEFORE_ROOTS = "before-roots"
    ASLEEP = "asleep"
    FLOWERED = "flowered"
    SEASON = "season"


_ORDER: tuple[tuple[str, Moment], ...] = (
    (r"\bany time\b|\bjederzeit\b", Moment.ANY),
    (r"\bbefore its roots\b|\bbevor (seine )?wurzeln\b", Moment.BEFORE_ROOTS),
    (r"\bdormant\b|\bbefore growth\b|\bbefore the shoot\b", Moment.ASLEEP),
    (r"\bin ruhe\b|\bvor dem (austrieb|neutrieb)\b", Moment.ASLEEP),
    (r"\bnew roots?\b|\bwith roots\b|\bactive roots\b", Moment.ROOTS),
    (r"\broots? (just )?(starting|showing|start)\b", Moment.ROOTS),
    (r"\broot (tips|nubs)\b|\bstart of rooting\b", Moment.ROOTS),
    (r"\b(neue[nr]?|aktiven?|mit) wurzeln?\b|\bwurzelspitzen?\b", Moment.ROOTS),
    (r"\bwurzeln (gerade )?(beginnen|kommen)\b|\bwurzelans[aä]tze", Moment.ROOTS),
    (r"\bnew growths?\b|\bnew shoots?\b|\bshoots?\b", Moment.GROWTH),
    (r"\bneutriebe?n?\b|\bneuen? triebe?n?\b", Moment.GROWTH),
    (r"\bafter flowering\b|\bnach der bl[uü]te\b", Moment.FLOWERED),
)
_SEASONS: tuple[tuple[str, tuple[int, ...]], ...] = (
    ("winter to early spring", (12, 1, 2, 3)),
    ("cool season", (10, 11, 12, 1, 2, 3)),
    ("warm season", (5, 6, 7, 8, 9)),
    ("early spring", (2, 3, 4)),
    ("spring to early summer", (3, 4, 5, 6)),
    ("spring", (3, 4, 5)),
    ("autumn", (9, 10, 11)),
    ("winter bis ins zeitige frühjahr", (12, 1, 2, 3)),
    ("kühle jahreszeit", (10, 11, 12, 1, 2, 3)),
    ("warme jahreszeit", (5, 6, 7, 8, 9)),
    ("zeitiges frühjahr", (2, 3, 4)),
    ("frühjahr bis frühsommer", (3, 4, 5, 6)),
    ("frühjahr", (3, 4, 5)),
    ("frühling", (3, 4, 5)),
    ("herbst", (9, 10, 11)),
)
"""Months of the north, whole; common practice, no source."""

_FLOWERS = frozenset({Flowering.SPIKE, Flowering.BUDS, Flowering.OPEN})
_OVER = frozenset({Flowering.FADING, Flowering.SPENT})


def moment_of(words: str) -> Moment:
    """Give the sign that a kind's words wait for; any day where they name none."""
    text = words.casefold()
    for pattern, moment in _ORDER:
        if re.search(pattern, text):
            return moment
    return Moment.SEASON if months_of(words) else Moment.ANY


def months_of(words: str) -> tuple[int, ...]:
    """Give the northern months that a kind's words name, if any."""
    text = words.casefold()
    return next((months for name, months in _SEASONS if name in text), ())


def in_flower(look: Look) -> bool:
    """Tell whether a look found flowers or what will become them."""
    return bool((look.flowering or frozenset()) & _FLOWERS)


def has_come(case: Case) -> bool:
    """Tell whether a look of late shows the moment of the plant's kind.

    An old look may withhold a repot; it never says that the moment is here.
    """
    moment = moment_of(case.kind.repot_moment)
    if moment is Moment.ANY:
        return True
    if moment is Moment.SEASON:
        months = months_of(case.kind.repot_moment)
        turned = seasons.turned_months(months, case.house.latitude)
        return case.near_equator or case.on.month in turned
    look, age = case.look, case.look_age_days
    if look is None or age is None or age > case.house.look_limit_days:
        return False
    return _shows(moment, case, look)


def _shows(moment: Moment, case: Case, look: Look) -> bool:
    seen = case.signs
    if moment is Moment.ROOTS:
        return seen.tips_moving is True
    if moment is Moment.GROWTH:
        return seen.new_growth is True or seen.leaf_moving is True
    if moment is Moment.BEFORE_ROOTS:
        return seen.new_growth is True and look.root_tips is not RootTips.RUNNING
    if moment is Moment.ASLEEP:
        return signs.leafless(look) and not signs.shows_growth(look)
    return _flowered(case)


def _flowered(case: Case) -> bool:
    """Tell whether flowers were seen within a year, and are over by the last look."""
    newest = case.look
    if newest is None or newest.flowering is None or in_flower(newest):
        return False
    if newest.flowering & _OVER:
        return True
    return any(
        Flowering.OPEN in (look.flowering or frozenset()) or _over(look)
        for look in case.looks
        if (newest.on - look.on).days <= case.house.look_limit_days * 3
    )


def _over(look: Look) -> bool:
    return bool((look.flowering or frozenset()) & _OVER)
