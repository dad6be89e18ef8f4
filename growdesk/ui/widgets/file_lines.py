"""Lines in the head on the collection's file, and on a clock that cannot be right."""

from __future__ import annotations

from growdesk.domain.speech import tr
from growdesk.ui.widgets.modes import TellingLine


class LookingLine(TellingLine):
    """Says for good that nothing can be written here, why, and the way out."""

    def __init__(self) -> None:
        super().__init__("looking-only", lambda: None)
        self.go.hide()
        self.told.setProperty("tone", "wrong")

    def show_reason(self, reason: str) -> None:
        """Say why; no reason hides the line."""
        said = tr("You can look, not write: {reason}").format(reason=reason)
        self.tell(said if reason else "")
        self.setVisible(bool(reason))


class NoticeLine(TellingLine):
    """Says what was found about the file as it was opened, until it is hidden."""

    def __init__(self) -> None:
        super().__init__("file-notice", self.hide)
        self.go.setText(tr("Hide this"))
        self.told.setProperty("tone", "wrong")

    def show_notice(self, notice: str) -> None:
        """Say it; nothing hides the line."""
        self.tell(notice)
        self.setVisible(bool(notice))


class ClockLine(TellingLine):
    """Says that today lies before the last entry, as long as it does."""

    def __init__(self) -> None:
        super().__init__("clock-doubt", lambda: None)
        self.go.hide()
        self.told.setProperty("tone", "wrong")
        self.hide()

    def show_doubt(self, doubt: str) -> None:
        """Say it; nothing hides the line."""
        self.tell(doubt)
        self.setVisible(bool(doubt))
