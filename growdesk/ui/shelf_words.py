"""Say tins and waters in words, the same in the mixing pane and in their dialogs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from growdesk.services.values import TinView, WaterView

_IN_USE = mark(", in use")


def water_words(view: WaterView) -> str:
    """Give a water by its name, else its kind, with its EC where it is known."""
    kind = view.draft.kind
    word = view.draft.name or (kind if kind == "RO" else kind.capitalize())
    if view.draft.ec_ms_per_cm is None:
        return word
    return f"{word}, {words.number(view.draft.ec_ms_per_cm)} mS/cm"


def with_use(text: str, view: TinView | WaterView) -> str:
    """Give the words of a tin or water, marked where it is the one in use."""
    return f"{text}{tr(_IN_USE) if view.draft.in_use else ''}"
