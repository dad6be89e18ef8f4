"""A form that cannot be saved can be left."""

from __future__ import annotations

from typing import TYPE_CHECKING

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
