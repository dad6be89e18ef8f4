"""The place of a saved view, by its name in an export and by its number in a file."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from growdesk.domain.json_text import decoded

if TYPE_CHECKING:
    from collections.abc import Callable


def by_name(text: str, name_of: Callable[[int], str]) -> str:
    """Give a view with the name of its place; of a place that is gone, with none."""
    view = _view(text)
    place = view.get("place")
    if isinstance(place, bool) or not isinstance(place, int):
        return text
    return _text({**view, "place": name_of(place) or None})


def by_number(text: str, number_of: Callable[[str], int]) -> str:
    """Give a view with the number of the place that it names."""
    view = _view(text)
    place = view.get("place")
    if not isinstance(place, str):
        return text
    return _text({**view, "place": number_of(place)})


def _view(text: str) -> dict[str, object]:
    try:
        found = decoded(text)
    except ValueError:
        return {}
    return found if isinstance(found, dict) else {}


def _text(view: dict[str, object]) -> str:
    return json.dumps(view, ensure_ascii=False)
