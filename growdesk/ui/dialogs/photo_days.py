"""Ask for the days of photos whose camera wrote none; the files' own are proposed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes, typed, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from PySide6.QtWidgets import QLineEdit, QWidget

    from growdesk.services.photo_values import DayProposal

TOLD = mark(
    "No camera wrote a day into these photos. Proposed is the day their file was"
    " written, which may be the day of a copy. Put right what differs, or empty what"
    " you do not know."
)


class PhotoDaysDialog(FormDialog):
    """A line for each photo without a day."""

    def __init__(
        self, parent: QWidget | None, tag: str, proposals: Sequence[DayProposal]
    ) -> None:
        super().__init__(
            parent, tr("Days of photos of {tag}").format(tag=tag), tr("Save")
        )
        sizes.least_wide(self, 460)
        self.top.addWidget(label(tr(TOLD)))
        self.days: dict[int, QLineEdit] = {}
        for each in proposals:
            photo_id = each.photo.photo_id
            proposed = each.file_day
            hint = (
                tr("file of {short_day}").format(short_day=words.short_day(proposed))
                if proposed
                else tr("not known")
            )
            shown = each.file_name.replace("&", "&&") or tr("pasted")
            line = self.form.line(f"photo-{photo_id}", shown, hint)
            line.setText(figures(proposed) if proposed else "")
            line.setAccessibleName(
                tr("Day of {file_name}").format(file_name=each.file_name)
            )
            self.days[photo_id] = line
        self.body.addWidget(self.form)
        self.body.addStretch(1)
        self.begin()

    @override
    def draft(self) -> Mapping[int, date | None]:
        """Give the days as entered."""
        return {
            photo_id: typed.day(line.text(), f"photo-{photo_id}")
            for photo_id, line in self.days.items()
        }

    @override
    def kept(self) -> object:
        """Keep no draft: each photo's own form takes its day later."""
        return {}
