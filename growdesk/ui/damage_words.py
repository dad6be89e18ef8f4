"""Say what a look through a collection, or a rescue, found, as a dialog shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import tr, trn
from growdesk.services.check_values import Sort
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.services.backup_values import KeptBackup
    from growdesk.services.check_values import Damage, FullCheck
    from growdesk.services.rescue_values import Rescued


def check_heads(found: FullCheck) -> tuple[str, ...]:
    """Give the sentences above the list of a check."""
    if not found.damage:
        return (
            tr(
                "All is whole. Plants: {plants}, photos: {photos}, entries: {entries},"
                " changes of the history they were held against: {changes}."
            ).format(
                plants=found.plants,
                photos=found.photos,
                entries=found.entries,
                changes=found.changes,
            ),
        )
    count = len(found.damage)
    heads = [
        trn(
            "{count} thing is damaged. Nothing was changed.",
            "{count} things are damaged. Nothing was changed.",
            count,
        ).format(count=count)
    ]
    if found.mendable:
        heads.append(
            trn(
                "{count} of them can be set back as the history has it; undo takes that"
                " back.",
                "{count} of them can be set back as the history has it; undo takes that"
                " back.",
                len(found.mendable),
            ).format(count=len(found.mendable))
        )
    if any(each.sort is Sort.FILE for each in found.damage):
        heads.append(
            tr(
                "The file itself is damaged: bring a backup back, or save what can be"
                " read into a new collection."
            )
        )
    kept = len(found.photos_kept)
    if kept:
        heads.append(
            trn(
                "{count} photo lies whole in a backup and can be put back.",
                "{count} photos lie whole in a backup and can be put back.",
                kept,
            ).format(count=kept)
        )
    if sum(each.sort is Sort.PHOTO for each in found.damage) > kept:
        heads.append(
            tr("A photo that no backup here has may still lie in one elsewhere.")
        )
    return tuple(heads)


def check_text(damage: Iterable[Damage]) -> str:
    """Give what is damaged, plant by plant."""
    groups: dict[str, list[str]] = {}
    for each in damage:
        groups.setdefault(each.whose, []).append(each.sentence)
    return "\n\n".join("\n".join([whose, *said]) for whose, said in groups.items())


def rescue_heads(made: Rescued) -> tuple[str, ...]:
    """Give the sentences above the list of a rescue."""
    heads = [
        tr("Saved: entries {entries}, photos {photos}.").format(
            entries=made.entries, photos=made.photos
        )
    ]
    if made.lost or made.photos_lost:
        heads.append(
            tr("Known to be lost: entries {entries}, photos {photos}.").format(
                entries=made.lost, photos=made.photos_lost
            )
        )
    elif not made.lines:
        heads.append(tr("Nothing is known to be lost."))
    if not made.keeps_history:
        heads.append(tr("Some of the older changes can no longer be undone."))
    if made.set_aside is not None:
        heads.append(
            tr("The damaged collection is kept as it was in {folder}.").format(
                folder=made.set_aside
            )
        )
    return tuple(heads)


def backup_line(backup: KeptBackup | None) -> str:
    """Say which backup could be brought back, and what is not in it."""
    if backup is None:
        return tr("There is no whole backup beside this collection.")
    at = backup.made_at.astimezone()
    return tr(
        "The newest whole backup is of {day} at {time} (plants: {plants}, photos:"
        " {photos}). What was entered after that is not in it."
    ).format(
        day=words.short_day(at.date()),
        time=at.strftime("%H:%M"),
        plants=backup.plants,
        photos=backup.photos,
    )
