"""A form that cannot be saved can be left; an empty clipboard is no picture."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from growdesk.ui import pasted
from growdesk.ui.dialogs.rain import RainDialog

if TYPE_CHECKING:
    from datetime import date

    from pytestqt.qtbot import QtBot


def test_a_form_with_nothing_to_save_is_left_by_escape(
    qtbot: QtBot, today: date
) -> None:
    dialog = RainDialog(None, (), today)
    qtbot.addWidget(dialog)
    dialog.show()
    assert not dialog.save_button.isEnabled()
    dialog.reject()
    assert not dialog.isVisible()


def test_a_form_that_is_being_written_waits_for_its_answer(
    qtbot: QtBot, today: date
) -> None:
    dialog = RainDialog(None, (), today)
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.send(dialog.draft())
    dialog.reject()
    assert dialog.isVisible()
    dialog.refused(ValueError("the disk is full"))
    dialog.reject()
    assert not dialog.isVisible()


def test_a_clipboard_that_nobody_filled_holds_no_picture(qtbot: QtBot) -> None:
    asker = QWidget()
    qtbot.addWidget(asker)
    assert not pasted.pictures_in(None, asker, print)
