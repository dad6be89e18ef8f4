"""What would take a plant off feed, as alterations: only what is there can vanish."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.facts import Flowering, NewGrowths, NewLeaf, RootTips
from growdesk.domain.phrases import listed
from growdesk.domain.sights import Alteration, averaging
from growdesk.domain.signs import ON_THE_WAY
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.case import Case
    from growdesk.domain.facts import Look

NEAR_C = 4.0

SIGNS = Phrases(
    {
        "growth": "no new growth",
        "leaf": "no new leaf",
        "tips": "no root tips",
        "spike": "no spike and no buds on the way",
    },
    "what a look finds",
)


def harmful(case: Case) -> Iterator[Alteration]:
    """Give what would take a plant off feed."""
    there = tuple(_there(case))
    if there:
        yield Alteration(
            "nothing-moves", lambda look: _still(look, there), shown=_none_of(there)
        )
    if case.look is not None and case.signs.tips_moving is None:
        yield Alteration(
            "roots-still", lambda look: replace(look, root_tips=RootTips.NONE)
        )
    mean_c = case.mean_c(case.house.cold_window_days)
    if mean_c is not None and mean_c <= case.kind.least_feed_c + NEAR_C:
        yield averaging("cooler", case.kind.least_feed_c)


def _there(case: Case) -> Iterator[str]:
    """Give the signs on the move that count for the plant."""
    seen = (
        ("growth", case.signs.growth),
        ("leaf", case.signs.leaf_moving),
        ("tips", case.signs.tips_moving),
        ("spike", case.spike_grows),
    )
    return (sign for sign, moves in seen if moves)


def _none_of(there: tuple[str, ...]) -> str:
    return listed([SIGNS[sign] for sign in there])


def _still(look: Look, there: tuple[str, ...]) -> Look:
    """Give the look without the signs that are named, and otherwise as it was."""
    if "growth" in there:
        counts = look.new_growths or NewGrowths()
        none = replace(counts, emerging=0, extending=0, maturing=0)
        look = replace(look, new_growths=none)
    if "leaf" in there:
        look = replace(look, new_leaf=NewLeaf.NONE)
    if "tips" in there:
        look = replace(look, root_tips=RootTips.NONE)
    if "spike" in there:
        left = (look.flowering or frozenset()) - ON_THE_WAY
        look = replace(look, flowering=left or frozenset({Flowering.NONE}))
    return look
