"""Commands are declared once: each has a key, a menu and something it does."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QMenu

from growdesk.ui import actions

if TYPE_CHECKING:
    from PySide6.QtGui import QAction

    from growdesk.ui.window import Window


def test_no_key_is_given_twice() -> None:
    counted = Counter(
        sequence.toString()
        for command in actions.declared()
        for sequence in actions.first_keys(command)
    )
    assert [key for key, times in counted.items() if times > 1] == []


def test_no_command_is_declared_twice() -> None:
    keys = [command.key for command in actions.declared()]
    assert sorted(keys) == sorted(set(keys))


@pytest.mark.parametrize("command", actions.declared(), ids=lambda each: each.key)
def test_every_command_has_a_shortcut_here(command: actions.Command) -> None:
    assert actions.first_keys(command)


def test_every_command_is_in_a_menu_and_mnemonics_differ(window: Window) -> None:
    shown: set[str] = set()
    for bar_action in window.menuBar().actions():
        menu = bar_action.menu()
        assert isinstance(menu, QMenu)
        entries = [each for each in menu.actions() if not each.isSeparator()]
        shown |= {each.objectName() for each in entries}
        letters = [_mnemonic(each) for each in entries if _mnemonic(each)]
        assert sorted(letters) == sorted(set(letters)), bar_action.text()
    assert shown == {command.key for command in actions.declared()}


def test_every_entry_of_a_menu_has_a_letter() -> None:
    without = [each.key for each in actions.declared() if "&" not in each.text]
    assert without == []


TAKEN = {"Alt+F4", "Ctrl+Alt+Del", "Ctrl+Alt+T", "Ctrl+Alt+D", "Ctrl+Alt+L", "F10"} | {
    f"Ctrl+Alt+F{number}" for number in range(1, 13)
}
"""What window systems keep for themselves (X.Org's terminals, GNOME, Windows)."""


@pytest.mark.parametrize("command", actions.declared(), ids=lambda each: each.key)
def test_every_command_has_a_key_that_no_system_takes(command: actions.Command) -> None:
    keys = {sequence.toString() for sequence in actions.first_keys(command)}
    assert keys - TAKEN


def _mnemonic(action: QAction) -> str:
    text = action.text()
    return text[text.index("&") + 1].casefold() if "&" in text else ""
