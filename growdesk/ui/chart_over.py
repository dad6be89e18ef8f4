"""Open a chart over a dialog or the window, and ask for what it shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PySide6.QtCore import SignalInstance

    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.chart import ChartDialog


def open_chart(dialog: ChartDialog, desk: Desk, save_wanted: SignalInstance) -> None:
    """Open a chart's dialog; it says what becomes of its asking and its saving."""
    dialog.save_wanted.connect(save_wanted)
    dialog.drawing_wanted.connect(desk.draw)
    desk.chart_arrived.connect(dialog.show_chart)
    desk.told.connect(dialog.say)
    dialog.open()
    desk.show_chart(dialog.wanted)
