"""Looks: dated inspections of a plant, recorded in seconds and never lost."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.day_words import day_text
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Look
from growdesk.domain.facts_look import COUNT, EC_MS_PER_CM, LEAD_MM, ROOT_MM, SPIKE_MM
from growdesk.domain.speech import tr
from growdesk.services import checking, photo_rows
from growdesk.services.ledger import written
from growdesk.services.plant_rows import get_draft
from growdesk.store.mapping import STAGES, look_of, look_values
from growdesk.store.schema import LookRow, PhotoRow

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session


class Looks:
    """The looks of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def start(self, plant_id: int, on: date) -> Look:
        """Give a look that starts from the last one: its signs, not its measures.

        How wet the pot is, is of the moment too, and starts empty.
        """
        with self._ledger.reading() as session:
            get_draft(session, plant_id)
            row = _last(session, plant_id, on)
        return carried_over(None if row is None else look_of(row), on)

    def last_on(self, plant_id: int, on: date) -> date | None:
        """Give the day of the look that ``start`` takes its signs from."""
        with self._ledger.reading() as session:
            row = _last(session, plant_id, on)
        return None if row is None else look_of(row).on

    def record(
        self, plant_id: int, look: Look, note: str = "", photos: Sequence[Path] = ()
    ) -> Written:
        """Record a look; photos that cannot be read are named, the rest is kept."""
        kept = checked_look(look, self._ledger.today())
        said = checking.text("note", note)
        with self._ledger.reading() as session:
            tag = get_draft(session, plant_id).tag
        taken = photo_rows.take_in(self._ledger.folder, photos, self._ledger.today())
        title = tr("Look at {tag}").format(tag=tag)
        with self._ledger.writing(title) as writing:
            values = {"plant_id": plant_id, **look_values(kept, said)}
            look_id = writing.insert(LookRow, values)
            photo_rows.keep(writing, plant_id, look_id, taken, self._ledger.folder)
        return written(writing, title, (look_id,), taken.problems)

    def change(
        self, look_id: int, look: Look, note: str, photos: Sequence[Path] = ()
    ) -> Written:
        """Change a look that was recorded, and add photos to it, as one action."""
        kept = checked_look(look, self._ledger.today())
        said = checking.text("note", note)
        with self._ledger.reading() as session:
            row = _look(session, look_id)
            plant_id = int(row.plant_id)
            tag = get_draft(session, plant_id).tag
        taken = photo_rows.take_in(self._ledger.folder, photos, self._ledger.today())
        title = tr("Look at {tag} of {day} changed").format(
            tag=tag, day=day_text(row.day, self._ledger.today())
        )
        with self._ledger.writing(title) as writing:
            writing.update(LookRow, look_id, look_values(kept, said))
            photo_rows.keep(writing, plant_id, look_id, taken, self._ledger.folder)
        return written(writing, title, (look_id,), taken.problems)

    def delete(self, look_id: int) -> Written:
        """Delete a look; its photos stay with the plant."""
        with self._ledger.reading() as session:
            row = _look(session, look_id)
            tag = get_draft(session, row.plant_id).tag
        title = tr("Look at {tag} of {day} deleted").format(
            tag=tag, day=day_text(row.day, self._ledger.today())
        )
        with self._ledger.writing(title) as writing:
            photos = writing.session.scalars(
                select(PhotoRow.id).where(PhotoRow.look_id == look_id)
            ).all()
            for photo_id in photos:
                writing.update(PhotoRow, photo_id, {"look_id": None})
            writing.delete(LookRow, look_id)
        return written(writing, title)


def carried_over(last: Look | None, on: date) -> Look:
    """Give the look that starts from the last one: its signs, not its measures."""
    if last is None:
        return Look(on=on)
    return replace(
        last,
        on=on,
        longest_new_root_mm=None,
        lead_length_mm=None,
        pot=None,
        runoff_ec_ms_per_cm=None,
        keiki_root_mm=None,
        spike_mm=None,
    )


def checked_look(look: Look, today: date) -> Look:
    """Give the look as it is kept, or refuse the first slip in it."""
    checking.day_done("on", look.on, today)
    counts = look.new_growths
    if counts is not None:
        checked = {
            stage: checking.whole(stage, getattr(counts, stage), COUNT)
            for stage in STAGES
        }
        counts = replace(counts, **checked)
    return replace(
        look,
        new_growths=counts,
        longest_new_root_mm=checking.number(
            "longest_new_root_mm", look.longest_new_root_mm, ROOT_MM
        ),
        lead_length_mm=checking.number("lead_length_mm", look.lead_length_mm, LEAD_MM),
        runoff_ec_ms_per_cm=checking.number(
            "runoff_ec_ms_per_cm", look.runoff_ec_ms_per_cm, EC_MS_PER_CM
        ),
        keikis=checking.whole("keikis", look.keikis, COUNT),
        keiki_root_mm=checking.number("keiki_root_mm", look.keiki_root_mm, ROOT_MM),
        pods=checking.whole("pods", look.pods, COUNT),
        spike_mm=checking.number("spike_mm", look.spike_mm, SPIKE_MM),
    )


def _last(session: Session, plant_id: int, on: date) -> Any:
    return session.execute(
        select(LookRow.__table__)
        .where(LookRow.plant_id == plant_id, LookRow.day <= on)
        .order_by(LookRow.day.desc(), LookRow.id.desc())
        .limit(1)
    ).one_or_none()


def _look(session: Session, look_id: int) -> Any:
    row = session.execute(
        select(LookRow.__table__).where(LookRow.id == look_id)
    ).one_or_none()
    if row is None:
        hint = tr("It was deleted; undo brings it back.")
        raise InputError("look", look_id, tr("is not there any more"), hint)
    return row
