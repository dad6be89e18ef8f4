"""Say what became of a plant that is not in the collection any more."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.day_words import dated_text
from growdesk.domain.holding import Status
from growdesk.domain.speech import Phrases, tr

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

WORDS: Final[Mapping[Status, str]] = Phrases(
    {
        Status.GIVEN_AWAY: "given away",
        Status.SOLD: "sold",
        Status.LOST: "lost",
    }
)

OF_PLANTS: Final[Mapping[Status, str]] = Phrases(
    {
        Status.GIVEN_AWAY: "{whom} given away",
        Status.SOLD: "{whom} sold",
        Status.LOST: "{whom} lost",
    }
)


def when(status: Status, on: date | None) -> str:
    """Give what became of it and when, as ``given away on 3 May 2026``."""
    if on is None:
        return tr("{words}, on a day that is not recorded").format(words=WORDS[status])
    return tr("{words} on {dated}").format(words=WORDS[status], dated=dated_text(on))


def last_word(status: Status, on: date | None, why: str) -> str:
    """Give the sentence that stands in place of a verdict; nothing while it grows."""
    if status is Status.GROWING:
        return ""
    told = when(status, on)
    said = f"{told[0].upper()}{told[1:]}"
    return f"{said}: {why}" if why else f"{said}."
