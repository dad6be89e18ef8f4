"""What becomes of a value that the history has otherwise, and how it is told."""

from __future__ import annotations

from typing import Any

from growdesk.services import rescue_words
from growdesk.services.entry_words import Owners
from growdesk.services.rescue_rows import Became, Known, Note, decided
from growdesk.store.accounts import Told
from growdesk.store.schema import RECORDED

TABLE = RECORDED["look"].metadata.tables["look"]


def became(*, told: dict[str, Any], is_sure: bool) -> tuple[object, list[Note]]:
    """Give the length that stands afterwards, and what is told."""
    row = {"id": 1, "plant_id": 2, "day": "2026-05-20", "lead_length_mm": 24.0}
    account = Told(1, is_there=True, values=told)
    values, notes = decided(Known(TABLE, 1, row, account, is_sure))
    return (values or {})["lead_length_mm"], notes


def test_where_the_history_is_not_sure_both_are_told_and_what_stood_is_kept() -> None:
    stands, (note,) = became(told={"lead_length_mm": 25.0}, is_sure=False)
    assert stands == 24.0
    assert (note.became, note.stood, note.now) == (Became.DOUBTFUL, 24.0, 25.0)
    (line,) = rescue_words.lines([note], Owners({2: "A1"}, {}))
    assert line == (
        "Plant A1, look of 20 May 2026, lead length: 24 mm is kept as it stood; the"
        " history, which is not whole, has 25 mm. Look which is right."
    )


def test_where_it_is_sure_it_is_followed() -> None:
    stands, (note,) = became(told={"lead_length_mm": 25.0}, is_sure=True)
    assert (stands, note.became) == (25.0, Became.SET_BACK)


def test_what_agrees_or_is_not_said_is_not_told() -> None:
    for told in ({"lead_length_mm": 24.0}, {"lead_length_mm": None}, {}):
        assert became(told=told, is_sure=False) == (24.0, [])
