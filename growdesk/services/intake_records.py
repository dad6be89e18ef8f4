"""Rows of looks, care and blooms as rows of plants that are there.

A row that is on record already, word for word, is not taken twice. Nothing is written
here, and what is there is read once, however many rows come.
"""

from __future__ import annotations

from operator import itemgetter
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Medium
from growdesk.domain.facts_look import EC_MS_PER_CM
from growdesk.domain.speech import tr
from growdesk.services import blooms, care_checks, checking
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_values import CareDraft
from growdesk.services.intake_fields import TABLES, Sort
from growdesk.services.looks import checked_look
from growdesk.services.standing import here
from growdesk.store.mapping import look_of, look_values
from growdesk.store.schema import RECORDED, PlantRow

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from datetime import date

    from growdesk.services.intake_reading import Given
    from growdesk.store.session import Session

Row = dict[str, Any]


class RecordTaking:
    """The rows of one sort taken so far."""

    def __init__(self, session: Session, today: date, sort: Sort) -> None:
        self._today = today
        self._sort = sort
        self.table = RECORDED[TABLES[sort]]
        self._plants: dict[str, int] = {
            row.tag.casefold(): row.id
            for row in session.execute(select(PlantRow.id, PlantRow.tag).where(here()))
        }
        self._names = [
            column.name
            for column in self.table.__table__.columns
            if column.name != "id"
        ]
        self._in_order = itemgetter(*self._names)
        columns = [self.table.__table__.columns[name] for name in self._names]
        self._seen = {tuple(row) for row in session.execute(select(*columns))}
        self._poured: dict[tuple[int, date], int] = {}
        if sort is Sort.CARE:
            there = (dict(zip(self._names, row, strict=True)) for row in self._seen)
            self._poured = {
                (row["plant_id"], row["day"]): 0
                for row in there
                if row["what"] in care_checks.POURED
            }
        self.rows: list[Row] = []
        self.same = 0

    def take(self, number: int, given: Given) -> None:
        """Check one row; raise ``InputError`` for a bad one."""
        tag = checking.needed_text(
            "tag", given.get("tag", ""), tr("Say of which plant it is.")
        )
        plant_id = self._plants.get(tag.casefold())
        if plant_id is None:
            hint = tr("Mend the tag, or take the plants in first.")
            raise InputError("tag", tag, tr("is no plant of the collection"), hint)
        if "on" not in given and self._sort is not Sort.BLOOMS:
            raise InputError("on", "", tr("is empty"), tr("Give the day."))
        row = {"plant_id": plant_id, **_ROWS[self._sort](given, self._today)}
        kept = self._in_order(row)
        if kept in self._seen:
            self.same += 1
            return
        self._refuse_second_watering(number, row)
        self._seen.add(kept)
        self.rows.append(row)

    def _refuse_second_watering(self, number: int, row: Row) -> None:
        if self._sort is not Sort.CARE or row["what"] not in care_checks.POURED:
            return
        key = (row["plant_id"], row["day"])
        if key in self._poured:
            other = self._poured[key]
            where = (
                tr("row {other} has one").format(other=other)
                if other
                else tr("one is on record")
            )
            hint = tr("A plant is watered or fed once a day: take one of them out.")
            problem = tr("is a second watering of that day: {where}").format(
                where=where
            )
            raise InputError("on", row["day"].isoformat(), problem, hint)
        self._poured[key] = number


def _look(given: Given, today: date) -> Row:
    blank = dict.fromkeys(_LOOK)
    row = SimpleNamespace(**{**blank, **given, "day": given["on"]})
    look = checked_look(look_of(row), today)
    return look_values(look, checking.text("note", given.get("note", "")))


def _care(given: Given, today: date) -> Row:
    if "what" not in given:
        raise InputError("what", "", tr("is empty"), tr("Say what was done."))
    fields = {key: value for key, value in given.items() if key in _CARE}
    medium = given.get("medium")
    draft = CareDraft(
        on=given["on"],
        what=CareKind(given["what"]),
        medium=None if medium is None else Medium(medium),
        **fields,
    )
    kept = care_checks.checked(draft, today)
    ec = checking.number("ec_ms_per_cm", given.get("ec_ms_per_cm"), EC_MS_PER_CM)
    return {
        **{name: getattr(kept, name) for name in (*_CARE, "medium")},
        "day": kept.on,
        "what": kept.what.value,
        "ec_ms_per_cm": ec,
    }


def _bloom(given: Given, today: date) -> Row:
    fields = {key: value for key, value in given.items() if key != "tag"}
    kept = blooms.checked(BloomDraft(**fields), today)
    return {name: getattr(kept, name) for name in _BLOOM}


_LOOK = [column.name for column in RECORDED["look"].__table__.columns]
_CARE = (
    *("strength_ppm_n", "volume_l", "note", "product", "repeat_on", "rain_mm"),
    *("pot_volume_l", "from_place", "to_place"),
)
_BLOOM = (
    *("spike_seen_on", "first_open_on", "last_faded_on", "flowers", "spikes"),
    *("size_mm", "note", "award"),
)
_ROWS: Mapping[Sort, Callable[[Given, date], Row]] = {
    Sort.LOOKS: _look,
    Sort.CARE: _care,
    Sort.BLOOMS: _bloom,
}
