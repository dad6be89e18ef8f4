"""Declare every command once: key, words, shortcuts, menu, and where it holds.

Menus, shortcuts, the context menu and the help page read this table. What a command
does is connected in the window by its key.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence

from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

Key = QKeySequence.StandardKey | str


class Scope(StrEnum):
    """Where a shortcut holds: anywhere in the window, or in a table of plants.

    Those of the day's list hold in the collection's table too.
    """

    WINDOW = "window"
    LIST = "list"
    COLLECTION = "collection"


@dataclass(frozen=True, slots=True)
class Command:
    """One command. ``keys`` are tried in order; empty ones of a platform fall out.

    ``needs_today`` is for what cannot be done on a day that is still to come.
    """

    key: str
    menu: str
    text: str
    keys: tuple[Key, ...]
    tip: str = ""
    scope: Scope = Scope.WINDOW
    group: str = ""
    needs_plant: bool = False
    needs_today: bool = False


_S = QKeySequence.StandardKey


def _cut(menu: str) -> Command:
    return Command("-", menu, "", ())


MENUS: Mapping[str, str] = {
    "file": "&File",
    "edit": "&Edit",
    "plant": "&Plant",
    "collection": "C&ollection",
    "day": "&Day",
    "shelf": "&Shelf",
    "view": "&View",
    "help": "&Help",
}

COMMANDS: tuple[Command, ...] = (
    Command("new-collection", "file", "&New collection…", (_S.New, "Ctrl+N")),
    Command("open-collection", "file", "&Open collection…", (_S.Open, "Ctrl+O")),
    Command(
        "sample",
        "file",
        "Look at a &sample collection",
        ("Ctrl+Alt+O",),
        "An invented grower's plants in a window of their own, thrown away at the end",
    ),
    _cut("file"),
    Command("preview-sheet", "file", "Pre&view the week's sheet…", ("Ctrl+Shift+P",)),
    Command("print-sheet", "file", "&Print the week's sheet…", (_S.Print, "Ctrl+P")),
    Command("save-sheet", "file", "Save the sheet as P&DF…", ("Ctrl+Shift+S",)),
    Command(
        "look-list",
        "file",
        "Print a &look list…",
        ("Ctrl+Alt+P",),
        "Every plant of a place in the order of the benches, with blanks to fill in",
    ),
    Command(
        "year-review",
        "file",
        "A &year in review…",
        ("Ctrl+Alt+Y",),
        "What flowered, grew, came and left, with photos, to print or keep",
        needs_plant=True,
    ),
    Command(
        "away",
        "file",
        "A&way sheet for a helper…",
        ("Ctrl+Alt+A",),
        "What somebody else waters while you are away, without a choice to make",
        needs_plant=True,
    ),
    Command(
        "tags",
        "file",
        "Print ta&gs…",
        ("Ctrl+Shift+A", "Ctrl+Alt+T"),
        "Labels for the pots: tag, name, date and a code to scan",
    ),
    _cut("file"),
    Command(
        "take-in",
        "file",
        "&Take a table in…",
        ("Ctrl+Shift+U",),
        "Plants, looks, care or blooms from a CSV file, tried before it is written",
    ),
    Command(
        "export",
        "file",
        "&Export as tables…",
        ("Ctrl+E",),
        "Everything as CSV tables with the photos, to be read anywhere or taken back",
    ),
    Command("backup", "file", "Make a &backup…", ("Ctrl+B",)),
    Command(
        "save-calendar",
        "file",
        "Save the &calendar…",
        ("Ctrl+Shift+Y",),
        "The year's jobs as a file that any calendar takes in",
        needs_plant=True,
    ),
    Command(
        "cancel",
        "file",
        mark("Cancel what &is being done"),
        ("Ctrl+.",),
        mark("Stops an import, an export or a year in review, and says what it leaves"),
    ),
    _cut("file"),
    Command("quit", "file", "&Quit", (_S.Quit, "Ctrl+Q")),
    Command("undo", "edit", "&Undo", (_S.Undo, "Ctrl+Z")),
    Command("redo", "edit", "&Redo", ("Ctrl+Shift+Z", "Ctrl+Y")),
    _cut("edit"),
    Command("find", "edit", "&Find in the list", (_S.Find, "Ctrl+F")),
    _cut("edit"),
    Command("settings", "edit", "&House rules…", (_S.Preferences, "Ctrl+,")),
    Command(
        "tick",
        "plant",
        "&Done, or not done",
        ("Space",),
        "Tick the selected plants as done, as planned",
        Scope.LIST,
        needs_plant=True,
        needs_today=True,
    ),
    Command(
        "pass-by",
        "plant",
        "&Passed by, still damp",
        ("Ctrl+D",),
        "The pot was still damp; nothing was given",
        Scope.LIST,
        needs_plant=True,
        needs_today=True,
    ),
    Command(
        "give",
        "plant",
        "&Give something else…",
        ("Ctrl+G",),
        "What was really given, where it differs from the plan",
        needs_plant=True,
    ),
    Command(
        "repot",
        "plant",
        "&Repotted…",
        ("Ctrl+R",),
        "Write a repot down",
        needs_plant=True,
    ),
    Command(
        "treat",
        "plant",
        "&Treated…",
        ("Ctrl+Alt+B",),
        "Write down what was treated, and with what",
        needs_plant=True,
    ),
    _cut("plant"),
    Command(
        "look",
        "plant",
        "Record a &look…",
        ("Ctrl+L",),
        "What is growing, flowering, ailing; with photos",
        needs_plant=True,
    ),
    Command(
        "overrule",
        "plant",
        "O&verrule…",
        ("Ctrl+Shift+O",),
        "Say yourself what the selected plants get, why, and until when",
        needs_plant=True,
    ),
    Command("photos", "plant", "Add ph&otos…", ("Ctrl+Shift+F",), needs_plant=True),
    Command(
        "bloom",
        "plant",
        "A &bloom…",
        ("Ctrl+Shift+G",),
        "Spike, first flower, last flower, count, size, award",
        needs_plant=True,
    ),
    Command(
        "paste-photo",
        "plant",
        "Paste a p&hoto",
        (_S.Paste, "Ctrl+V"),
        "The picture or the files of the clipboard, for the plant under the cursor",
        needs_plant=True,
    ),
    Command(
        "beside",
        "plant",
        "Photos side b&y side…",
        ("Ctrl+Alt+V",),
        "Two photos of the plant at the same scale",
        needs_plant=True,
    ),
    Command(
        "hindsight",
        "plant",
        "&With hindsight…",
        ("Ctrl+J",),
        "Mark what past decisions should have been",
        needs_plant=True,
    ),
    Command("marks", "plant", "Mar&ks counted…", ("Ctrl+Shift+J",)),
    _cut("plant"),
    Command("add-plant", "plant", "&Add a plant…", ("Ctrl+Shift+N", "Ins")),
    Command("change-plant", "plant", "&Change the plant…", ("F2",), needs_plant=True),
    Command(
        "change-many",
        "plant",
        "Change &several…",
        ("Shift+F2",),
        "Give the selected plants the same medium, source, rules or note",
        needs_plant=True,
    ),
    Command(
        "move",
        "plant",
        "To a&nother place…",
        ("Ctrl+Alt+M",),
        "Move the selected plants to a place and bench",
        needs_plant=True,
    ),
    Command(
        "divide",
        "plant",
        "D&ivide, or take a keiki…",
        ("Ctrl+Shift+V", "Ctrl+Alt+D"),
        "Make new plants from the one the cursor is on, with tags of their own",
        needs_plant=True,
    ),
    Command(
        "leave",
        "plant",
        "L&eft the collection…",
        ("Ctrl+Shift+Del",),
        "Given away, sold or lost: in no round any more, its records kept",
        needs_plant=True,
    ),
    Command(
        "bin",
        "plant",
        "Re&move",
        ("Del",),
        "Take the selected plants out of the collection; Undo brings them back",
        Scope.LIST,
        needs_plant=True,
    ),
    Command(
        "who-blooms",
        "collection",
        "Who &blooms when…",
        ("Ctrl+Shift+X",),
        "Who is in flower through the year, by the blooms on record",
    ),
    _cut("collection"),
    Command(
        "collection",
        "collection",
        "&All plants in one table, or back to the day",
        ("Ctrl+Shift+C",),
        "All plants on record: found, filtered, sorted, many selected at once",
    ),
    _cut("collection"),
    Command("keep-view", "collection", "&Keep this view…", ("Ctrl+Alt+K",)),
    Command("rename-view", "collection", "Re&name this view…", ("Ctrl+Alt+U",)),
    Command(
        "remove-view",
        "collection",
        "&Forget this view",
        ("Ctrl+Alt+W",),
        "Its plants stay; Undo brings the view back",
    ),
    _cut("collection"),
    Command("columns", "collection", "C&olumns…", ("Ctrl+Alt+C",)),
    Command(
        "sort-here",
        "collection",
        "&Sort by the cursor's column, or turn it round",
        ("F3",),
        scope=Scope.COLLECTION,
    ),
    _cut("collection"),
    Command(
        "copy-rows",
        "collection",
        "&Copy the selected rows",
        (_S.Copy, "Ctrl+C"),
        "For a spreadsheet or a letter, as the columns are shown",
        Scope.COLLECTION,
    ),
    Command("save-table", "collection", "Save this &table as CSV…", ("Ctrl+Alt+S",)),
    Command("today", "day", "&Today", ("Ctrl+T",)),
    Command("previous-day", "day", "&Previous watering day", ("Alt+PgUp",)),
    Command("next-day", "day", "&Next watering day", ("Alt+PgDown",)),
    _cut("day"),
    Command(
        "week",
        "day",
        "The &week, or back to the day",
        ("Ctrl+K",),
        "Every plant on every watering day of the week",
        needs_plant=True,
    ),
    Command(
        "calendar",
        "day",
        "The &calendar, or back to the day",
        ("Ctrl+Shift+D",),
        "What is to be done beside watering: rests, repots, moves, blooms",
        needs_plant=True,
    ),
    Command(
        "looks-first",
        "day",
        "&Looks worth taking",
        ("F4",),
        "The plants whose verdict a look is likeliest to turn",
        needs_plant=True,
    ),
    Command(
        "walk",
        "day",
        "Wal&k the benches…",
        ("F5",),
        "The look form of one plant after another, in the order of the benches",
    ),
    Command(
        "rain",
        "day",
        "It &rained…",
        ("Ctrl+Alt+R",),
        "Rain on what stands outdoors: as clear water, or as a flush",
    ),
    Command(
        "night",
        "day",
        "Cold or hot ni&ght…",
        ("Ctrl+Alt+N",),
        "Which plants to take from the glass, by what is forecast",
    ),
    Command("places", "shelf", "&Places and temperatures…", ("Ctrl+Shift+L",)),
    Command("logger", "shelf", "Read a &logger's file…", ("Ctrl+Shift+R",)),
    Command("tins", "shelf", "&Tins…", ("Ctrl+Shift+T",)),
    Command("recipes", "shelf", "R&ecipes…", ("Ctrl+Shift+E",)),
    Command("waters", "shelf", "&Waters…", ("Ctrl+Shift+W",)),
    Command(
        "measures",
        "shelf",
        "&Measures and jugs…",
        ("Ctrl+Shift+M",),
        "Scales, spoons, syringes, jugs and cans",
    ),
    Command("on-shelf", "shelf", "&On the shelf…", ("Ctrl+Shift+H",)),
    Command("stocks", "shelf", "Stock &bottles…", ("Ctrl+Shift+B",)),
    Command(
        "meter",
        "shelf",
        "Meter rea&ding…",
        ("Ctrl+Shift+I",),
        "What the meter reads in a jug, held against what it should read",
    ),
    Command("kinds", "shelf", "&Kinds…", ("Ctrl+Shift+K",)),
    Command("quick-mix", "shelf", "&Quick mix", ("Ctrl+M",)),
    Command("light-system", "view", "As the &system", ("Ctrl+Alt+0",), group="light"),
    Command("light-light", "view", "&Light", ("Ctrl+Alt+1",), group="light"),
    Command("light-dark", "view", "&Dark", ("Ctrl+Alt+2",), group="light"),
    _cut("view"),
    Command("to-list", "view", "To the l&ist", ("F6",)),
    Command("to-detail", "view", "To the &plant", ("F7",)),
    Command("to-mixing", "view", "To the &mixing", ("F8",)),
    Command("fold-mixing", "view", "Fold the mi&xing away, or back", ("F9",)),
    _cut("view"),
    Command("full-screen", "view", "&Full screen", ("F11",)),
    Command(
        "shortcuts",
        "help",
        "&Keyboard shortcuts",
        ("Ctrl+F1", _S.HelpContents, "F1"),
        "Every key, in the order of a watering day; to read, print or keep",
    ),
    Command("rules", "help", "&Rules of the decision…", ("Ctrl+Shift+F1",)),
    Command("cautions", "help", "&Cautions", ("Shift+F1",)),
    Command("about", "help", "&About growdesk", ("Ctrl+Alt+I",)),
)


def first_keys(command: Command) -> list[QKeySequence]:
    """Give the shortcuts of a command that this platform knows, each once."""
    found: list[QKeySequence] = []
    for key in command.keys:
        sequence = QKeySequence(key)
        if not sequence.isEmpty() and sequence not in found:
            found.append(sequence)
    return found


def declared() -> tuple[Command, ...]:
    """Give the commands without the lines between them."""
    return tuple(command for command in COMMANDS if command.key != "-")


def build(bar: QMenuBar, window: QWidget, plant_list: QWidget) -> dict[str, QAction]:
    """Fill the menu bar; give every action by its key."""
    menus = {key: bar.addMenu(title) for key, title in MENUS.items()}
    made: dict[str, QAction] = {}
    groups: dict[str, QActionGroup] = {}
    for command in COMMANDS:
        menu: QMenu = menus[command.menu]
        if command.key == "-":
            menu.addSeparator()
            continue
        action = _action(command, window, plant_list)
        if command.group:
            if command.group not in groups:
                groups[command.group] = QActionGroup(window)
            groups[command.group].addAction(action)
            action.setCheckable(True)
        menu.addAction(action)
        made[command.key] = action
    return made


LOOKS_HINT = "Enter records a look, the arrows go from plant to plant, Esc folds."
FIND_HINT = "Enter goes to what was found, Esc clears the find."
WEEK_HINT = (
    "Enter opens the day of the cell, Ctrl+K goes back to the list; a letter starts a "
    "find."
)
CALENDAR_HINT = (
    "Space ticks a job as done, Del lets it go, Enter goes to the plant, Ctrl+Shift+D "
    "back to the list."
)

COLLECTION_HINT = (
    "Enter changes the plant, F3 sorts by the cursor's column, Ctrl+Shift+C goes back "
    "to the day; a letter starts a find."
)


def strip_hint(*, has_plants: bool) -> str:
    """Say at the foot of the window which keys do the day's work."""
    if not has_plants:
        return "Enter takes the next step; Ctrl+F1 lists every key."
    keys = {command.key: _shown(command) for command in declared()}
    return (
        f"{keys['tick']} ticks the selected plants, {keys['pass-by']} passes them by, "
        f"{keys['look']} records a look; a letter starts a find."
    )


def ahead_hint() -> str:
    """Say which keys do something on a day to come, when nothing can be ticked."""
    keys = {command.key: _shown(command) for command in declared()}
    return (
        f"{keys['previous-day']} goes a watering day back, {keys['today']} to today, "
        f"{keys['week']} shows the week; a letter starts a find."
    )


def _shown(command: Command) -> str:
    return first_keys(command)[0].toString(QKeySequence.SequenceFormat.NativeText)


def _action(command: Command, window: QWidget, plant_list: QWidget) -> QAction:
    action = QAction(command.text, window)
    action.setObjectName(command.key)
    action.setShortcuts(first_keys(command))
    if command.tip:
        action.setToolTip(command.tip)
        action.setStatusTip(command.tip)
    if command.key == "quit":
        action.setMenuRole(QAction.MenuRole.QuitRole)
    if command.scope is not Scope.WINDOW:
        action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    if command.scope is Scope.LIST:
        plant_list.addAction(action)
    return action
