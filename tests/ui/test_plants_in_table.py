"""Deeds to plants from the table of all of them: what left is there, and comes back."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel
from PySide6.QtWidgets import QLabel

from growdesk.domain.holding import Descent, Status
from growdesk.services.plant_values import Dividing, Leaving
from growdesk.services.roster_values import ViewDraft, Whose
from growdesk.ui.dialogs.change_many import ChangeManyDialog
from growdesk.ui.dialogs.leave import LeaveDialog
from growdesk.ui.widgets.text_link import TextLink
from tests.ui.driving import dialog_of, line_of, press, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.panes.roster import RosterPane
    from growdesk.ui.window import Window

DAY = date(2026, 5, 3)


def table(qtbot: QtBot, window: Window) -> RosterPane:
    """Bring all plants into sight, those that left among them."""
    views = window.desk.collection.views
    wanted = ViewDraft("On record", whose=Whose.ALL)
    window.desk.write(lambda: views.add(wanted))
    window.commands["collection"].trigger()
    settle(qtbot, window)
    pane = window.roster.pane
    pane.take(next(each for each in pane.views if each.draft.name == wanted.name))
    return pane


def select(pane: RosterPane, *tags: str) -> None:
    flags = QItemSelectionModel.SelectionFlag
    found = {entry.line.tag: entry.line.plant_id for entry in pane.model.rows}
    places = [pane.model.index(pane.model.row_of(found[tag]), 0) for tag in tags]
    selection = pane.table.selectionModel()
    selection.setCurrentIndex(places[0], flags.ClearAndSelect | flags.Rows)
    for place in places:
        selection.select(place, flags.Select | flags.Rows)


def test_what_left_is_shown_with_its_last_word_and_comes_back(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    gone = line_of(window, "A1").plant_id
    left = Leaving(Status.SOLD, DAY, "at the show")
    window.desk.write(lambda: collection.plants.leave([gone], left))
    settle(qtbot, window)
    pane = table(qtbot, window)
    select(pane, "A1", "A2")
    settle(qtbot, window)
    told = window.detail.findChild(QLabel, "last-word")
    assert told is not None
    assert told.text() == "Sold on 3 May 2026: at the show"
    window.commands["change-many"].trigger()
    settle(qtbot, window)
    many = dialog_of(window, ChangeManyDialog)
    assert many.save_button.text() == "Change all 2"
    many.reject()
    window.commands["leave"].trigger()
    settle(qtbot, window)
    press(dialog_of(window, LeaveDialog), "&Here again")
    settle(qtbot, window)
    assert collection.plants.get(gone).status is Status.GROWING
    assert window.detail.findChild(QLabel, "last-word") is None
    assert {line.tag for line in window.day_list.model.lines} == {"A1", "A2", "A3"}


def test_a_link_to_kin_moves_the_tables_cursor(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    parent = line_of(window, "A1").plant_id
    gone = line_of(window, "A3").plant_id
    taken = Dividing(DAY, Descent.KEIKI, ("K1",), "Cattleya", None)
    window.desk.write(lambda: collection.plants.divide(parent, taken))
    left = Leaving(Status.SOLD, DAY)
    window.desk.write(lambda: collection.plants.leave([gone], left))
    settle(qtbot, window)
    child = line_of(window, "K1").plant_id
    pane = table(qtbot, window)
    select(pane, "A1")
    tabs = window.detail.tabs
    names = [tabs.tabText(number) for number in range(tabs.count())]
    tabs.setCurrentIndex(names.index("Plant"))
    settle(qtbot, window)
    link = window.detail.findChild(TextLink, f"kin-{child}")
    assert link is not None
    link.linkActivated.emit("#")
    settle(qtbot, window)
    assert window.desk.detail is not None
    assert window.desk.detail.draft.tag == "K1"
    assert pane.chosen == child
