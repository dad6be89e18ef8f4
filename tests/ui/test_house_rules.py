"""The page of house rules: finding, going back, and what a change would do."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QPushButton
from typing_extensions import override

from growdesk.domain.facts import House
from growdesk.services.house_rules import DECLARED
from growdesk.services.rule_effects import HouseEffect
from growdesk.ui import rule_words
from growdesk.ui.dialogs.rule_editors import WeekdaysEdit
from growdesk.ui.dialogs.settings import SettingsDialog
from growdesk.ui.widgets.month_day import MonthDayEdit
from tests.ui.driving import dialog_of, retype, settle

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ESCAPE, RETURN = Qt.Key.Key_Escape, Qt.Key.Key_Return
DAYS_KEY, NITROGEN, FULL = (
    "watering_weekdays",
    "no_nitrogen_from",
    "full_strength_ppm_n",
)


class Roomy(SettingsDialog):
    """The dialog on a screen that has room for the headings."""

    @override
    def room(self) -> QSize:
        return QSize(1264, 752)


def opened(qtbot: QtBot, dialog: SettingsDialog) -> SettingsDialog:
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    return dialog


@pytest.fixture
def page(qtbot: QtBot) -> SettingsDialog:
    return opened(qtbot, Roomy(None, DECLARED, House()))


def line(page: SettingsDialog, key: str) -> QLineEdit:
    found = page.form.editor(key)
    assert isinstance(found, QLineEdit)
    return found


def shown(page: SettingsDialog) -> set[str]:
    return {key for key, editor in page.form.editors.items() if editor.isVisible()}


def headings(page: SettingsDialog) -> list[str]:
    rows = page.finding.headings
    items = [rows.item(row) for row in range(rows.count())]
    return [item.text() for item in items if not item.isHidden()]


def ways_back(page: SettingsDialog) -> dict[str, QPushButton]:
    return {
        each.accessibleName(): each
        for each in page.form.findChildren(QPushButton)
        if each.isVisible()
    }


# -- what stands on the page ----------------------------------------------------------


def test_each_rule_says_what_it_means_and_where_its_default_is_from(
    page: SettingsDialog,
) -> None:
    said = [each.text() for each in page.findChildren(QLabel) if each.isVisible()]
    for setting in DECLARED:
        assert setting.title in said
        assert setting.text in said
        assert rule_words.default(setting) in said
        assert said.count(setting.group) == 1
    assert "Default 150 ppm N." in " ".join(said)


def test_the_page_fits_a_small_screen_without_its_headings(qtbot: QtBot) -> None:
    class Small(SettingsDialog):
        @override
        def room(self) -> QSize:
            return QSize(784, 552)

    small = opened(qtbot, Small(None, DECLARED, House()))
    assert not small.finding.headings.isVisible()
    assert small.width() <= 784
    assert small.height() <= 552
    retype(line(small, FULL), "300")
    small.form.editors[DAYS_KEY].setFocus()
    for setting in DECLARED:
        rule_editor = small.form.editors[setting.key]
        assert rule_editor.isVisible()
    assert small.minimumSizeHint().width() <= 784


# -- finding --------------------------------------------------------------------------


def test_the_page_opens_at_the_find_line_and_narrows_as_it_is_typed(
    page: SettingsDialog,
) -> None:
    assert page.finding.line.hasFocus()
    assert shown(page) == {setting.key for setting in DECLARED}
    QTest.keyClicks(page.finding.line, "NITROGEN back")
    assert shown(page) == {"nitrogen_back_from"}
    assert headings(page) == ["Rests"]
    QTest.keyClick(page.finding.line, ESCAPE)
    assert shown(page) == {setting.key for setting in DECLARED}
    assert page.isVisible()
    QTest.keyClick(page.finding.line, ESCAPE)
    assert not page.isVisible()


def test_enter_goes_to_the_first_rule_found_and_saves_nothing(
    page: SettingsDialog,
) -> None:
    sent: list[object] = []
    page.saved.connect(sent.append)
    QTest.keyClicks(page.finding.line, "sphagnum")
    of_moss = {"feeds_before_flush_sphagnum", "sphagnum_share", "sphagnum_years"}
    assert shown(page) == of_moss
    QTest.keyClick(page.finding.line, RETURN)
    assert line(page, "feeds_before_flush_sphagnum").hasFocus()
    assert sent == []
    QTest.keyClick(line(page, "feeds_before_flush_sphagnum"), RETURN)
    assert sent == []


def test_enter_in_a_field_shows_what_it_would_do_and_saves_nothing(
    page: SettingsDialog,
) -> None:
    sent: list[object] = []
    asked: list[object] = []
    page.saved.connect(sent.append)
    page.effect_wanted.connect(asked.append)
    retype(line(page, FULL), "200")
    QTest.keyClick(line(page, FULL), RETURN)
    new = replace(House(), full_strength_ppm_n=200)
    assert (asked, sent) == ([new], [])
    assert line(page, FULL).hasFocus()
    QTest.keyClick(line(page, FULL), RETURN, Qt.KeyboardModifier.ControlModifier)
    assert sent == [new]


def test_enter_on_a_slip_tells_it_beside_its_field(page: SettingsDialog) -> None:
    retype(line(page, FULL), "many")
    QTest.keyClick(line(page, FULL), RETURN)
    assert "is not a number" in line(page, FULL).accessibleDescription()
    assert page.preview.text().startswith("Full strength: “many” is not a number.")


def test_a_page_left_as_it_is_closes_and_writes_nothing(page: SettingsDialog) -> None:
    sent: list[object] = []
    page.saved.connect(sent.append)
    page.try_save()
    assert sent == []
    assert not page.isVisible()


def test_a_latitude_never_said_is_sent_as_it_stands(qtbot: QtBot) -> None:
    first = opened(qtbot, Roomy(None, DECLARED, House(), "latitude", unsaid=True))
    sent: list[object] = []
    first.saved.connect(sent.append)
    first.try_save()
    assert sent == [House()]


def test_the_page_ends_where_its_last_rule_does(page: SettingsDialog) -> None:
    lowest = max(
        each.mapTo(page.form, each.rect().bottomLeft()).y()
        for each in page.form.findChildren(QLabel)
        if each.isVisible()
    )
    inner = page.area.widget()
    assert inner is not None
    assert inner.height() - lowest < 40
    assert page.area.verticalScrollBar().maximum() == (
        inner.height() - page.area.viewport().height()
    )


def test_the_watering_days_stand_in_one_row(page: SettingsDialog) -> None:
    boxes = page.form.editors[DAYS_KEY].findChildren(QCheckBox)
    assert len({box.y() for box in boxes}) == 1
    assert len({box.x() for box in boxes}) == 7


def test_the_heading_marked_is_that_of_most_in_sight(page: SettingsDialog) -> None:
    rows, bar = page.finding.headings, page.area.verticalScrollBar()
    jugs = page.form.editors["jugs"]
    inner = page.area.widget()
    assert inner is not None
    top = jugs.mapTo(inner, jugs.rect().topLeft()).y()
    bar.setValue(top - page.area.viewport().height() // 3)
    assert rows.currentItem().text() == "Jugs and water"


def test_a_word_in_no_rule_says_so(page: SettingsDialog) -> None:
    QTest.keyClicks(page.finding.line, "tulips")
    assert shown(page) == set()
    said = [each.text() for each in page.findChildren(QLabel) if each.isVisible()]
    assert any(text.startswith("No rule has these words") for text in said)
    assert page.draft() == House(), "a rule out of sight still counts"


def test_a_slip_out_of_sight_is_brought_back_into_it(page: SettingsDialog) -> None:
    retype(line(page, "jugs"), "many")
    page.finding.line.setText("nitrogen")
    page.try_save()
    assert line(page, "jugs").isVisible()
    assert line(page, "jugs").hasFocus()
    assert "is not a number" in line(page, "jugs").accessibleDescription()


def test_a_heading_is_jumped_to_and_follows_the_page(page: SettingsDialog) -> None:
    rows, bar = page.finding.headings, page.area.verticalScrollBar()
    assert rows.isVisible()
    assert rows.currentItem().text() == "The house"
    light = next(
        row for row in range(rows.count()) if rows.item(row).text().startswith("Light")
    )
    rows.setCurrentRow(light)
    where = bar.value()
    assert where > 0
    first = page.form.editors["full_radiation_mj_per_m2_d"]
    top = first.mapTo(page.area.viewport(), first.rect().topLeft()).y()
    assert 0 < top < 80
    bar.setValue(0)
    assert rows.currentItem().text() == "The house"
    bar.setValue(where)
    assert rows.currentRow() == light
    bar.setValue(bar.maximum())
    assert rows.currentItem().text() == DECLARED[-1].group


# -- back to the default --------------------------------------------------------------


def test_only_a_rule_that_differs_has_a_way_back(page: SettingsDialog) -> None:
    assert ways_back(page) == {}
    retype(line(page, FULL), "200")
    (name,) = ways_back(page)
    assert name == "Full strength: Back to default, 150 ppm N"
    assert ways_back(page)[name].text() == "Back to default"
    retype(line(page, FULL), "many")
    ways_back(page)[name].click()
    assert line(page, FULL).text() == "150"
    assert line(page, FULL).hasFocus()
    assert ways_back(page) == {}


def test_days_and_switches_go_back_too(page: SettingsDialog) -> None:
    editors = page.form.editors
    days, day = editors[DAYS_KEY], editors[NITROGEN]
    spike = editors["spike_draws_feed_always"]
    assert isinstance(days, WeekdaysEdit)
    assert isinstance(day, MonthDayEdit)
    days.set_days((0,))
    day.set_month_day((10, 1))
    assert isinstance(spike, QCheckBox)
    spike.click()
    assert page.draft() == replace(
        House(),
        watering_weekdays=(0,),
        no_nitrogen_from=(10, 1),
        spike_draws_feed_always=True,
    )
    assert len(ways_back(page)) == 2, "the watering days are the grower's to say"
    for each in ways_back(page).values():
        each.click()
    assert page.draft() == replace(House(), watering_weekdays=(0,))
    assert ways_back(page) == {}


@pytest.mark.parametrize(("key", "text"), [("latitude", "48"), ("jugs", "2")])
def test_what_is_the_growers_to_say_has_no_way_back(
    key: str, text: str, page: SettingsDialog
) -> None:
    retype(line(page, key), text)
    assert ways_back(page) == {}


@pytest.mark.parametrize(
    ("key", "text", "hint"),
    [
        ("latitude", "95", "Give -90 to 90."),
        ("idle_share", "0", "Give more than 0 and at most 100 per cent."),
        ("strength_step_ppm_n", "0", "Give more than 0 and at most 100."),
        ("stall_days", "1.5", "is not a whole number"),
        ("rooted_mm", "", "This is empty. Write say 25."),
    ],
)
def test_a_bad_value_names_what_can_be_meant(
    page: SettingsDialog, key: str, text: str, hint: str
) -> None:
    line(page, key).setText(text)
    page.try_save()
    assert hint in line(page, key).accessibleDescription()
    assert line(page, key).text() == text


# -- what it would change -------------------------------------------------------------


def preview(page: SettingsDialog) -> str:
    return page.preview.text().replace("\u00a0", " ")


def test_a_change_is_asked_about_a_moment_later_and_once(
    page: SettingsDialog, qtbot: QtBot
) -> None:
    asked: list[House] = []
    page.effect_wanted.connect(asked.append)
    assert preview(page).startswith("Change a rule")
    retype(line(page, FULL), "200")
    assert asked == []
    qtbot.waitUntil(lambda: bool(asked))
    assert asked == [replace(House(), full_strength_ppm_n=200)]
    assert preview(page) == "Judging all plants under these rules…"
    retype(line(page, FULL), "150")
    qtbot.waitUntil(lambda: preview(page).startswith("Change a rule"))
    assert len(asked) == 1


def test_a_bad_value_is_said_and_not_judged(page: SettingsDialog, qtbot: QtBot) -> None:
    asked: list[House] = []
    page.effect_wanted.connect(asked.append)
    retype(line(page, FULL), "many")
    qtbot.waitUntil(lambda: "is not a number" in preview(page))
    assert preview(page).startswith("Full strength: “many” is not a number.")
    assert page.preview.property("tone") == "wrong"
    assert asked == []
    retype(line(page, FULL), "200")
    qtbot.waitUntil(lambda: bool(asked))
    assert page.preview.property("tone") == ""


def test_an_answer_to_rules_that_no_longer_stand_is_dropped(
    page: SettingsDialog, qtbot: QtBot, today: date
) -> None:
    asked: list[House] = []
    page.effect_wanted.connect(asked.append)
    retype(line(page, FULL), "200")
    qtbot.waitUntil(lambda: bool(asked))
    effect = HouseEffect(today, (), (), ())
    page.show_effect(replace(House(), full_strength_ppm_n=210), effect)
    assert preview(page).startswith("Judging")
    page.show_effect(asked[0], effect)
    assert preview(page) == "On Wednesday 20 May nothing would change."


@pytest.fixture
def window(stocked: Collection, show: Callable[[Collection], Window]) -> Window:
    return show(stocked)


def test_the_window_tells_what_a_rule_would_change_before_it_is_kept(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    window.commands["settings"].trigger()
    settle(qtbot, window)
    page = dialog_of(window, SettingsDialog)
    retype(line(page, FULL), "200")
    qtbot.waitUntil(lambda: preview(page).startswith("On Wednesday 20 May"))
    assert "2 plants would get another strength: A1 150 → 200 ppm N" in preview(page)
    assert "→" not in page.preview.accessibleName()
    retype(line(page, FULL), "150")
    retype(line(page, "look_limit_days"), "1")
    qtbot.waitUntil(lambda: "nothing would change" in preview(page))
    retype(line(page, "strength_floor_ppm_n"), "390")
    retype(line(page, "strength_ceiling_ppm_n"), "300")
    qtbot.waitUntil(lambda: "is above the ceiling" in preview(page))
    assert preview(page).startswith("Weakest feed: ")
    settle(qtbot, window)
    assert stocked.settings.house() == House()
    for each in ways_back(page).values():
        each.click()
    QTest.keyClick(line(page, FULL), ESCAPE)
    assert window.unsaved_line() == ""
