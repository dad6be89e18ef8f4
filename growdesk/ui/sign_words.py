"""The plain word for each choice of a sign, a medium, a place and the like."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts import (
    Bulbs,
    Facing,
    Flowering,
    Glass,
    Health,
    Leaves,
    Medium,
    NewLeaf,
    PlaceKind,
    Pot,
    RootTips,
    Size,
)
from growdesk.domain.holding import HELD_AS, Descent, HeldAs
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from enum import StrEnum

_SAID: Mapping[type[StrEnum], Mapping[str, str]] = {
    RootTips: Phrases(
        {
            "none": "none seen",
            "starting": "just starting",
            "running": "running",
            "hidden": "hidden",
        },
        "root tips",
    ),
    NewLeaf: Phrases(
        {
            "none": "none",
            "starting": "starting",
            "extending": "extending",
            "full": "full size",
        },
        "new leaf",
    ),
    Flowering: Phrases(
        {
            "none": "none",
            "sheath": "sheath",
            "spike": "spike",
            "buds": "buds",
            "open": "open",
            "fading": "fading",
            "spent": "spent",
        },
        "flowering",
    ),
    Leaves: Phrases(
        {
            "firm": "firm",
            "yellowing": "yellowing",
            "dropping": "dropping",
            "leafless": "leafless",
            "shrivelled": "shrivelled",
        },
        "leaves",
    ),
    Bulbs: Phrases(
        {"firm": "firm", "wrinkled": "wrinkled", "shrivelled": "badly shrivelled"},
        "pseudobulbs",
    ),
    Pot: Phrases(
        {"wet": "wet", "moist": "moist", "nearly-dry": "nearly dry", "dry": "dry"},
        "pot",
    ),
    Health: Phrases(
        {
            "rot": "rot",
            "no-roots": "no live roots",
            "pests": "pests",
            "salt-burn": "salt burn",
            "virus-suspect": "virus suspect",
        },
        "trouble",
    ),
    Medium: Phrases(
        {
            "bark": "bark",
            "sphagnum": "sphagnum",
            "mineral": "mineral",
            "semi-hydro": "semi-hydro",
            "soil": "soil",
            "none": "none, bare roots",
        },
        "medium",
    ),
    Size: Phrases(
        {
            "seedling": "seedling",
            "near-blooming": "near blooming size",
            "blooming": "blooming size",
        },
        "size",
    ),
    PlaceKind: Phrases(
        {
            "windowsill": "windowsill",
            "balcony": "balcony",
            "shelf": "shelf",
            "greenhouse": "greenhouse",
            "room": "room",
            "garden": "garden",
        },
        "place",
    ),
    Facing: Phrases(
        {
            "north": "north",
            "north-east": "north-east",
            "east": "east",
            "south-east": "south-east",
            "south": "south",
            "south-west": "south-west",
            "west": "west",
            "north-west": "north-west",
            "overhead": "up: open sky or a glass roof",
        },
        "looks to",
    ),
    Glass: Phrases(
        {
            "none": "none, open",
            "single": "one pane",
            "double": "two panes",
            "triple": "three panes",
            "plastic": "plastic",
        },
        "glass",
    ),
    HeldAs: HELD_AS,
    Descent: Phrases(
        {
            "division": "division",
            "back-bulb": "back bulb",
            "keiki": "keiki",
            "seedling": "seedling",
        },
        "taken as",
    ),
}
STAGES: Mapping[str, str] = Phrases(
    {
        "emerging": "emerging",
        "extending": "extending",
        "maturing": "maturing",
        "matured": "matured",
        "stalled": "stalled",
    },
    "new growths",
)


def sign(value: StrEnum) -> str:
    """Give the plain word for one choice of a sign."""
    return _SAID[type(value)][value.value]


def choices(kinds: Sequence[StrEnum]) -> tuple[tuple[StrEnum, str], ...]:
    """Give the choices of a sign with their words, in the order given."""
    return tuple((kind, sign(kind)) for kind in kinds)
