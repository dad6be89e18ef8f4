"""A cold night or a hot day in words: what to do with a plant, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.night import Shelter, Threat
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import Phrases, mark

if TYPE_CHECKING:
    from growdesk.domain.night import Warned

DO = Phrases(
    {
        (Threat.COLD, Shelter.FROM_GLASS): "Take it off the glass for the night.",
        (Threat.COLD, Shelter.ELSEWHERE): "Take it somewhere warmer for the night.",
        (Threat.HEAT, Shelter.FROM_GLASS): "Take it off the glass, into the shade.",
        (
            Threat.HEAT,
            Shelter.ELSEWHERE,
        ): "Take it somewhere cooler, or shade and air it.",
    }
)
WHY = Phrases(
    {
        Threat.COLD: "About {expected} where it stands; its kind is left at {limit} "
        "or more.",
        Threat.HEAT: "About {expected} where it stands; its kind is left at {limit} "
        "or less.",
    }
)
KEEP_DRY = mark("Do not water late before a cold night: wet plants chill first.")


def what_to_do(warned: Warned) -> str:
    """Say what to do with a plant."""
    return DO[warned.threat, warned.shelter]


def why(warned: Warned) -> str:
    """Say what it would have, and what its kind stands."""
    return WHY[warned.threat].format(
        expected=temperature_text(warned.expected_c),
        limit=temperature_text(warned.limit_c),
    )
