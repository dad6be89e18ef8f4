"""Take in a move: to which place and bench, on which day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services.plant_moving import Where
from growdesk.ui import sizes, typed
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.place_choice import PlaceChoice
from growdesk.ui.widgets.whom_head import whom_head

if TYPE_CHECKING:
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.services.bench_values import BenchChoice
    from growdesk.services.values import PlaceView
    from growdesk.ui.dialogs.held import Held

CHOOSE = mark("choose a place")


class MoveStart(Struct, frozen=True):
    """What the form opens with; where all of them stand now, if they stand together."""

    whom: str
    on: date
    place_id: int | None
    places: tuple[PlaceView, ...]
    benches: tuple[BenchChoice, ...] = ()
    bench_id: int | None = None


class MoveDialog(FormDialog):
    """One or several plants that go to another place or bench."""

    def __init__(self, parent: QWidget | None, start: MoveStart) -> None:
        super().__init__(parent, tr("Move"), tr("Move"))
        self.body.addWidget(whom_head(start.whom))
        self.where = PlaceChoice(self.form, start.benches)
        self.day = self.form.line("on", tr("&Day"), typed.day_example())
        self.form.note(
            tr(
                "What moves stands last there, in this order. A move "
                "to another place is kept on record."
            )
        )
        self.form.end()
        self.body.addWidget(self.form)
        self.body.addStretch(1)
        self.day.setText(figures(start.on))
        self.where.offer(start.places, start.place_id, start.bench_id)
        self.where.place.setItemText(0, tr(CHOOSE))
        sizes.least_wide(self, 460)
        self.begin()
        self.where.place.setFocus()

    @override
    def draft(self) -> Where:
        """Give what was entered."""
        if self.where.place_id is None:
            hint = tr("Choose the place that they go to.")
            raise InputError("place_id", "", tr("is not chosen"), hint)
        day = typed.needed_day(self.day.text(), "on")
        return Where(self.where.place_id, self.where.bench_id, day)

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands, its day too, once anything was changed."""
        return self.held() if self.changes() else {}
