"""Empty the bin: the one thing that undo does not bring back.

A backup is kept first; then rows, the journal's images of them and photo files go. The
room of photos comes free when the last backup that holds them does.
"""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from growdesk.domain.errors import BusyError, GoneError, InputError
from growdesk.domain.speech import tr
from growdesk.domain.stocktaking import Sort, What
from growdesk.services import backups, stock_record
from growdesk.services.backup_values import Why
from growdesk.services.bin_values import Emptied
from growdesk.services.long_work import quietly
from growdesk.services.photo_files import photo_files_without
from growdesk.services.values import Changed, Written
from growdesk.store import removed
from growdesk.store.journal import note
from growdesk.store.photos import thumbnail_path
from growdesk.store.schema import PlantRow, ShelfEntryRow

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from growdesk.domain.stocktaking import Good
    from growdesk.services.collection import Collection
    from growdesk.services.ledger import Ledger
    from growdesk.services.long_work import Step
    from growdesk.store.session import Session

_ALL_BUT_NOTHING = 1e-9


def empty(collection: Collection, step: Step = quietly) -> Emptied:
    """Let all plants and records in the bin go for good, after a backup.

    What stands on the shelf stays as counted, whatever the plants took of it. A stop
    while the backup is made changes nothing; ``step`` is told of that alone. Raises
    InputError where something more was removed meanwhile, which the backup may lack.
    """
    if not collection.bin.view().can_empty:
        hint = tr("There is nothing to let go.")
        raise InputError("bin", "", tr("is empty"), hint)
    ledger = collection.ledger
    with ledger.reading() as session:
        before = removed.standing(session)
    now = collection.clock.now()
    backup = backups.make(ledger.where, Why.BEFORE_EMPTYING, now, step).folder
    with ledger.store.unrecorded() as session:
        if removed.standing(session) != before:
            hint = tr("Nothing was let go: empty it again.")
            problem = tr("was filled further while its backup was made")
            raise InputError("bin", "", problem, hint)
        binned = select(PlantRow.id).where(PlantRow.binned_on.is_not(None))
        plants = list(session.scalars(binned))
        named = removed.photos_in_journal(session) | removed.photos_named(session)
        counted = _on_hand(session, ledger.today())
        removed.forget(session, removed.hanging_on(session, plants))
        _count_again(session, counted, ledger.today())
        stamp = ledger.store.stamp(ledger.clock.now())
        note(session, tr("Bin emptied"), stamp)
    photos, freed = 0, 0
    with suppress(BusyError, GoneError):
        photos, freed = _delete_photos(ledger, named)
        ledger.store.compact()
    title = tr("The bin is empty; a backup of before is {file}").format(file=backup)
    return Emptied(Written(_TOUCHED, title, undoable=False), backup, photos, freed)


_TOUCHED = (
    Changed.PLANTS
    | Changed.LOOKS
    | Changed.CARE
    | Changed.PHOTOS
    | Changed.SHELF
    | Changed.JOBS
)


def _delete_photos(ledger: Ledger, named: set[str]) -> tuple[int, int]:
    """Delete the files of photos that nothing names, in a turn to write of its own.

    Whoever takes such a photo in again names it in a later turn, and looks then
    whether its file is still there.
    """
    folder, is_shared = ledger.folder, ledger.store.file is None
    with ledger.store.unrecorded() as session:
        kept = removed.photos_named(session) | removed.photos_in_journal(session)
        going = photo_files_without(folder, kept, named, is_shared=is_shared)
        return _delete(folder, going)


def _delete(folder: Path, files: list[Path]) -> tuple[int, int]:
    """Delete files with their thumbnails; give how many, and their bytes."""
    gone, freed = 0, 0
    for file in files:
        thumbnail = thumbnail_path(folder, file.stem)
        beside = thumbnail.with_name(f"{file.stem}-full.jpg")
        with suppress(OSError):
            size = file.stat().st_size
            for each in (thumbnail, beside, file):
                each.unlink(missing_ok=True)
            gone, freed = gone + 1, freed + size
    return gone, freed


def _on_hand(session: Session, today: date) -> dict[Good, float]:
    record = stock_record.read_whole_record(session)
    hands = {good: record.on_hand(good, today) for good in record.entries}
    return {good: hand.amount for good, hand in hands.items() if hand is not None}


def _count_again(session: Session, before: dict[Good, float], today: date) -> None:
    """Write as counted what would else rise with the records of what was taken."""
    after = _on_hand(session, today)
    rows = [
        {
            "tin_id": good.key if good.sort is Sort.TIN else None,
            "stock_id": good.key if good.sort is Sort.STOCK else None,
            "water_id": good.key if good.sort is Sort.WATER else None,
            "day": today,
            "what": What.COUNTED.value,
            "amount": max(amount, 0.0),
            "after_round": True,
            "note": tr("As it stood when the bin was emptied."),
        }
        for good, amount in before.items()
        if abs(after.get(good, 0.0) - amount) > _ALL_BUT_NOTHING
    ]
    if rows:
        session.execute(insert(ShelfEntryRow), rows)
