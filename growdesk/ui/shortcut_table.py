"""Give every key of the program in groups, a watering day first, for sheet and screen.

Built from the commands of ``actions`` and the keys of ``widget_keys``; nothing is typed
a second time, so that the sheet is as complete as they are.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtGui import QKeySequence

from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui import actions
from growdesk.ui.widget_keys import HELD

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.ui.actions import Command

TITLE = mark("Keyboard shortcuts")
DAY = (
    "looks-first",
    "look",
    "walk",
    "to-mixing",
    "preview-sheet",
    "print-sheet",
    "save-sheet",
    "tick",
    "pass-by",
    "give",
    "undo",
    "redo",
    "day-summary",
    "next-day",
)
"""The commands of a watering day in the order in which they are wanted."""
FIRST = mark("A watering day, from first to last")
_MENUS = ("day", "view", "plant", "edit", "collection", "shelf", "file", "help")
_WHERE = Phrases(
    {
        actions.Scope.WINDOW: "{command}",
        actions.Scope.LIST: "{command} (in the list)",
        actions.Scope.COLLECTION: "{command} (in the collection)",
    }
)


class Row(Struct, frozen=True):
    """What keys do, in words; several ways to the same end are one row."""

    keys: tuple[str, ...]
    text: str

    @property
    def shown(self) -> str:
        """Give the keys as they are read."""
        return "  ".join(self.keys)


class Group(Struct, frozen=True):
    """Rows under a title."""

    title: str
    rows: tuple[Row, ...]


def groups() -> tuple[Group, ...]:
    """Give all keys: the watering day, the menus, then the parts of the window."""
    declared = {command.key: command for command in actions.declared()}
    found = [_group(tr(FIRST), (declared[key] for key in DAY))]
    for menu in _MENUS:
        rest = (c for c in declared.values() if c.menu == menu and c.key not in DAY)
        found.append(_group(plain_text(actions.MENUS[menu]), rest))
    for held in HELD:
        rows = tuple(Row((tr(keys),), tr(text)) for keys, text in held.rows)
        found.append(Group(tr(held.title), rows))
    return tuple(found)


def found_in(all_groups: Iterable[Group], typed: str) -> tuple[Group, ...]:
    """Give the groups with the rows that have every word typed, by text or key."""
    words = typed.casefold().split()
    kept = []
    for group in all_groups:
        rows = tuple(
            row
            for row in group.rows
            if all(
                word in f"{group.title} {row.text} {row.shown}".casefold()
                for word in words
            )
        )
        if rows:
            kept.append(Group(group.title, rows))
    return tuple(kept)


def plain_text(text: str) -> str:
    """Give a menu's text, said, as it is read: no letter marked, no dots."""
    return text.replace("&", "").rstrip("…")


def _group(title: str, commands: Iterable[Command]) -> Group:
    return Group(title, tuple(_row(command) for command in commands))


def _row(command: Command) -> Row:
    native = QKeySequence.SequenceFormat.NativeText
    keys = tuple(key.toString(native) for key in actions.first_keys(command))
    text = _WHERE[command.scope].format(command=plain_text(tr(command.text)))
    return Row(keys, text)
