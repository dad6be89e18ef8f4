"""What was read at a place, day by day: temperatures, light at the leaf, humidity.

One reading a day and place. What is written for a day that has one already joins it:
temperatures take the place of temperatures, light of light, humidity of humidity.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts_plant import (
    HUMIDITY_PERCENT,
    LIGHT_MOL_PER_M2_D,
    TEMPERATURE_C,
)
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import tr
from growdesk.services import checking
from growdesk.services.ledger import written
from growdesk.services.named_rows import GONE, name_of
from growdesk.services.values import ReadingView
from growdesk.store.mapping import reading_of
from growdesk.store.schema import PlaceRow, ReadingRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.facts import Reading
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session

TEMPERATURES = ("mean_c", "low_c", "high_c")
_OTHERS = ("light_mol_per_m2_d", "humidity_percent")


class PlaceReadings:
    """The readings of the places of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def of_place(self, place_id: int) -> tuple[ReadingView, ...]:
        """Give the readings of a place, newest first."""
        with self._ledger.reading() as session:
            rows = session.execute(
                select(ReadingRow.__table__)
                .where(ReadingRow.place_id == place_id)
                .order_by(ReadingRow.day.desc())
            ).all()
        return tuple(ReadingView(row.id, reading_of(row)) for row in rows)

    def write(self, place_id: int, reading: Reading) -> Written:
        """Write down what was read on a day; it joins what the day has already."""
        kept = checked_reading(reading, self._ledger.today())
        with self._ledger.reading() as session:
            name = name_of(session, PlaceRow, place_id, "place")
        title = tr("Readings of {name} on {isoformat}").format(
            name=name, isoformat=kept.on.isoformat()
        )
        with self._ledger.writing(title) as writing:
            there = _on_day(writing.session, place_id, kept.on)
            if there is None:
                values = {"place_id": place_id, **_values(kept)}
                reading_id = writing.insert(ReadingRow, values)
            else:
                reading_id = there.id
                joined = checked_reading(
                    _joined(reading_of(there), kept), self._ledger.today()
                )
                writing.update(ReadingRow, reading_id, _values(joined))
        return written(writing, title, (reading_id,))

    def change(self, reading_id: int, reading: Reading) -> Written:
        """Put a reading right; what is left empty is no longer recorded."""
        kept = checked_reading(reading, self._ledger.today())
        with self._ledger.reading() as session:
            row = _reading(session, reading_id)
            name = name_of(session, PlaceRow, row.place_id, "place")
        title = tr("Readings of {name} on {isoformat} corrected").format(
            name=name, isoformat=kept.on.isoformat()
        )
        with self._ledger.writing(title) as writing:
            other = _on_day(writing.session, row.place_id, kept.on)
            if other is not None and other.id != reading_id:
                hint = tr("Correct that day's readings, or remove them first.")
                raise InputError("on", kept.on, tr("has readings already"), hint)
            writing.update(ReadingRow, reading_id, _values(kept))
        return written(writing, title, (reading_id,))

    def remove(self, reading_ids: Sequence[int]) -> Written:
        """Remove readings of one place."""
        if not reading_ids:
            hint = tr("Choose the readings first.")
            raise InputError("reading", tr("nothing"), tr("is chosen"), hint)
        with self._ledger.reading() as session:
            rows = [_reading(session, each) for each in reading_ids]
            name = name_of(session, PlaceRow, rows[0].place_id, "place")
        title = tr("Readings of {name} on {isoformat} removed").format(
            name=name, isoformat=rows[0].day.isoformat()
        )
        if len(rows) > 1:
            title = tr("{count} days of readings of {name} removed").format(
                count=len(rows), name=name
            )
        with self._ledger.writing(title) as writing:
            for row in rows:
                writing.delete(ReadingRow, row.id)
        return written(writing, title)


def checked_reading(reading: Reading, today: date) -> Reading:
    """Give the reading as it is kept, or refuse the first slip in it."""
    checking.day_done("on", reading.on, today)
    for field in TEMPERATURES:
        checking.number(field, getattr(reading, field), TEMPERATURE_C)
    checking.number(
        "light_mol_per_m2_d", reading.light_mol_per_m2_d, LIGHT_MOL_PER_M2_D
    )
    checking.number("humidity_percent", reading.humidity_percent, HUMIDITY_PERCENT)
    if all(getattr(reading, field) is None for field in (*TEMPERATURES, *_OTHERS)):
        hint = tr("Give a temperature, the day's light or the humidity.")
        raise InputError("mean_c", tr("nothing"), tr("was read"), hint)
    low_c, high_c = reading.low_c, reading.high_c
    if low_c is not None and high_c is not None and low_c > high_c:
        hint = tr("Give a low that is at most the high of {high}.").format(
            high=temperature_text(high_c)
        )
        raise InputError("low_c", low_c, tr("is above the high"), hint)
    return reading


def _joined(there: Reading, given: Reading) -> Reading:
    """Give a day's reading with what was given now in place of what it had."""
    changes = {
        field: getattr(given, field)
        for field in _OTHERS
        if getattr(given, field) is not None
    }
    temperatures = {field: getattr(given, field) for field in TEMPERATURES}
    if any(value is not None for value in temperatures.values()):
        changes |= temperatures
    return replace(there, **changes)


def _values(reading: Reading) -> dict[str, object]:
    fields = (*TEMPERATURES, *_OTHERS)
    return {"day": reading.on, **{field: getattr(reading, field) for field in fields}}


def _on_day(session: Session, place_id: int, on: date) -> Any:
    return session.execute(
        select(ReadingRow.__table__).where(
            ReadingRow.place_id == place_id, ReadingRow.day == on
        )
    ).one_or_none()


def _reading(session: Session, reading_id: int) -> Any:
    row = session.execute(
        select(ReadingRow.__table__).where(ReadingRow.id == reading_id)
    ).one_or_none()
    if row is None:
        hint = tr(GONE)
        raise InputError("reading", reading_id, tr("is not there any more"), hint)
    return row
