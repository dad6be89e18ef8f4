"""Lay what the demo keeps beside its plants: views, and what tonight brings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.roster_values import ViewDraft
from growdesk.services.view_form import text_of
from growdesk.store.schema import ForecastRow, SavedViewRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.demo_values import Demo
    from growdesk.store.journal import Writing


def lay_views(writing: Writing, demo: Demo) -> None:
    """Write the views of the collection's table."""
    rows = []
    for view in demo.views:
        draft = ViewDraft(
            view["name"], columns=tuple(view["columns"]), order=view["order"]
        )
        rows.append({"name": draft.name, "what": text_of(draft)})
    writing.insert_many(SavedViewRow, rows)


def lay_tonight(writing: Writing, demo: Demo, places: dict[str, int], on: date) -> None:
    """Write the night to come, so much colder than the last that was read."""
    lows = {
        place.draft.name: reading.low_c
        for place in demo.places
        for reading in place.readings
        if reading.low_c is not None
    }
    rows = [
        {
            "place_id": places[night["place"]],
            "day": on,
            "low_c": round(lows[night["place"]] - night["colder_c"], 1),
            "high_c": None,
        }
        for night in demo.tonight
    ]
    writing.insert_many(ForecastRow, rows)
