"""Declare every command once: key, words, shortcuts, menu, and where it holds.

Menus, shortcuts, the context menu and the help page read this table. What a command
does is connected in the window by its key.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence

from growdesk.domain.speech import Phrases, mark, tr

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


class Command(Struct, frozen=True):
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


MENUS: Mapping[str, str] = Phrases(
    {
        "file": "&File",
        "edit": "&Edit",
        "plant": "&Plant",
        "collection": "C&ollection",
        "day": "&Day",
        "shelf": "&Shelf",
        "view": "&View",
        "help": "&Help",
    },
    "menu",
)

COMMANDS: tuple[Command, ...] = (
    Command("new-collection", "file", mark("&New collection…"), (_S.New, "Ctrl+N")),
    Command("open-collection", "file", mark("&Open collection…"), (_S.Open, "Ctrl+O")),
    Command(
        "open-server",
        "file",
        mark("Collection on a serve&r…"),
        ("Ctrl+Alt+Q",),
        mark("For a second computer that writes, or several people who tick"),
    ),
    Command(
        "sample",
        "file",
        mark("Look at a &sample collection"),
        ("Ctrl+Alt+O",),
        mark(
            "An invented grower's plants in a window of their own, thrown away "
            "at the end"
        ),
    ),
    _cut("file"),
    Command(
        "preview-sheet", "file", mark("Pre&view the week's sheet…"), ("Ctrl+Shift+P",)
    ),
    Command(
        "print-sheet", "file", mark("&Print the week's sheet…"), (_S.Print, "Ctrl+P")
    ),
    Command("save-sheet", "file", mark("Save the sheet as P&DF…"), ("Ctrl+Shift+S",)),
    Command(
        "look-list",
        "file",
        mark("Print a &look list…"),
        ("Ctrl+Alt+P",),
        mark(
            "Every plant of a place in the order of the benches, with blanks to fill in"
        ),
    ),
    Command(
        "year-review",
        "file",
        mark("A &year in review…"),
        ("Ctrl+Alt+Y",),
        mark("What flowered, grew, came and left, with photos, to print or keep"),
        needs_plant=True,
    ),
    Command(
        "away",
        "file",
        mark("A&way sheet for a helper…"),
        ("Ctrl+Alt+A",),
        mark("What somebody else waters while you are away, without a choice to make"),
        needs_plant=True,
    ),
    Command(
        "tags",
        "file",
        mark("Print ta&gs…"),
        ("Ctrl+Shift+A", "Ctrl+Alt+T"),
        mark("Labels for the pots: tag, name, date and a code to scan"),
    ),
    _cut("file"),
    Command(
        "take-in",
        "file",
        mark("&Take a table in…"),
        ("Ctrl+Shift+U",),
        mark(
            "Plants, looks, care or blooms from a CSV file, tried before it is written"
        ),
    ),
    Command(
        "export",
        "file",
        mark("&Export as tables…"),
        ("Ctrl+E",),
        mark(
            "Everything as CSV tables with the photos, to be read anywhere or "
            "taken back"
        ),
    ),
    Command("backup", "file", mark("Make a &backup…"), ("Ctrl+B",)),
    Command(
        "backups",
        "file",
        mark("Bac&kups…"),
        ("Ctrl+Alt+F",),
        mark("Those that are kept; make one, look into one, bring one back"),
    ),
    Command(
        "check-collection",
        "file",
        mark("Look the collection t&hrough…"),
        ("Ctrl+Alt+X",),
        mark("Every entry, every photo, and the history beside them, for damage"),
    ),
    Command(
        "save-calendar",
        "file",
        mark("Save the &calendar…"),
        ("Ctrl+Shift+Y",),
        mark("The year's jobs as a file that any calendar takes in"),
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
    Command("quit", "file", mark("&Quit"), (_S.Quit, "Ctrl+Q")),
    Command("undo", "edit", mark("&Undo"), (_S.Undo, "Ctrl+Z")),
    Command("redo", "edit", mark("&Redo"), ("Ctrl+Shift+Z", "Ctrl+Y")),
    Command(
        "history",
        "edit",
        mark("History of &changes…"),
        ("Ctrl+Alt+Z",),
        mark("What was done, by day; undo or do again up to any point"),
    ),
    _cut("edit"),
    Command("find", "edit", mark("&Find in the list"), (_S.Find, "Ctrl+F")),
    _cut("edit"),
    Command("settings", "edit", mark("&House rules…"), (_S.Preferences, "Ctrl+,")),
    Command(
        "tick",
        "plant",
        mark("&Done, or not done"),
        ("Space",),
        mark("Tick the selected plants as done, as planned"),
        Scope.LIST,
        needs_plant=True,
        needs_today=True,
    ),
    Command(
        "pass-by",
        "plant",
        mark("&Passed by, still damp"),
        ("Ctrl+D",),
        mark("The pot was still damp; nothing was given"),
        Scope.LIST,
        needs_plant=True,
        needs_today=True,
    ),
    Command(
        "give",
        "plant",
        mark("&Give something else…"),
        ("Ctrl+G",),
        mark("What was really given, where it differs from the plan"),
        needs_plant=True,
    ),
    Command(
        "repot",
        "plant",
        mark("&Repotted…"),
        ("Ctrl+R",),
        mark("Write a repot down"),
        needs_plant=True,
    ),
    Command(
        "treat",
        "plant",
        mark("&Treated…"),
        ("Ctrl+Alt+B",),
        mark("Write down what was treated, and with what"),
        needs_plant=True,
    ),
    _cut("plant"),
    Command(
        "look",
        "plant",
        mark("Record a &look…"),
        ("Ctrl+L",),
        mark("What is growing, flowering, ailing; with photos"),
        needs_plant=True,
    ),
    Command(
        "overrule",
        "plant",
        mark("O&verrule…"),
        ("Ctrl+Shift+O",),
        mark("Say yourself what the selected plants get, why, and until when"),
        needs_plant=True,
    ),
    Command(
        "photos", "plant", mark("Add ph&otos…"), ("Ctrl+Shift+F",), needs_plant=True
    ),
    Command(
        "bloom",
        "plant",
        mark("A &bloom…"),
        ("Ctrl+Shift+G",),
        mark("Spike, first flower, last flower, count, size, award"),
        needs_plant=True,
    ),
    Command(
        "paste-photo",
        "plant",
        mark("Paste a p&hoto"),
        (_S.Paste, "Ctrl+V"),
        mark(
            "The picture or the files of the clipboard, for the plant under the cursor"
        ),
        needs_plant=True,
    ),
    Command(
        "beside",
        "plant",
        mark("Photos side b&y side…"),
        ("Ctrl+Alt+V",),
        mark("Two photos of the plant at the same scale"),
        needs_plant=True,
    ),
    Command(
        "hindsight",
        "plant",
        mark("&With hindsight…"),
        ("Ctrl+J",),
        mark("Mark what past decisions should have been"),
        needs_plant=True,
    ),
    Command("marks", "plant", mark("Mar&ks counted…"), ("Ctrl+Shift+J",)),
    _cut("plant"),
    Command("add-plant", "plant", mark("&Add a plant…"), ("Ctrl+Shift+N", "Ins")),
    Command(
        "change-plant", "plant", mark("&Change the plant…"), ("F2",), needs_plant=True
    ),
    Command(
        "change-many",
        "plant",
        mark("Change &several…"),
        ("Shift+F2",),
        mark("Give the selected plants the same medium, source, rules or note"),
        needs_plant=True,
    ),
    Command(
        "move",
        "plant",
        mark("To a&nother place…"),
        ("Ctrl+Alt+M",),
        mark("Move the selected plants to a place and bench"),
        needs_plant=True,
    ),
    Command(
        "divide",
        "plant",
        mark("D&ivide, or take a keiki…"),
        ("Ctrl+Shift+V", "Ctrl+Alt+D"),
        mark("Make new plants from the one the cursor is on, with tags of their own"),
        needs_plant=True,
    ),
    Command(
        "leave",
        "plant",
        mark("L&eft the collection…"),
        ("Ctrl+Shift+Del",),
        mark("Given away, sold or lost: in no round any more, its records kept"),
        needs_plant=True,
    ),
    Command(
        "bin",
        "plant",
        mark("Re&move"),
        ("Del",),
        mark("Take the selected plants out of the collection; Undo brings them back"),
        Scope.LIST,
        needs_plant=True,
    ),
    Command(
        "plant-history",
        "plant",
        mark("Its history o&f changes…"),
        ("Ctrl+Alt+H",),
        mark("What was done to this plant and its records, to undo or do again"),
        needs_plant=True,
    ),
    Command(
        "who-blooms",
        "collection",
        mark("Who &blooms when…"),
        ("Ctrl+Shift+X",),
        mark("Who is in flower through the year, by the blooms on record"),
    ),
    _cut("collection"),
    Command(
        "collection",
        "collection",
        mark("&All plants in one table, or back to the day"),
        ("Ctrl+Shift+C",),
        mark("All plants on record: found, filtered, sorted, many selected at once"),
    ),
    _cut("collection"),
    Command("keep-view", "collection", mark("&Keep this view…"), ("Ctrl+Alt+K",)),
    Command("rename-view", "collection", mark("Re&name this view…"), ("Ctrl+Alt+U",)),
    Command(
        "remove-view",
        "collection",
        mark("&Forget this view"),
        ("Ctrl+Alt+W",),
        mark("Its plants stay; Undo brings the view back"),
    ),
    _cut("collection"),
    Command("columns", "collection", mark("C&olumns…"), ("Ctrl+Alt+C",)),
    Command(
        "sort-here",
        "collection",
        mark("&Sort by the cursor's column, or turn it round"),
        ("F3",),
        scope=Scope.COLLECTION,
    ),
    _cut("collection"),
    Command(
        "copy-rows",
        "collection",
        mark("&Copy the selected rows"),
        (_S.Copy, "Ctrl+C"),
        mark("For a spreadsheet or a letter, as the columns are shown"),
        Scope.COLLECTION,
    ),
    Command(
        "save-table", "collection", mark("Save this &table as CSV…"), ("Ctrl+Alt+S",)
    ),
    _cut("collection"),
    Command(
        "show-bin",
        "collection",
        mark("B&in…"),
        ("Ctrl+Alt+E",),
        mark("Plants and records that were removed, to put back or let go for good"),
    ),
    Command("today", "day", mark("&Today"), ("Ctrl+T",)),
    Command("previous-day", "day", mark("&Previous watering day"), ("Alt+PgUp",)),
    Command("next-day", "day", mark("&Next watering day"), ("Alt+PgDown",)),
    _cut("day"),
    Command(
        "week",
        "day",
        mark("The &week, or back to the day"),
        ("Ctrl+K",),
        mark("Every plant on every watering day of the week"),
        needs_plant=True,
    ),
    Command(
        "calendar",
        "day",
        mark("The &calendar, or back to the day"),
        ("Ctrl+Shift+D",),
        mark("What is to be done beside watering: rests, repots, moves, blooms"),
        needs_plant=True,
    ),
    Command(
        "looks-first",
        "day",
        mark("&Looks worth taking"),
        ("F4",),
        mark("The plants whose verdict a look is likeliest to turn"),
        needs_plant=True,
    ),
    Command(
        "walk",
        "day",
        mark("Wal&k the benches…"),
        ("F5",),
        mark("The look form of one plant after another, in the order of the benches"),
    ),
    Command(
        "rain",
        "day",
        mark("It &rained…"),
        ("Ctrl+Alt+R",),
        mark("Rain on what stands outdoors: as clear water, or as a flush"),
    ),
    Command(
        "night",
        "day",
        mark("Cold or hot ni&ght…"),
        ("Ctrl+Alt+N",),
        mark("Which plants to take from the glass, by what is forecast"),
    ),
    _cut("day"),
    Command(
        "day-summary",
        "day",
        mark("The day &summed up"),
        ("F12",),
        mark("What was given, what is left, what it used, and what comes next"),
    ),
    Command("places", "shelf", mark("&Places and temperatures…"), ("Ctrl+Shift+L",)),
    Command("logger", "shelf", mark("Read a &logger's file…"), ("Ctrl+Shift+R",)),
    Command("tins", "shelf", mark("&Tins…"), ("Ctrl+Shift+T",)),
    Command("recipes", "shelf", mark("R&ecipes…"), ("Ctrl+Shift+E",)),
    Command("waters", "shelf", mark("&Waters…"), ("Ctrl+Shift+W",)),
    Command(
        "measures",
        "shelf",
        mark("&Measures and jugs…"),
        ("Ctrl+Shift+M",),
        mark("Scales, spoons, syringes, jugs and cans"),
    ),
    Command("on-shelf", "shelf", mark("&On the shelf…"), ("Ctrl+Shift+H",)),
    Command("stocks", "shelf", mark("Stock &bottles…"), ("Ctrl+Shift+B",)),
    Command(
        "meter",
        "shelf",
        mark("Meter rea&ding…"),
        ("Ctrl+Shift+I",),
        mark("What the meter reads in a jug, held against what it should read"),
    ),
    Command("kinds", "shelf", mark("&Kinds…"), ("Ctrl+Shift+K",)),
    Command("quick-mix", "shelf", mark("&Quick mix"), ("Ctrl+M",)),
    Command(
        "preferences",
        "view",
        mark("Preferen&ces…"),
        ("Ctrl+Shift+,",),
        mark("Language, decimal sign, dates, units, paper and light of this machine"),
    ),
    _cut("view"),
    Command(
        "light-system", "view", mark("As the &system"), ("Ctrl+Alt+0",), group="light"
    ),
    Command("light-light", "view", mark("&Light"), ("Ctrl+Alt+1",), group="light"),
    Command("light-dark", "view", mark("&Dark"), ("Ctrl+Alt+2",), group="light"),
    _cut("view"),
    Command(
        "text-larger",
        "view",
        mark("Lar&ger text"),
        (_S.ZoomIn, "Ctrl++", "Ctrl+="),
    ),
    Command("text-smaller", "view", mark("Sm&aller text"), (_S.ZoomOut, "Ctrl+-")),
    Command("text-usual", "view", mark("Text as &usual"), ("Ctrl+0",)),
    _cut("view"),
    Command("to-list", "view", mark("To the l&ist"), ("F6",)),
    Command("to-detail", "view", mark("To the &plant"), ("F7",)),
    Command("to-mixing", "view", mark("To the &mixing"), ("F8",)),
    Command("fold-mixing", "view", mark("Fold the mi&xing away, or back"), ("F9",)),
    _cut("view"),
    Command("full-screen", "view", mark("&Full screen"), ("F11",)),
    Command(
        "handbook",
        "help",
        mark("&Handbook"),
        ("F1", _S.HelpContents),
        mark("How it decides and how each thing is done; F1 in a form opens its page"),
    ),
    Command(
        "shortcuts",
        "help",
        mark("&Keyboard shortcuts"),
        ("Ctrl+F1",),
        mark("Every key, in the order of a watering day; to read, print or keep"),
    ),
    Command(
        "explain-word",
        "help",
        mark("What a &word means…"),
        ("Ctrl+Alt+G",),
        mark("The trade's words: those in what is shown first, then all"),
    ),
    Command("rules", "help", mark("&Rules of the decision…"), ("Ctrl+Shift+F1",)),
    Command("cautions", "help", mark("&Cautions"), ("Shift+F1",)),
    Command(
        "report",
        "help",
        mark("Report a &fault…"),
        ("Ctrl+Alt+J",),
        mark("Versions, counts and the log as text, to read and keep; nothing is sent"),
    ),
    Command("about", "help", mark("&About growdesk"), ("Ctrl+Alt+I",)),
)

WRITING = frozenset(
    {
        *("undo", "redo", "take-in"),
        *("tick", "pass-by", "give", "repot", "treat", "look", "overrule"),
        *("photos", "paste-photo", "bloom", "hindsight"),
        *("add-plant", "change-plant", "change-many", "move", "divide", "leave", "bin"),
        *("keep-view", "rename-view", "remove-view"),
        *("walk", "rain", "night", "logger", "meter"),
    }
)
"""The commands that do nothing but write; where one only looks they are not offered.

Those that open what can be read too are offered, and their Save is refused."""


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


LOOKS_HINT = mark("Enter records a look, the arrows go from plant to plant, Esc folds.")
FIND_HINT = mark("Enter goes to what was found, Esc clears the find.")
WEEK_HINT = mark(
    "Enter opens the day of the cell, Ctrl+K goes back to the list; a letter starts a "
    "find."
)
CALENDAR_HINT = mark(
    "Space ticks a job as done, Del lets it go, Enter goes to the plant, Ctrl+Shift+D "
    "back to the list."
)

COLLECTION_HINT = mark(
    "Enter changes the plant, F3 sorts by the cursor's column, Ctrl+Shift+C goes back "
    "to the day; a letter starts a find."
)

LOOKING_HINT = mark(
    "Nothing can be written here; a letter starts a find, Ctrl+F1 lists every key."
)


def strip_hint(*, has_plants: bool) -> str:
    """Say at the foot of the window which keys do the day's work."""
    if not has_plants:
        return tr("Enter takes the next step; Ctrl+F1 lists every key.")
    keys = {command.key: _shown(command) for command in declared()}
    return tr(
        "{tick} ticks the selected plants, {passes} passes them by, {look} records a "
        "look; a letter starts a find."
    ).format(tick=keys["tick"], passes=keys["pass-by"], look=keys["look"])


def ahead_hint() -> str:
    """Say which keys do something on a day to come, when nothing can be ticked."""
    keys = {command.key: _shown(command) for command in declared()}
    return tr(
        "{back} goes a watering day back, {today} to today, {week} shows the week; a "
        "letter starts a find."
    ).format(back=keys["previous-day"], today=keys["today"], week=keys["week"])


def _shown(command: Command) -> str:
    return first_keys(command)[0].toString(QKeySequence.SequenceFormat.NativeText)


def _action(command: Command, window: QWidget, plant_list: QWidget) -> QAction:
    action = QAction(tr(command.text), window)
    action.setObjectName(command.key)
    action.setShortcuts(first_keys(command))
    if command.tip:
        action.setToolTip(tr(command.tip))
        action.setStatusTip(tr(command.tip))
    if command.key == "quit":
        action.setMenuRole(QAction.MenuRole.QuitRole)
    if command.scope is not Scope.WINDOW:
        action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    if command.scope is Scope.LIST:
        plant_list.addAction(action)
    return action
