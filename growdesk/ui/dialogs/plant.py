"""Take in a plant, new or to be changed: what a tag needs first, the rest behind it.

Hands out a ``PlantDraft``. Each tab takes in its own part of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QTabWidget, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.dialogs.plant_apart import ApartOffer
from growdesk.ui.dialogs.plant_record_tabs import KeepingTab, OriginTab, StatusTab
from growdesk.ui.dialogs.plant_start import PlantStart
from growdesk.ui.dialogs.plant_tabs import PlantTab, RulesTab

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.values import PlaceView, PlantDraft
    from growdesk.ui.dialogs.held import Held

__all__ = ("PlantDialog", "PlantStart")


class PlantDialog(FormDialog):
    """One plant in tabs: the plant, its own rules, origin, keeping, status."""

    place_wanted = Signal()

    def __init__(
        self, parent: QWidget | None, start: PlantStart, guess: Callable[[str], str]
    ) -> None:
        is_new = start.plant_id is None
        title = (
            tr("New plant") if is_new else tr("Plant {tag}").format(tag=start.draft.tag)
        )
        save = tr("Add, then look") if is_new else tr("Save the plant")
        super().__init__(parent, title, save)
        self._start = start
        self.plant = PlantTab(start, guess, self.place_wanted.emit)
        self.rules = RulesTab()
        self.origin = OriginTab(start)
        self.keeping = KeepingTab()
        self.status = StatusTab(start.today)
        self._parts = (
            self.plant,
            self.rules,
            self.origin,
            self.keeping,
            self.status,
        )
        self.forms = tuple(each.form for each in self._parts)
        self.tag, self.name, self.kind = (
            self.plant.tag,
            self.plant.name,
            self.plant.kind,
        )
        self.place = self.plant.where.place
        self.guess_pause = self.plant.pause
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(tr("The plant"))
        for part in self._parts:
            self.tabs.addTab(_page(part.form), tr(part.title))
        self.apart = ApartOffer(start, (self.origin, self.keeping, self.status))
        self.body.addWidget(self.tabs)
        self.body.addWidget(self.apart.line)
        sizes.least_wide(self, 560)
        self._show(start.draft)
        self.apart.show()
        self.plant.where.turned.connect(self._stands_elsewhere)
        self.begin()
        self.name.setFocus()

    # -- FormDialog -----------------------------------------------------------------

    @override
    def draft(self) -> PlantDraft:
        """Give the plant as entered."""
        draft = self._start.draft
        for part in self._parts:
            draft = part.taken(draft)
        return draft

    @override
    def show_beside(self, error: Exception) -> bool:
        field = error.field if isinstance(error, InputError) else ""
        for number, form in enumerate(self.forms):
            if form.has(field):
                self.tabs.setCurrentIndex(number)
                form.show_error(error)
                return True
        return False

    @override
    def take_draft(self, kept: Held) -> None:
        self.plant.kind_chosen = self.plant.kind_chosen or "kind" in kept
        super().take_draft(kept)

    # -- places ---------------------------------------------------------------------

    def offer_places(self, places: tuple[PlaceView, ...], chosen: int | None) -> None:
        """Take a new list of places and choose one of them."""
        self.plant.where.offer(places, chosen, self.plant.where.bench_id)

    def _stands_elsewhere(self) -> None:
        """Let a plant on another bench stand last there, unless a number is given."""
        was, where = self._start.draft, self.plant.where
        number = self.keeping.bench
        had_place = self._start.plant_id is not None and was.place_id is not None
        self.plant.moved.setVisible(had_place and where.place_id != was.place_id)
        if (where.place_id, where.bench_id) == (was.place_id, was.bench_id):
            number.setText(number.text() or str(was.bench or ""))
        elif number.text() == str(was.bench or ""):
            number.clear()

    def _show(self, draft: PlantDraft) -> None:
        for part in self._parts:
            part.fill(draft)
        self.plant.where.offer(self._start.places, draft.place_id, draft.bench_id)


def _page(form: QWidget) -> QWidget:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(4, 12, 4, 4)
    column.addWidget(form)
    column.addStretch(1)
    return page
