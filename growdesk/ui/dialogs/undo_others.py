"""Ask before an undo takes back what somebody else did."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import tr
from growdesk.ui.dialogs.question import QuestionDialog

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class UndoOthersDialog(QuestionDialog):
    """The last step, whose it is, and whether it is to be taken back."""

    def __init__(self, parent: QWidget | None, title: str, who: str) -> None:
        text = tr(
            "The last step is {who}'s, not yours: “{title}”. Undo takes back the last"
            " step, whoever did it."
        ).format(who=who, title=title)
        super().__init__(
            parent,
            tr("Undo what {who} did?").format(who=who),
            text,
            keep=tr("&Leave it"),
            go=tr("&Undo it"),
        )
