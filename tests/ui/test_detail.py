"""The detail pane: reasons first, records behind, photos read off the thread."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QTextDocument
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLayout, QPushButton, QWidget

from growdesk.domain.explain import Role
from growdesk.domain.facts import Verdict, Water
from growdesk.ui.dialogs.photo import PhotoDialog
from growdesk.ui.widgets.plant_page import plant_facts
from growdesk.ui.widgets.reasons import Reasons, how
from growdesk.ui.widgets.soft_edge import SoftEdge
from tests.ui.driving import (
    dialog_of,
    go_to,
    line_of,
    open_dialogs,
    press,
    settle,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def pictured(stocked: Collection, tmp_path: Path) -> Collection:
    """Give the stocked collection with one photo of A1."""
    picture = QImage(640, 480, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.darkGreen)
    file = tmp_path / "base.png"
    assert picture.save(str(file))
    plant_id = stocked.plants.find("A1")
    assert plant_id is not None
    stocked.photos.add(plant_id, [file])
    return stocked


def texts(window: Window) -> list[str]:
    labels = window.detail.findChildren(QLabel)
    return [each.text() for each in labels if not each.isHidden()]


def test_the_deciding_sentence_is_the_largest_and_comes_first(window: Window) -> None:
    detail = window.desk.detail
    assert detail is not None
    large = window.detail.findChild(QLabel, "deciding-sentence")
    assert isinstance(large, QLabel)
    assert large.text() == detail.told[0].lines[0].text
    assert large.accessibleName() == detail.told[0].sentence
    assert detail.told[0].role is Role.DECIDES
    others = [
        each
        for each in window.detail.findChildren(QLabel)
        if each.text() in detail.would_change
    ]
    assert others
    for other in others:
        assert other.font().pointSizeF() < large.font().pointSizeF()
        assert (
            other.mapTo(window, other.pos()).y() > large.mapTo(window, large.pos()).y()
        )


def test_every_sentence_of_the_judgement_is_shown(qtbot: QtBot, window: Window) -> None:
    for tag in ("A1", "A3"):
        go_to(window, tag)
        settle(qtbot, window)
        detail = window.desk.detail
        assert detail is not None
        said = {line.text for told in detail.told for line in told.lines}
        said |= set(detail.would_change)
        qtbot.waitUntil(lambda said=said: said <= set(texts(window)))  # type: ignore[misc]


def test_what_is_poured_is_told_first_and_its_own_beside_it(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    detail = window.desk.detail
    assert detail is not None
    assert detail.strength is not None
    own, letter = detail.strength.ppm_n, detail.letter
    same = replace(detail, jug_ppm_n=round(own))
    assert how(same).startswith(f"{own:.0f} ppm N from jug {letter}\n")
    weaker = replace(detail, jug_ppm_n=round(own) - 40, outside_band=True)
    window.detail.show_plant(weaker)
    assert how(weaker).startswith(f"{own - 40:.0f} ppm N from jug {letter}\n")
    rungs = window.detail.findChild(QLabel, "strength-rungs")
    assert rungs is not None
    assert f"<b>Poured from jug {letter}</b>" in rungs.text()
    assert f"<b>{own - 40:.0f}&nbsp;ppm&nbsp;N</b>" in rungs.text()
    assert rungs.accessibleName().endswith(f"jug {letter}: {own - 40:.0f} ppm N.")
    off = window.detail.findChild(QLabel, "off-band")
    assert off is not None
    assert off.text() == f"Weaker than the band: {own - 40:.0f} for {own:.0f} ppm N."


def test_a_plant_to_look_at_is_told_what_it_gets_until_then(
    qtbot: QtBot, window: Window
) -> None:
    go_to(window, "A3")
    settle(qtbot, window)
    detail = window.desk.detail
    assert detail is not None
    look = replace(detail, verdict=Verdict.LOOK_FIRST, water=Water.IF_DRY)
    assert how(look) == "until then clear water, if the pot is light"
    assert how(replace(look, water=Water.NONE)) == "no water"


def test_what_is_not_recorded_is_said_so(window: Window) -> None:
    detail = window.desk.detail
    assert detail is not None
    facts = dict(plant_facts(detail))
    assert facts["Medium"] == "not recorded"
    assert facts["Own full strength"] == "as the house"


def test_a_thumbnail_arrives_and_opens_its_photo(
    qtbot: QtBot, pictured: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(pictured)
    window.detail.tabs.setCurrentIndex(1)
    settle(qtbot, window)
    tiles = [
        each
        for each in window.detail.tabs.findChildren(QPushButton)
        if each.objectName().startswith("photo-")
    ]
    (tile,) = tiles
    qtbot.waitUntil(lambda: not tile.icon().isNull())
    tile.click()
    dialog = dialog_of(window, PhotoDialog)
    settle(qtbot, window)
    assert dialog.picture.has_image
    assert dialog.picture.whole.width() > 300
    dialog.close()


def test_a_photo_is_removed_and_comes_back(
    qtbot: QtBot, pictured: Collection, show: Callable[[Collection], Window]
) -> None:
    window = show(pictured)
    plant_id = line_of(window, "A1").plant_id
    (photo,) = pictured.photos.of(plant_id)
    window.detail.photo_opened.emit(photo)
    dialog = dialog_of(window, PhotoDialog)
    press(dialog, "&Remove")
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert pictured.photos.of(plant_id) == ()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert len(pictured.photos.of(plant_id)) == 1


def test_a_photo_whose_file_is_gone_is_told_in_words(
    qtbot: QtBot, pictured: Collection, show: Callable[[Collection], Window]
) -> None:
    plant_id = pictured.plants.find("A1")
    assert plant_id is not None
    (photo,) = pictured.photos.of(plant_id)
    photo.path.unlink()
    window = show(pictured)
    window.detail.tabs.setCurrentIndex(1)
    settle(qtbot, window)
    (told,) = pictured.photos.of(plant_id)
    assert told.problem
    names = [each.accessibleName() for each in window.findChildren(QPushButton)]
    assert any(told.problem in name for name in names)


def test_each_scheme_draws_the_verdict_in_its_own_colour(window: Window) -> None:
    styles = set()
    for key in ("light-light", "light-dark"):
        window.commands[key].trigger()
        word = window.detail.findChild(QLabel, "verdict-word")
        assert isinstance(word, QLabel)
        styles.add(word.styleSheet())
    window.commands["light-light"].trigger()
    assert len(styles) == 2


def test_the_salts_of_a_pot_have_a_section(qtbot: QtBot, window: Window) -> None:
    detail = window.desk.detail
    assert detail is not None
    assert "Salts" not in texts(window)
    said = replace(
        detail, salts=("Its pot may stand high.",), salts_assume="An estimate: so."
    )
    window.detail.show_plant(said)
    settle(qtbot, window)
    shown = texts(window)
    at = shown.index("Salts")
    assert shown[at + 1 : at + 3] == ["Its pot may stand high.", "An estimate: so."]
    window.detail.show_plant(replace(said, salts=()))
    settle(qtbot, window)
    shown = texts(window)
    assert shown[shown.index("Salts") + 1] == "An estimate: so."


def test_the_strength_stands_in_lines_and_is_read_as_one_text(window: Window) -> None:
    detail = window.desk.detail
    assert detail is not None
    rungs = window.detail.findChild(QLabel, "strength-rungs")
    assert isinstance(rungs, QLabel)
    assert rungs.accessibleName() == detail.strength_sentence
    lines = QTextDocument()
    lines.setHtml(rungs.text())
    told = lines.toPlainText().replace("\u00a0", " ").split("\n")
    wanted = [
        part
        for rung in detail.strength_rungs
        for part in (rung.text, f"{rung.ppm_n} ppm N")
    ]
    assert [each for each in told if each] == wanted


def test_a_chart_gives_the_reasons_their_height_back(
    qtbot: QtBot, window: Window
) -> None:
    window.resize(1280, 800)
    settle(qtbot, window)
    split, tabs = window.detail._split, window.detail.tabs
    before = split.sizes()
    assert before[0] > 2 * before[1], "the reasons are what the pane is for"
    for _ in range(2):
        tabs.setCurrentIndex(4)
        qtbot.waitUntil(lambda: window.detail.charts.canvas is not None, timeout=20_000)
        qtbot.waitUntil(lambda: split.sizes()[0] < before[0])
        tabs.setCurrentIndex(0)
        assert split.sizes() == before


def test_the_reasons_end_softly_while_more_lies_below(
    qtbot: QtBot, window: Window
) -> None:
    edge = window.detail.findChild(SoftEdge)
    assert isinstance(edge, SoftEdge)
    area = window.detail._scroll
    bar = area.verticalScrollBar()
    window.resize(1024, 640)
    settle(qtbot, window)
    assert bar.maximum() > 0
    assert edge.isVisible()
    assert edge.geometry().bottom() == area.viewport().rect().bottom()
    bar.setValue(bar.maximum())
    assert not edge.isVisible()
    bar.setValue(0)
    assert edge.isVisible()


def test_kind_and_place_are_one_stop_and_follow_by_key(
    qtbot: QtBot, window: Window
) -> None:
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    line = window.detail.findChild(QLabel, "to-kind")
    assert isinstance(line, QLabel)
    followed: list[int] = []
    window.detail.kind_wanted.connect(followed.append)
    line.setFocus()
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle(qtbot, window)
    assert window.desk.detail is not None
    assert followed == [window.desk.detail.plant_id]
    for each in open_dialogs(window):
        each.reject()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    settle(qtbot, window)
    again = window.detail.findChild(QLabel, "to-kind")
    assert isinstance(again, QLabel)
    again.setFocus()
    QTest.keyClick(again, Qt.Key.Key_Tab)
    focused = window.focusWidget()
    assert focused is not None
    assert focused.objectName() == "change-plant"


def test_a_week_that_comes_leaves_what_stands_above_it(
    window: Window, qtbot: QtBot
) -> None:
    """And the whole is as if it had been there from the start."""
    go_to(window, "A1")
    settle(qtbot, window)
    week = window.desk.collection.day.week(window.desk.on)
    detail = window.desk.detail
    assert detail is not None
    window.detail.show_week(None)
    badge = window.detail.findChild(QLabel, "tag-badge")
    bare = len(window.detail._reasons.findChildren(QLabel))
    window.detail.show_week(week)
    reasons = window.detail._reasons
    assert window.detail.findChild(QLabel, "tag-badge") is badge
    assert len(reasons.findChildren(QLabel)) > bare
    fresh = Reasons()
    qtbot.addWidget(fresh)
    fresh.week = week
    fresh.show_plant(detail)
    assert said_by(fresh) == said_by(reasons)
    assert fresh.words == reasons.words


def said_by(reasons: Reasons) -> list[tuple[str, str]]:
    """Give all that stands in the reasons, from the top down."""
    found = in_order(reasons._column)
    return [
        (each.text(), each.accessibleName())
        for each in found
        if isinstance(each, QLabel | QPushButton)
    ]


def in_order(layout: QLayout) -> list[QWidget]:
    """Give the widgets of a layout in its order."""
    found: list[QWidget] = []
    for row in range(layout.count()):
        item = layout.itemAt(row)
        assert item is not None
        widget, inner = item.widget(), item.layout()
        found += [widget] if widget is not None else []
        found += in_order(inner) if inner is not None else []
    return found
