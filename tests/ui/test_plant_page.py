"""The plant's own tab: all of it told, its kin to go to, and what left."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton

from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.services.plant_values import Dividing, Kin, Leaving
from growdesk.services.ticking import Repot
from growdesk.services.values import Line
from growdesk.ui import words
from growdesk.ui.widgets.plant_page import plant_facts, plant_page, together
from growdesk.ui.widgets.text_link import TextLink
from tests.ui.driving import go_to, line_of, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.services.values import PlantDetail
    from growdesk.ui.window import Window

DAY = date(2026, 5, 3)
PLANT_TAB = "Plant"


def shown(window: Window) -> PlantDetail:
    detail = window.desk.detail
    assert detail is not None
    return detail


def link_to(window: Window, plant_id: int) -> TextLink:
    found = window.detail.findChild(TextLink, f"kin-{plant_id}")
    assert found is not None
    return found


def open_tab(window: Window) -> None:
    tabs = window.detail.tabs
    names = [tabs.tabText(number) for number in range(tabs.count())]
    tabs.setCurrentIndex(names.index(PLANT_TAB))


def test_all_that_is_on_record_is_told(window: Window) -> None:
    detail = shown(window)
    draft = replace(
        detail.draft,
        bench=4,
        held_as=HeldAs.COMPOT,
        how_many=30,
        quarantine_until=date(2026, 6, 30),
        parentage="A <b>×</b> B",
        papers="permit 7",
        hybrid=True,
    )
    facts = dict(
        plant_facts(replace(detail, draft=draft, bench_name="upper", left="Sold."))
    )
    assert facts["Together"] == "compot of 30 plants"
    assert facts["In quarantine"] == "until 30 Jun 2026"
    assert facts["Place"] == "East window, upper, number 4"
    assert facts["Parentage"] == "A <b>×</b> B"
    assert facts["Papers"] == "permit 7"
    assert facts["Hybrid"] == "yes"
    assert facts["Left"] == "Sold."
    bare = dict(plant_facts(detail))
    assert not {"Together", "In quarantine", "Papers", "Left"} & bare.keys()
    uncounted = replace(detail, draft=replace(draft, how_many=None))
    assert together(uncounted) == "compot of plants not counted"


def test_the_last_repot_is_told_by_care_or_by_the_plant(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    detail = shown(window)
    assert dict(plant_facts(detail))["Repotted"] == "not recorded"
    window.desk.write(lambda: collection.day.repot([detail.plant_id], Repot(DAY)))
    settle(qtbot, window)
    bare = replace(shown(window).draft, repotted_on=None)
    by_care = replace(shown(window), draft=bare)
    assert dict(plant_facts(by_care))["Repotted"] == "3 May 2026"
    later = replace(bare, repotted_on=date(2026, 5, 9))
    by_plant = replace(by_care, draft=later)
    assert dict(plant_facts(by_plant))["Repotted"] == "9 May 2026"


def test_hostile_text_stays_text(qtbot: QtBot, window: Window) -> None:
    evil = "<img src=x> & <b>bold</b>"
    draft = replace(shown(window).draft, papers=evil)
    kin = (Kin(9, "<A9>", evil, Descent.KEIKI, "lost on 3 May 2026", 2),)
    detail = replace(shown(window), draft=draft, ancestors=kin)
    page = plant_page(detail, lambda: None, lambda _id: None)
    qtbot.addWidget(page)
    texts = [each for each in page.findChildren(QLabel) if each.text() == evil]
    assert [each.textFormat() for each in texts] == [Qt.TextFormat.PlainText]
    (link,) = page.findChildren(TextLink)
    assert "<b>bold" not in link.text()
    assert link.accessibleName() == (
        f"<A9> {evil}, keiki, 2 generations apart, lost on 3 May 2026"
    )


def test_kin_is_gone_to_by_pointer_and_by_key(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    parent = line_of(window, "A1").plant_id
    taken = Dividing(DAY, Descent.DIVISION, ("D1",), "Cattleya", None)
    window.desk.write(lambda: collection.plants.divide(parent, taken))
    settle(qtbot, window)
    child = line_of(window, "D1").plant_id
    go_to(window, "A1")
    settle(qtbot, window)
    open_tab(window)
    link_to(window, child).linkActivated.emit("#")
    settle(qtbot, window)
    assert shown(window).draft.tag == "D1"
    assert window.day_list.chosen == child
    QTest.keyClick(link_to(window, parent), Qt.Key.Key_Return)
    settle(qtbot, window)
    assert shown(window).draft.tag == "A1"
    gone = Leaving(Status.LOST, DAY, "rot")
    window.desk.write(lambda: collection.plants.leave([child], gone))
    settle(qtbot, window)
    assert "lost on 3 May 2026" in link_to(window, child).accessibleName()
    link_to(window, child).linkActivated.emit("#")
    settle(qtbot, window)
    assert shown(window).left == "Lost on 3 May 2026: rot"


def test_what_left_shows_its_last_word_and_comes_back(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    plant_id = line_of(window, "A1").plant_id
    given = Leaving(Status.GIVEN_AWAY, DAY, "to <b>a friend</b>")
    window.desk.write(lambda: collection.plants.leave([plant_id], given))
    settle(qtbot, window)
    assert "A1" not in [line.tag for line in window.day_list.model.lines]
    window.desk.show_plant(plant_id)
    settle(qtbot, window)
    told = window.detail.findChild(QLabel, "last-word")
    assert told is not None
    assert told.text() == "Given away on 3 May 2026: to <b>a friend</b>"
    assert told.textFormat() == Qt.TextFormat.PlainText
    assert window.detail.findChild(QLabel, "verdict-word") is None
    assert not window.detail.look_button.isVisible()
    back = window.detail.findChild(QPushButton, "back-again")
    assert back is not None
    back.click()
    settle(qtbot, window)
    assert line_of(window, "A1").plant_id == plant_id
    go_to(window, "A1")
    settle(qtbot, window)
    assert window.detail.findChild(QLabel, "last-word") is None
    assert window.detail.look_button.isVisible()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert "A1" not in [line.tag for line in window.day_list.model.lines]


def test_a_tray_is_told_in_the_list_spoken_and_found(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    plant_id = line_of(window, "A2").plant_id
    draft = collection.plants.get(plant_id)
    tray = replace(draft, held_as=HeldAs.TRAY, how_many=6)
    window.desk.write(lambda: collection.plants.change(plant_id, tray))
    settle(qtbot, window)
    line = line_of(window, "A2")
    assert words.where(line) == "East window · tray ×6"
    assert "East window · tray ×6" in words.spoken(line)
    window.day_list.filter.setText("tray ×6")
    rows = [row for row in window.day_list.model.rows if isinstance(row, Line)]
    assert [row.tag for row in rows] == ["A2"]
