"""From a sentence to its rule: one press away, by mouse and by keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt, QUrl
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from growdesk.domain.facts import House
from growdesk.domain.rule_book import title_of
from growdesk.services.rule_views import PART_TITLES, rule_views
from growdesk.ui import theme
from growdesk.ui.dialogs.rule import RulesDialog
from growdesk.ui.dialogs.settings import SettingsDialog
from tests.ui.driving import dialog_of, focused, front, go_to, key, press, settle

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

VIEWS = rule_views(House())


def ways(window: Window) -> list[QPushButton]:
    """Give the buttons that lead from a sentence to its rule."""
    buttons = window.detail.findChildren(QPushButton)
    return [each for each in buttons if each.property("about") == "true"]


def opened(qtbot: QtBot, window: Window) -> RulesDialog:
    settle(qtbot, window)
    return dialog_of(window, RulesDialog)


@pytest.fixture
def dialog(qtbot: QtBot) -> RulesDialog:
    made = RulesDialog(None, VIEWS, "unfed-rest")
    qtbot.addWidget(made)
    made.show()
    return made


@pytest.mark.parametrize("tag", ["A1", "A3"])
def test_each_sentence_has_a_way_to_its_own_rule(
    tag: str, qtbot: QtBot, window: Window
) -> None:
    go_to(window, tag)
    settle(qtbot, window)
    detail = window.desk.detail
    assert detail is not None
    rules = [told.rule for told in detail.told]
    rules += [
        rule
        for rule, told in (
            ("strength", detail.strength_sentence),
            ("would-change", detail.would_change),
            ("old-sign", detail.old_sign),
            ("salts", detail.salts or detail.salts_assume),
        )
        if told
    ]
    named = [each.accessibleName() for each in ways(window)]
    again = [rules[:place].count(rule) + 1 for place, rule in enumerate(rules)]
    assert sorted(named) == sorted(
        f"About the rule: {title_of(rule)}" + (f", {number}" if number > 1 else "")
        for rule, number in zip(rules, again, strict=True)
    )
    assert all(each.height() >= 24 and each.width() >= 24 for each in ways(window))


def test_one_press_opens_the_rule_of_the_sentence(qtbot: QtBot, window: Window) -> None:
    detail = window.desk.detail
    assert detail is not None
    ways(window)[0].click()
    dialog = opened(qtbot, window)
    assert dialog.shown.rule == detail.told[0].rule
    for heading, text in dialog.shown.parts():
        assert heading in dialog.page.toPlainText()
        assert text in dialog.page.toPlainText()


def test_the_keyboard_gets_there_too(qtbot: QtBot, window: Window) -> None:
    front(qtbot, window)
    change = window.detail.findChild(QPushButton, "change-plant")
    assert isinstance(change, QPushButton)
    change.setFocus()
    key(Qt.Key.Key_Tab)
    assert focused() is ways(window)[0]
    key(Qt.Key.Key_Space)
    dialog = opened(qtbot, window)
    qtbot.waitUntil(dialog.isActiveWindow)
    before = dialog.shown.rule
    key(Qt.Key.Key_Up)
    assert dialog.shown.rule != before


def test_the_menu_opens_all_rules_at_their_order(qtbot: QtBot, window: Window) -> None:
    window.commands["rules"].trigger()
    dialog = opened(qtbot, window)
    assert dialog.shown.rule == "order"
    entries = [dialog.list.item(row).text() for row in range(dialog.list.count())]
    assert "1. Overruled" in entries
    assert {view.title for view in VIEWS} <= {e.split(". ")[-1] for e in entries}


def test_a_heading_in_the_list_is_passed_over(dialog: RulesDialog) -> None:
    dialog.go_to("growing")
    dialog.list.setFocus()
    row = dialog.list.currentRow()
    heading = dialog.list.item(row + 1)
    assert not heading.flags() & Qt.ItemFlag.ItemIsSelectable
    press(dialog, "&Next")
    assert dialog.shown.rule == "bloom"
    assert dialog.list.currentRow() == row + 2


def test_previous_and_next_walk_from_end_to_end(dialog: RulesDialog) -> None:
    dialog.go_to(VIEWS[0].rule)
    assert not dialog.previous.isEnabled()
    seen = [dialog.shown.rule]
    while dialog.next.isEnabled():
        dialog.next.click()
        seen.append(dialog.shown.rule)
    assert seen == [view.rule for view in VIEWS]
    dialog.previous.click()
    assert dialog.shown.rule == VIEWS[-2].rule


def test_the_page_says_where_the_rule_stands(dialog: RulesDialog) -> None:
    text = dialog.page.toPlainText()
    assert dialog.shown.stands[0] in text
    assert "Gives way to: Overruled; Leafless rest" in text
    assert "Comes before: Just repotted" in text
    assert dialog.page.accessibleName() == "The rule: Unfed rest"


def test_a_rule_that_is_not_there_leaves_the_page(dialog: RulesDialog) -> None:
    dialog.go_to("no-such-rule")
    assert dialog.shown.rule == "unfed-rest"


def test_the_numbers_are_those_of_the_house(
    qtbot: QtBot, stocked: Collection, show: Callable[[Collection], Window]
) -> None:
    house = stocked.settings.house()
    stocked.settings.save_house(replace(house, look_limit_days=35))
    window = show(stocked)
    window.detail.rule_wanted.emit("look-out-of-date")
    page = opened(qtbot, window).page.toPlainText()
    assert "within the last 35 days?" in page
    assert "A look holds for: 35 days" in page


@pytest.mark.parametrize("by_link", [True, False], ids=["link", "button"])
def test_a_number_leads_to_its_house_rule(
    qtbot: QtBot, window: Window, *, by_link: bool
) -> None:
    window.detail.rule_wanted.emit("too-soon")
    dialog = opened(qtbot, window)
    assert [number.key for number in dialog.shown.numbers] == ["least_interval_days"]
    if by_link:
        assert 'href="setting:least_interval_days"' in dialog.page.toHtml()
        dialog.page.anchorClicked.emit(QUrl("setting:least_interval_days"))
    else:
        press(dialog, "&House rules…")
    settle(qtbot, window)
    house = dialog_of(window, SettingsDialog)
    qtbot.waitUntil(house.isActiveWindow)
    assert QApplication.focusWidget() is house.form.editor("least_interval_days")


def test_every_number_can_be_set_on_the_settings_page(window: Window) -> None:
    declared = {s.key for s in window.desk.collection.settings.declared()}
    named = {number.key for view in VIEWS for number in view.numbers}
    assert len(named) > 20
    assert named <= declared


def test_the_page_takes_the_colours_in_force(dialog: RulesDialog) -> None:
    assert theme.LIGHT.muted in dialog.page.toHtml()
    theme.current().choose(theme.Mode.DARK)
    assert theme.DARK.muted in dialog.page.toHtml()
    assert theme.LIGHT.muted not in dialog.page.toHtml()


def test_the_keyboard_follows_a_number_on_the_page(
    qtbot: QtBot, window: Window
) -> None:
    window.detail.rule_wanted.emit("too-soon")
    dialog = opened(qtbot, window)
    qtbot.waitUntil(dialog.isActiveWindow)
    dialog.page.setFocus()
    with qtbot.waitSignal(dialog.setting_wanted) as asked:
        key(Qt.Key.Key_Tab)
        key(Qt.Key.Key_Return)
    assert asked.args == ["least_interval_days"]


def shown_rules(dialog: RulesDialog) -> list[str]:
    items = [dialog.list.item(row) for row in range(dialog.list.count())]
    return [item.text() for item in items if not item.isHidden()]


def test_a_rule_is_found_by_a_word_of_its_page(qtbot: QtBot, window: Window) -> None:
    window.commands["rules"].trigger()
    dialog = opened(qtbot, window)
    every = shown_rules(dialog)
    QTest.keyClicks(dialog.find_line, "sphagnum")
    few = shown_rules(dialog)
    assert 0 < len(few) < len(every)
    assert "sphagnum" in dialog.page.toPlainText().casefold()
    assert set(few) <= set(every)
    headings = [text for text in few if text in PART_TITLES.values()]
    assert headings
    assert few[-1] not in headings, "no heading stands over nothing"
    QTest.keyClick(dialog.find_line, Qt.Key.Key_Return)
    assert dialog.focusWidget() is dialog.list
    while dialog.next.isEnabled():
        dialog.next.click()
        assert "sphagnum" in dialog.page.toPlainText().casefold()
    QTest.keyClick(dialog.find_line, Qt.Key.Key_Escape)
    assert shown_rules(dialog) == every
    assert dialog.isVisible()


def test_words_in_no_rule_are_told(qtbot: QtBot, window: Window) -> None:
    window.commands["rules"].trigger()
    dialog = opened(qtbot, window)
    before = dialog.shown.rule
    dialog.find_line.setText("tulips")
    assert shown_rules(dialog) == []
    said = [e.text() for e in dialog.findChildren(QLabel) if e.isVisible()]
    assert "No rule has these words." in said
    assert not dialog.next.isEnabled()
    assert dialog.shown.rule == before
    dialog.go_to("growing")
    assert dialog.shown.rule == "growing"


def test_the_pages_have_the_water_in_use(window: Window) -> None:
    views = window.desk.collection.settings.rules()
    numbers = {n.key: n.value for view in views for n in view.numbers}
    assert numbers["water_ec_ms_per_cm"].startswith("0.05 "), "the rain of the shelf"
