"""Say tins and waters in words, the same in the mixing pane and in their dialogs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import Phrases, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from growdesk.services.values import TinView, WaterView

_KINDS = Phrases(
    {
        "tap": "Tap",
        "rain": "Rain",
        "RO": "RO",
        "blend": "Blend",
    },
    "water",
)


def water_words(view: WaterView) -> str:
    """Give a water by its name, else its kind, with its EC where it is known."""
    kind = view.draft.kind
    word = view.draft.name or _KINDS.get(kind, kind.capitalize())
    if view.draft.ec_ms_per_cm is None:
        return word
    return f"{word}, {words.number(view.draft.ec_ms_per_cm)} mS/cm"


def with_use(text: str, view: TinView | WaterView) -> str:
    """Give the words of a tin or water, marked where it is the one in use."""
    return tr("{name}, in use").format(name=text) if view.draft.in_use else text
