"""Whatever a grower calls a thing stands there as it was typed, in every place.

The window is walked with names that look like markup: all faces, the record of plants,
every command's dialog. Where what is seen of a text (its markup read, its mnemonics
taken) holds a name's own word, it must hold the whole name.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QAbstractItemModel, QAbstractListModel, QModelIndex, Qt
from PySide6.QtGui import QAction, QTextDocument
from PySide6.QtGui import Qt as QtGui
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QDialog,
    QGroupBox,
    QLabel,
    QPlainTextEdit,
    QTabWidget,
    QTextEdit,
    QWidget,
)

from growdesk.domain.facts import Look, NewGrowths, RootTips
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.stock_values import StockWanted
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft
from growdesk.ui.typeset import on_screen
from growdesk.ui.widgets.name_field import NameUnder
from tests.faults.hostile_names import ALL, COMBINED, NAMES, TAGS
from tests.ui.driving import go_to, settle

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import date

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

WORD = re.compile(r"K[0-9]{2}x")
ROLES = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
)
ASKED = (
    *("look", "overrule", "bloom", "give", "repot", "hindsight", "plant-history"),
    *("add-plant", "change-plant", "change-many", "move", "divide", "leave", "bin"),
    *("tags", "away", "look-list", "preview-sheet", "history", "columns", "keep-view"),
    *("who-blooms", "looks-first", "walk", "rain", "night", "day-summary", "places"),
    *("tins", "recipes", "waters", "measures", "on-shelf", "stocks", "meter"),
    "quick-mix",
)
"""Commands whose forms and pages name what the grower named."""


def _rich(text: str) -> str:
    page = QTextDocument()
    page.setHtml(text)
    return page.toPlainText()


def _auto(text: str) -> str:
    return _rich(text) if QtGui.mightBeRichText(text) else text


def _bare(text: str) -> str:
    """Give a text with its mnemonic taken: && is one &, a single & is none."""
    return re.sub(r"&(.)", r"\1", text.replace("&&", "\x00")).replace("\x00", "&")


def _label(label: QLabel) -> str:
    form, text = label.textFormat(), QLabel.text(label)
    if form == Qt.TextFormat.RichText:
        return _rich(text)
    plain = _auto(text) if form == Qt.TextFormat.AutoText else text
    return _bare(plain) if label.buddy() is not None else plain


def _columns(model: QAbstractItemModel) -> int:
    if isinstance(model, QAbstractListModel):
        return 1  # Qt keeps the method of a list to itself
    return model.columnCount(QModelIndex())


def _cells(model: QAbstractItemModel) -> Iterator[str]:
    none = QModelIndex()
    for row in range(min(model.rowCount(none), 60)):
        for column in range(_columns(model)):
            index = model.index(row, column, none)
            for role in ROLES:
                yield str(index.data(role) or "")
            yield _auto(str(index.data(Qt.ItemDataRole.ToolTipRole) or ""))


def _own(widget: QWidget) -> Iterator[str]:
    """Give what a widget shows of itself, as it is seen."""
    if isinstance(widget, QLabel):
        yield _label(widget)
    elif isinstance(widget, QAbstractButton):
        yield _bare(widget.text())
    elif isinstance(widget, QTextEdit | QPlainTextEdit):
        yield widget.toPlainText()
    elif isinstance(widget, QComboBox):
        yield from (widget.itemText(at) for at in range(widget.count()))
    elif isinstance(widget, QTabWidget):
        for at in range(widget.count()):
            yield from (_bare(widget.tabText(at)), _auto(widget.tabToolTip(at)))
    elif isinstance(widget, QAbstractItemView) and widget.model() is not None:
        yield from _cells(widget.model())


def seen(root: QWidget) -> Iterator[tuple[str, str]]:
    """Give where a text stands and what is seen of it."""
    for widget in (root, *root.findChildren(QWidget)):
        if isinstance(widget.parentWidget(), NameUnder):
            continue  # which tells a name's parts and doubts, not the name
        where = f"{type(widget).__name__} {widget.objectName()}"
        yield f"name of {where}", widget.accessibleName()
        yield f"description of {where}", widget.accessibleDescription()
        yield f"tip of {where}", _auto(widget.toolTip())
        if widget.isWindow():
            title = widget.windowTitle().replace("[*][*]", "\0").replace("[*]", "")
            yield f"title of {where}", title.replace("\0", "[*]")
        if isinstance(widget, QGroupBox):
            yield where, _bare(widget.title())
        yield from ((where, text) for text in _own(widget))
    for action in root.findChildren(QAction):
        yield f"action {action.objectName()}", _bare(action.text())
        yield "tip of an action", _auto(action.toolTip())


def _flat(text: str) -> str:
    text = on_screen(text).replace("\u2060", "").replace("\u00a0", " ")
    return " ".join(text.replace("\u202f", " ").split())


def wrong(root: QWidget, counted: set[str]) -> list[str]:
    """Give each text in which a name's word stands and the name does not."""
    found = []
    for where, text in seen(root):
        flat = _flat(text)
        for word in WORD.findall(flat):
            name = _flat(ALL.get(word) or next(t for t in TAGS if word in t))
            counted.add(f"{where} {word}")
            begun = name[: max(len(word), 20)]
            cut = "\u2026" in flat and (begun in flat or name[-20:] in flat)
            if name not in flat and not cut:
                found.append(f"{where}: {flat[:160]}")
    return found


@pytest.fixture
def named(collection: Collection, today: date) -> Collection:
    """Give a collection in which every name and tag is a hostile one."""
    house = collection.settings.house()
    collection.settings.save_house(house, ("latitude",))
    made = collection.places.add(PlaceDraft(COMBINED)).ids[0]
    tin = collection.mixing.add_tin(TinDraft(COMBINED, "15-5-15 + 5 Ca")).ids[0]
    collection.waters.add(WaterDraft("tap", 0.4, name=COMBINED))
    collection.recipes.add(RecipeDraft(COMBINED, (PartDraft(tin, 1.0),), in_use=True))
    tool = Tool(ToolKind.SPOON, COMBINED, 0.5, None, ((tin, 3.0),))
    collection.measures.add_tool(tool)
    collection.stocks.make(StockWanted(COMBINED, ((tin, 20.0),), volume_l=0.5))
    growing = Look(
        on=today,
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.RUNNING,
    )
    names = [*NAMES.values(), COMBINED]
    tags = [*TAGS, *(f"T{number}" for number in range(len(names) - len(TAGS)))]
    for tag, name in zip(tags, names, strict=True):
        draft = PlantDraft(
            tag, name, "cattleya", place_id=made, pot_volume_l=1.0, note=name
        )
        plant = collection.plants.add(draft).ids[0]
        collection.looks.record(plant, growing)
    return collection


def walked(window: Window, qtbot: QtBot, look: Callable[[QWidget], object]) -> None:
    """Come to every face, some plants' records and every form that names things."""
    for face in ("week", "calendar", "collection", "day"):
        window.faces.go(face)
        settle(qtbot, window)
        look(window)
    for tag in (TAGS[0], TAGS[1], "T4", f"T{len(NAMES) - len(TAGS)}"):
        go_to(window, tag)
        for tab in range(window.detail.tabs.count()):
            window.detail.tabs.setCurrentIndex(tab)
            settle(qtbot, window)
            look(window.detail)
    for key in ASKED:
        window.commands[key].trigger()
        settle(qtbot, window)
        for dialog in QApplication.topLevelWidgets():
            if isinstance(dialog, QDialog) and dialog.isVisible():
                look(dialog)
                dialog.reject()
    settle(qtbot, window)
    look(window)


def test_names_stand_as_typed_wherever_they_are_shown(
    named: Collection,
    show: Callable[[Collection], Window],
    qtbot: QtBot,
    told: Callable[[str], None],
) -> None:
    counted: set[str] = set()
    bad: set[str] = set()
    walked(show(named), qtbot, lambda root: bad.update(wrong(root, counted)))
    assert sorted(bad) == []
    places = len({each.rsplit(" ", 1)[0] for each in counted})
    words = len({each.rsplit(" ", 1)[1] for each in counted})
    assert words > len(NAMES)
    told(
        f"F15 names: {words} hostile names and tags in {places} places of the window,"
        f" {len(counted)} texts, all as typed"
    )
