"""Say the history of changes and the bin as rows: days, times, whom and what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import fixed, mark, tr, trn
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.bin_values import BinEntry, BinView
    from growdesk.services.history_values import PastAction

HOW = mark(
    "Undo goes back in order: with an action, all that was done after it is undone"
    " too. It can be done again until something new is written; then what was undone"
    " is forgotten."
)
NOTHING = mark("Nothing has been done here yet, or nothing that is looked for.")
BIN_HOW = mark(
    "Plants and records lie here until the bin is emptied. Tins, waters and recipes"
    " stay, since what was given names them."
)
BIN_NOTHING = mark("The bin is empty.")
_TAGS_NAMED = 4
_MB = 1e6


class HistoryRow(Struct, frozen=True):
    """A row of the history: a heading, or an action with its time and plants."""

    heading: str = ""
    action: PastAction | None = None
    time: str = ""
    whom: str = ""


def is_of_several(actions: Sequence[PastAction]) -> bool:
    """Say whether these were done from more than one account of the computer."""
    return len({each.who for each in actions if each.who}) > 1


def rows_of(actions: Sequence[PastAction]) -> list[HistoryRow]:
    """Give actions under the days they were done on, and where one stands now."""
    rows: list[HistoryRow] = []
    day, was_kept = "", True
    undone = [n for n, each in enumerate(actions) if each.undone and not each.is_note]
    stands = undone[-1] + 1 if undone else 0
    for number, each in enumerate(actions):
        if number == stands and number:
            rows.append(HistoryRow(tr("You stand here; what is above is undone")))
            day = ""
        if was_kept and not each.is_kept and not each.is_note:
            was_kept = False
            rows.append(
                HistoryRow(tr("Before the bin was emptied: it cannot be undone"))
            )
            day = ""
        at = each.at.astimezone()
        said = words.short_day(at.date())
        if said != day:
            day = said
            rows.append(HistoryRow(day))
        rows.append(HistoryRow("", each, f"{at:%H:%M}", tags_text(each.tags)))
    return rows


def row_to_choose(rows: Sequence[HistoryRow], before: PastAction | None) -> int:
    """Give the row that was chosen before, else the newest that is done, else any."""
    actions = {n: row.action for n, row in enumerate(rows) if row.action is not None}
    wanted = None if before is None else before.action_id
    same = [n for n, each in actions.items() if each.action_id == wanted]
    done = [n for n, each in actions.items() if not each.undone and not each.is_note]
    return next(iter((*same, *done, *actions)), 0)


def tags_text(tags: Sequence[str]) -> str:
    """Name the first plants by their tags, and count the rest."""
    named = ", ".join(tags[:_TAGS_NAMED])
    more = len(tags) - _TAGS_NAMED
    if more <= 0:
        return named
    return trn("{tags} and {count} more", "{tags} and {count} more", more).format(
        tags=named, count=more
    )


def step_text(action: PastAction | None) -> str:
    """Say what the button does for an action."""
    if action is None or action.is_note:
        return tr("Undo")
    if action.undone:
        return trn("Do this again", "Do {count} again", action.steps).format(
            count=action.steps
        )
    return trn("Undo this", "Undo this and {count} after it", action.steps).format(
        count=action.steps - 1
    )


def bin_row(entry: BinEntry) -> tuple[str, str, str]:
    """Give a row of the bin: when, what, and what it has or is of."""
    beside = tags_text(entry.tags)
    if entry.key.sort.value == "plant":
        beside = trn("{count} record", "{count} records", entry.count).format(
            count=entry.count
        )
    return words.short_day(entry.removed_on), entry.title, beside


def what_goes(view: BinView) -> str:
    """Name what emptying the bin takes, as ``3 plants, 12 records``."""
    parts = []
    if view.plants:
        parts.append(
            trn("{count} plant", "{count} plants", view.plants).format(
                count=view.plants
            )
        )
    if view.records:
        parts.append(
            trn("{count} record", "{count} records", view.records).format(
                count=view.records
            )
        )
    if view.photos:
        parts.append(
            trn("{count} photo file", "{count} photo files", view.photos).format(
                count=view.photos
            )
        )
    return ", ".join(parts)


def empty_button(view: BinView) -> str:
    """Name what the one button that cannot be undone does."""
    if view.plants:
        return trn(
            "Empty the bin of {count} plant",
            "Empty the bin of {count} plants",
            view.plants,
        ).format(count=view.plants)
    if view.records:
        return trn(
            "Empty the bin of {count} record",
            "Empty the bin of {count} records",
            view.records,
        ).format(count=view.records)
    return trn(
        "Empty the bin of {count} photo file",
        "Empty the bin of {count} photo files",
        view.photos,
    ).format(count=view.photos)


def room_text(view: BinView) -> str:
    """Say how much room the photos of the bin take."""
    return tr("Its photos take {size} MB.").format(
        size=fixed(view.photo_bytes / _MB, 1)
    )


def _room_later(view: BinView) -> str:
    """Say how much room the photos take, and when it comes free."""
    later = tr("That room comes free when no backup holds them any more.")
    return f"{room_text(view)} {later}"


def empty_text(view: BinView, folder: str) -> str:
    """Say what emptying takes, what stays, and what can not be undone after it."""
    lines = [
        tr("These go for good: {what}.").format(what=what_goes(view)),
        _room_later(view) if view.photos else "",
        tr(
            "It cannot be undone. Nor can what was done up to the last removal: the"
            " history keeps its lines, without the way back."
        ),
        tr(
            "What stands on the shelf stays as counted. A backup with everything in it"
            " is made first, in {folder}."
        ).format(folder=folder),
    ]
    return "\n\n".join(filter(None, lines))
