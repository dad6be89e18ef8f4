"""Say what a look through a collection, or a rescue, found, as a dialog shows it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.phrases import listed
from growdesk.domain.speech import tr, trn
from growdesk.services.check_values import Sort
from growdesk.services.entry_words import large
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.services.backup_values import KeptBackup
    from growdesk.services.check_values import Damage, FullCheck
    from growdesk.services.rescue_values import Rescued


def check_heads(found: FullCheck) -> tuple[str, ...]:
    """Give the sentences above the list of a check."""
    if not found.damage:
        whole = tr("All is whole: {what}.").format(
            what=listed(
                [_plants(found.plants), _photos(found.photos), _entries(found.entries)]
            )
        )
        held = trn(
            "The entries were held against the history, {count} change.",
            "The entries were held against the history, {count} changes.",
            found.changes,
        ).format(count=found.changes)
        return (whole, held) if found.changes else (whole,)
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
        said = each.sentence.removeprefix(f"{each.whose}, ")
        groups.setdefault(each.whose, []).append(large(said))
    return "\n\n".join("\n".join([whose, *said]) for whose, said in groups.items())


def rescue_heads(made: Rescued) -> tuple[str, ...]:
    """Give the sentences above the list of a rescue."""
    heads = [
        tr("Saved: {what}.").format(
            what=listed([_entries(made.entries), _photos(made.photos)])
        )
    ]
    if made.lost or made.photos_lost:
        heads.append(
            tr("Known to be lost: {what}.").format(
                what=listed(
                    [
                        *([_entries(made.lost)] if made.lost else ()),
                        *([_photos(made.photos_lost)] if made.photos_lost else ()),
                    ]
                )
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
        "The newest whole backup is of {day} at {time}: {plants}, {photos}. What was"
        " entered after that is not in it."
    ).format(
        day=words.short_day(at.date()),
        time=at.strftime("%H:%M"),
        plants=_plants(backup.plants),
        photos=_photos(backup.photos),
    )


def _plants(count: int) -> str:
    return trn("{count} plant", "{count} plants", count).format(count=count)


def _photos(count: int) -> str:
    return trn("{count} photo", "{count} photos", count).format(count=count)


def _entries(count: int) -> str:
    return trn("{count} entry", "{count} entries", count).format(count=count)
