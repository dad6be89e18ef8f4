"""The browser of kinds: found, read, corrected, taken back, for a kind or one plant."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QPushButton, QWidget

from growdesk.domain.kind_fields import CORRECTABLE
from growdesk.services import kinds
from growdesk.services.values import PlantDraft
from growdesk.ui import kind_texts
from growdesk.ui.dialogs.kind_editor import KindEditor
from growdesk.ui.dialogs.kinds import KindsDialog
from growdesk.ui.widgets.kind_editors import MonthsEdit
from tests.ui.driving import dialog_of, go_to, open_dialogs, press, retype, settle
from tests.ui.test_accessible_names import mnemonics, nameless, unlabelled

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window


@pytest.fixture
def browser(window: Window, qtbot: QtBot) -> KindsDialog:
    """Give the browser as the menu opens it."""
    window.commands["kinds"].trigger()
    settle(qtbot, window)
    return dialog_of(window, KindsDialog)


def click(dialog: KindsDialog, name: str) -> None:
    """Press a link of the page."""
    found = dialog.page.findChild(QPushButton, name)
    assert isinstance(found, QPushButton), name
    QTest.mouseClick(found, Qt.MouseButton.LeftButton)


def text(dialog: KindsDialog, name: str) -> str:
    """Give what a label of the page says, or nothing where it is not there."""
    found = dialog.page.findChild(QLabel, name)
    return found.text() if isinstance(found, QLabel) else ""


def editor_of(dialog: KindsDialog) -> KindEditor:
    """Give the editor that is open."""
    found = dialog.findChild(KindEditor)
    assert isinstance(found, KindEditor), "no editor is open"
    return found


def field(dialog: KindsDialog, name: str) -> QWidget:
    """Give the editor of one field."""
    return editor_of(dialog).form.editors[name]


def to_kind(dialog: KindsDialog, typed: str) -> None:
    """Find a kind."""
    retype(dialog.kinds.find_line, typed)


def keep(qtbot: QtBot, window: Window, dialog: KindsDialog) -> None:
    """Keep the correction and wait until it stands."""
    QTest.mouseClick(dialog.save_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)


def test_every_kind_is_there_and_every_field_of_it(browser: KindsDialog) -> None:
    assert browser.kinds.rows.count() == len(kinds.table().kinds)
    to_kind(browser, "miltoniopsis")
    shown = {
        name for name in CORRECTABLE if browser.page.findChild(QLabel, f"value-{name}")
    }
    silent = {"rest_months", "resume", "resume_root_mm"}
    assert shown == set(CORRECTABLE) - silent
    assert text(browser, "value-ceiling_ppm_n") == "100 ppm N"
    assert text(browser, "backing-ceiling_ppm_n") == "from memory"
    assert text(browser, "value-ceiling_is_ours") == "growdesk's own, careful"
    whole = " ".join(each.text() for each in browser.page.findChildren(QLabel))
    assert "Mps." in whole
    assert "https://www.actahort.org/books/766/766_35.htm" in whole


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("Rlc.", "Cattleya, one-leaved, and hybrids"),
        ("Ctsm.", "Catasetum group (Catasetum, Cycnoches, Mormodes, Clowesia and"),
        ("pansy", "Miltoniopsis (pansy orchids)"),
    ],
)
def test_names_and_abbreviations_lead_to_a_kind(
    browser: KindsDialog, typed: str, title: str
) -> None:
    to_kind(browser, typed)
    assert text(browser, "kind-title").startswith(title)


def test_a_name_that_leads_nowhere_says_so_and_keeps_the_page_away(
    browser: KindsDialog,
) -> None:
    to_kind(browser, "no such orchid")
    assert browser.kinds.count.text() == "No kind is called so."
    assert not browser.page.isVisible()
    QTest.keyClick(browser.kinds.find_line, Qt.Key.Key_Escape)
    assert browser.kinds.rows.count() == len(kinds.table().kinds)
    assert browser.page.isVisible()
    assert browser.isVisible()


def test_a_correction_is_previewed_kept_shown_and_taken_back(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    before = [line.strength_ppm_n for line in window.day_list.model.lines]
    to_kind(browser, "cattleya")
    click(browser, "correct-feeder")
    feeder = field(browser, "feeder")
    assert isinstance(feeder, QComboBox)
    assert feeder.currentText() == "medium"
    feeder.setCurrentIndex(feeder.findData("light"))
    retype(editor_of(browser).note, "they burn here")
    editor_of(browser).pause.timeout.emit()
    settle(qtbot, window)
    effect = editor_of(browser).effect.text()
    assert effect.startswith("Today it changes 1 of 1 plant: A1's own strength from ")
    keep(qtbot, window, browser)
    assert not browser.save_button.isVisible()
    assert text(browser, "value-feeder") == "light"
    assert text(browser, "backing-feeder") == "yours; shipped: medium. “they burn here”"
    item = browser.kinds.rows.currentItem()
    assert item.text() == "Cattleya, one-leaved, and hybrids, 1 correction"
    assert browser.said.text().endswith("feeder corrected")
    after = [line.strength_ppm_n for line in window.day_list.model.lines]
    assert after != before
    click(browser, "restore-feeder")
    settle(qtbot, window)
    assert text(browser, "value-feeder") == "medium"
    assert [line.strength_ppm_n for line in window.day_list.model.lines] == before
    assert browser.said.text().endswith("feeder as shipped")
    focused = browser.focusWidget()
    assert focused is not None
    assert focused.objectName() == "correct-feeder"


def test_fields_that_go_together_are_edited_together(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    to_kind(browser, "cattleya")
    click(browser, "correct-rest_months")
    months, rest = field(browser, "rest_months"), field(browser, "rest")
    assert isinstance(months, MonthsEdit)
    assert isinstance(rest, QComboBox)
    assert months.held() == (1, 2, 11, 12)
    rest.setCurrentIndex(rest.findData("none"))
    keep(qtbot, window, browser)
    assert "does not go with rest months November to February" in (
        rest.accessibleDescription()
    )
    months.hold(())
    keep(qtbot, window, browser)
    assert text(browser, "value-rest") == "none"
    assert text(browser, "backing-rest") == "yours; shipped: reduced"
    assert "November to February" in text(browser, "backing-rest_months")


def test_a_slip_stands_beside_its_field_and_loses_nothing(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    to_kind(browser, "cattleya")
    click(browser, "correct-ceiling_ppm_n")
    line = field(browser, "ceiling_ppm_n")
    assert isinstance(line, QLineEdit)
    for typed, told in (
        ("lots", "is not a number"),
        ("0", "Give a number from 1 to 1000 ppm N, or leave it empty."),
    ):
        retype(line, typed)
        keep(qtbot, window, browser)
        assert told in line.accessibleDescription()
        assert line.text() == typed
    retype(line, "87,5 ppm N")
    keep(qtbot, window, browser)
    assert text(browser, "value-ceiling_ppm_n") == "87.5 ppm N"


def test_nothing_changed_is_nothing_to_keep_but_a_note_alone_is(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    to_kind(browser, "cattleya")
    click(browser, "correct-base_c")
    keep(qtbot, window, browser)
    shown = " ".join(e.text() for e in browser.findChildren(QLabel) if e.isVisible())
    assert "There is nothing to save: nothing was changed." in shown
    line = field(browser, "base_c")
    assert isinstance(line, QLineEdit)
    retype(line, "9")
    keep(qtbot, window, browser)
    click(browser, "correct-base_c")
    retype(editor_of(browser).note, "measured")
    keep(qtbot, window, browser)
    assert text(browser, "backing-base_c") == "yours; shipped: 8 °C. “measured”"


def test_what_is_left_open_is_kept_as_a_draft(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    to_kind(browser, "cattleya")
    click(browser, "correct-advice")
    browser.page.findChild(KindEditor)
    retype(editor_of(browser).note, "half done")
    browser.reject()
    window.commands["kinds"].trigger()
    settle(qtbot, window)
    again = dialog_of(window, KindsDialog)
    assert editor_of(again).name == "advice"
    assert editor_of(again).note.text() == "half done"
    press(again, "Cancel")
    assert again.kept() == {}
    again.reject()
    assert open_dialogs(window) == []


def test_another_kind_keeps_what_was_typed_for_the_first(
    browser: KindsDialog,
) -> None:
    to_kind(browser, "cattleya")
    click(browser, "correct-base_c")
    retype(field(browser, "base_c"), "9")
    to_kind(browser, "vanda")
    assert text(browser, "kind-title").startswith("Vanda")
    to_kind(browser, "cattleya")
    click(browser, "correct-base_c")
    line = field(browser, "base_c")
    assert isinstance(line, QLineEdit)
    assert line.text() == "9"


def test_the_detail_leads_to_the_kind_and_corrects_one_plant_only(
    window: Window, qtbot: QtBot, stocked: Collection
) -> None:
    go_to(window, "A1")
    settle(qtbot, window)
    leading = window.detail.findChild(QLabel, "to-kind")
    assert isinstance(leading, QLabel)
    assert "Cattleya, one-leaved, and hybrids · East window" in leading.accessibleName()
    leading.linkActivated.emit("#")
    settle(qtbot, window)
    dialog = dialog_of(window, KindsDialog)
    assert text(dialog, "kind-title") == "Cattleya, one-leaved, and hybrids"
    assert dialog.scope.isVisible()
    assert dialog.scope.currentText() == "Corrections hold for A1 only"
    click(dialog, "correct-feeder")
    assert dialog.save_button.text() == "Save for A1 only"
    feeder = field(dialog, "feeder")
    assert isinstance(feeder, QComboBox)
    feeder.setCurrentIndex(feeder.findData("light"))
    editor_of(dialog).pause.timeout.emit()
    settle(qtbot, window)
    assert (
        editor_of(dialog)
        .effect.text()
        .startswith("Today it takes A1's own strength from ")
    )
    keep(qtbot, window, dialog)
    assert text(dialog, "backing-feeder") == "yours; its kind: medium"
    settle(qtbot, window)
    said = [each.text() for each in window.detail.findChildren(QLabel)]
    assert "You corrected its kind for this plant: feeder light." in said
    dialog.scope.setCurrentIndex(0)
    assert text(dialog, "value-feeder") == "medium"
    dialog.scope.setCurrentIndex(1)
    click(dialog, "restore-feeder")
    settle(qtbot, window)
    assert text(dialog, "value-feeder") == "medium"
    assert stocked.history.view().undo is not None
    to_kind(dialog, "vanda")
    assert not dialog.scope.isVisible()


def test_the_menu_offers_the_plant_that_is_chosen_too(
    window: Window, qtbot: QtBot
) -> None:
    go_to(window, "A2")
    settle(qtbot, window)
    window.commands["kinds"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, KindsDialog)
    assert text(dialog, "kind-title").startswith("Oncidium")
    scopes = [dialog.scope.itemText(row) for row in range(dialog.scope.count())]
    assert scopes[1] == "Corrections hold for A2 only"
    assert dialog.scope.currentIndex() == 0
    click(dialog, "correct-feeder")
    assert dialog.save_button.text() == "Save for the kind"


def test_the_button_says_for_how_many_plants_it_saves(
    window: Window, qtbot: QtBot, stocked: Collection
) -> None:
    stocked.plants.add(PlantDraft("A9", "Cattleya trianae", "cattleya"))
    window.commands["kinds"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, KindsDialog)
    to_kind(dialog, "cattleya")
    click(dialog, "correct-feeder")
    assert dialog.save_button.text() == "Save for all 2 plants"


def test_escape_closes_the_editor_first_and_loses_nothing(
    browser: KindsDialog, qtbot: QtBot
) -> None:
    browser.activateWindow()
    qtbot.waitUntil(browser.isActiveWindow)
    to_kind(browser, "cattleya")
    click(browser, "correct-base_c")
    retype(field(browser, "base_c"), "9")
    QTest.keyClick(field(browser, "base_c"), Qt.Key.Key_Escape)
    assert browser.isVisible()
    assert browser.findChild(KindEditor) is None or not browser.save_button.isVisible()
    assert browser.said.text().startswith("What you typed waits there")
    focused = browser.focusWidget()
    assert focused is not None
    assert focused.objectName() == "correct-base_c"
    click(browser, "correct-base_c")
    line = field(browser, "base_c")
    assert isinstance(line, QLineEdit)
    assert line.text() == "9"
    press(browser, "Cancel")
    QTest.keyClick(browser.focusWidget(), Qt.Key.Key_Escape)
    assert not browser.isVisible()


def test_light_is_told_at_midday_and_for_the_day(browser: KindsDialog) -> None:
    """0.2 µmol for a foot-candle, twelve hours, 2/π of the midday light on average."""
    to_kind(browser, "vanda")
    at_midday, _, a_day = text(browser, "value-light_low_fc").partition(", about ")
    fc = float(at_midday.removesuffix(" foot-candles"))
    told = float(a_day.removesuffix(" mol a day"))
    assert told == pytest.approx(fc * 0.2 * 12 * 3600 / 1e6 * 2 / pi, abs=0.06)


def test_what_no_longer_fits_is_named_and_thrown_away(
    stocked: Collection,
    show: Callable[[Collection], Window],
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    stocked.kinds.correct("vanda", {"feeder": "light"})
    table = kinds.table()
    fewer = {key: kind for key, kind in table.kinds.items() if key != "vanda"}
    names = {n: k for n, k in table.by_genus.items() if k != "vanda"}
    gone = replace(table, kinds=fewer, by_genus=names)
    monkeypatch.setattr(kinds, "table", lambda: gone)
    window = show(stocked)
    window.commands["kinds"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, KindsDialog)
    told = [e.text() for e in dialog.findChildren(QLabel) if e.isVisible()]
    assert any("Kind vanda: your feeder, “light”" in line for line in told)
    press(dialog, "Remove")
    settle(qtbot, window)
    told = [e.text() for e in dialog.findChildren(QLabel) if e.isVisible()]
    assert not any("Kind vanda" in line for line in told)


def test_every_control_is_named_with_the_editors_open(browser: KindsDialog) -> None:
    to_kind(browser, "catasetum")
    for name in ("rest", "ceiling_ppm_n", "advice", "stop_c", "title"):
        click(browser, f"correct-{name}")
        assert nameless(browser) == []
        assert unlabelled(browser) == []
        found = mnemonics(browser)
        assert sorted(found) == sorted(set(found))


def test_the_browser_works_by_keyboard_alone(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    browser.activateWindow()
    qtbot.waitUntil(browser.isActiveWindow)
    assert browser.kinds.find_line.hasFocus()
    QTest.keyClicks(browser.kinds.find_line, "cattleya")
    QTest.keyClick(browser.kinds.find_line, Qt.Key.Key_Return)
    settle(qtbot, window)
    assert browser.focusWidget() is browser.kinds.rows
    assert browser.isVisible()
    seen = set()
    for _ in range(120):
        browser.focusNextChild()
        now = browser.focusWidget()
        assert now is not None
        seen.add(now.objectName())
        if now.objectName() == "correct-feeder":
            break
    assert "correct-habit" in seen
    QTest.keyClick(browser.focusWidget(), Qt.Key.Key_Space)
    feeder = field(browser, "feeder")
    assert browser.focusWidget() is feeder
    QTest.keyClick(feeder, Qt.Key.Key_Down)
    QTest.keyClick(feeder, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    settle(qtbot, window)
    assert text(browser, "value-feeder") == "heavy"
    focused = browser.focusWidget()
    assert focused is not None
    assert focused.objectName() == "correct-feeder"


def test_an_answer_that_comes_late_closes_no_other_editor(
    window: Window, qtbot: QtBot, browser: KindsDialog
) -> None:
    to_kind(browser, "cattleya")
    click(browser, "correct-base_c")
    retype(field(browser, "base_c"), "9")
    press(browser, "Save for the kind")
    to_kind(browser, "vanda")
    click(browser, "correct-stop_c")
    retype(field(browser, "stop_c"), "37")
    settle(qtbot, window)
    assert editor_of(browser).name == "stop_c"
    line = field(browser, "stop_c")
    assert isinstance(line, QLineEdit)
    assert line.text() == "37"
    assert set(browser.kept()) == {("vanda", None, "stop_c")}
    to_kind(browser, "cattleya")
    assert text(browser, "value-base_c") == "9 °C"


def test_the_effect_is_told_for_none_few_and_many(stocked: Collection) -> None:
    view = next(v for v in stocked.kinds.all() if v.key == "vanda")
    effect = stocked.kinds.effect("vanda", {"feeder": "light"})
    assert kind_texts.effect_line(effect, view) == (
        "No plant of yours is of this kind, so nothing changes today."
    )
    view = next(v for v in stocked.kinds.all() if v.key == "cattleya")
    effect = stocked.kinds.effect("cattleya", {"advice": "Mind it."})
    assert kind_texts.effect_line(effect, view) == (
        "Today it changes nothing for your 1 plant of this kind."
    )
    effect = stocked.kinds.effect("cattleya", {"feeder": "light"})
    many = replace(effect, plants=9, turned=effect.turned * 6)
    assert kind_texts.effect_line(many, view).endswith("and 2 more.")
    assert kind_texts.effect_line(many, view).startswith("Today it changes 6 of 9 plan")
