"""Keep the places where plants stand, and take in what was read there."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.facts import Facing, Glass, PlaceKind
from growdesk.domain.quantity_words import degrees_fixed, temperature_unit
from growdesk.domain.speech import fixed, mark, tr
from growdesk.services.values import PlaceDraft
from growdesk.ui import typed, words
from growdesk.ui.dialogs.reading import NOTE, ReadingFields
from growdesk.ui.dialogs.rows import KEY, RowsDialog
from growdesk.ui.widgets.bench_page import BenchPage, steps
from growdesk.ui.widgets.form import choose
from growdesk.ui.widgets.order_list import STEPS, shifted
from growdesk.ui.widgets.parts import button, column, label
from growdesk.ui.widgets.reading_table import ReadingTable
from growdesk.ui.widgets.strip_form import StripForm

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.services.bench_values import PlaceBenches
    from growdesk.services.values import PlaceView, ReadingView
    from growdesk.ui.dialogs.held import Held


_FIELD_PX = 360
_PLACE_PAGE, _READINGS_PAGE, _BENCHES_PAGE = range(3)
Word = TypeVar("Word", Facing, Glass)
WINDOW_NOTE = mark(
    "Reckoned for a leaf at the pane under an average sky. Glass and shade count once "
    "it is known what it looks to; glass not recorded is taken as two panes."
)


class PlacesDialog(RowsDialog):
    """All places, one of them in the form, with what was read there beside it."""

    place_shown = Signal(int)
    reading_given = Signal(int, object)
    reading_wanted = Signal(int, object)
    readings_unwanted = Signal(int, object)
    year_wanted = Signal(int)
    logger_wanted = Signal(int)
    places_ordered = Signal(object)

    def __init__(self, parent: QWidget | None, today: date) -> None:
        super().__init__(parent, tr("Places"), tr("New place"))
        self._views: dict[int, PlaceView] = {}
        self._today = today
        self.name = self.form.line("name", tr("&Name"), tr("say kitchen window"))
        kinds = words.choices(tuple(PlaceKind))
        self.kind = self.form.combo(
            "kind", tr("&Kind", "what sort it is"), [(k.value, t) for k, t in kinds]
        )
        self.controlled = QCheckBox(tr("heated and lit as the plants want"))
        self.form.add("controlled", tr("&Controlled"), self.controlled)
        self.outdoors = QCheckBox(tr("in the open"))
        self.form.add("outdoors", tr("&Outdoors"), self.outdoors)
        blank = (None, tr(words.NOT_RECORDED))
        facings, panes = words.choices(tuple(Facing)), words.choices(tuple(Glass))
        self.facing = self.form.combo("facing", tr("Looks &to"), [blank, *facings])
        self.glass = self.form.combo("glass", tr("Gl&ass"), [blank, *panes])
        self.shaded = self.form.line(
            "shaded", tr("S&haded"), tr("%, say 25 for a thin curtain, 50 for a blind")
        )
        self.form.note(tr(WINDOW_NOTE))
        self.hours = self.form.line(
            "lamps_hours", tr("&Lamps"), tr("hours a day, say 12")
        )
        self.ppfd = self.form.line(
            "lamps_ppfd", tr("Light at the lea&f"), tr("PPFD in µmol m-2 s-1, say 150")
        )
        self.form.end()
        self.form.keep_narrow(_FIELD_PX)
        self.benches = BenchPage()
        self._add_readings()
        self.pages.addTab(self.benches, tr("&Benches"))
        self._add_steps()
        self.resize(780, self.height())

    def show_places(self, views: Sequence[PlaceView], chosen: int | None) -> None:
        """Show the places there are."""
        self._views = {view.place_id: view for view in views}
        self.show_rows([(v.place_id, v.draft.name) for v in views], chosen)

    def show_readings(self, key: int, views: Sequence[ReadingView]) -> None:
        """Show what was read at a place, if it is still the one in the form."""
        if key == self.key:
            self._put_readings(views)

    @override
    def put_page(self, page: QVBoxLayout) -> None:
        """Put the form on a tab of its own, beside the one for readings."""
        self.stand = label("", tone="muted")
        self.pages = QTabWidget()
        self.pages.setAccessibleName(tr("The place and what was read there"))
        self.pages.setDocumentMode(True)
        self.body.addWidget(self.stand)
        self.body.addWidget(self.pages)
        page.setContentsMargins(0, 12, 0, 0)
        page.addStretch(1)
        self.pages.addTab(_page(page), tr("The &place"))
        self.year_button = button(tr("Its &year…"), self._want_year)
        self.buttons.addButton(self.year_button, QDialogButtonBox.ButtonRole.ActionRole)

    @override
    def show_beside(self, error: Exception) -> bool:
        """Tell an error beside its field, on the tab that has it."""
        self.pages.setCurrentIndex(_PLACE_PAGE)
        return super().show_beside(error)

    @override
    def draft(self) -> PlaceDraft:
        """Give the place as entered."""
        view = self._views.get(self.key) if self.key is not None else None
        return PlaceDraft(
            name=self.name.text().strip(),
            kind=self.kind.currentData(),
            controlled=self.controlled.isChecked(),
            outdoors=self.outdoors.isChecked(),
            lamps_hours=typed.number(self.hours.text(), "lamps_hours", "12"),
            lamps_ppfd=typed.number(self.ppfd.text(), "lamps_ppfd", "150"),
            facing=_chosen(Facing, self.facing),
            glass=_chosen(Glass, self.glass),
            shaded=typed.share(self.shaded.text(), "shaded"),
            note=view.draft.note if view is not None else "",
            position=view.draft.position if view is not None else None,
        )

    @override
    def show_key(self, key: int | None) -> None:
        view = self._views.get(key) if key is not None else None
        draft = view.draft if view is not None else PlaceDraft(name="")
        self.name.setText(draft.name)
        choose(self.kind, draft.kind)
        self.controlled.setChecked(draft.controlled)
        self.outdoors.setChecked(draft.outdoors)
        choose(self.facing, draft.facing)
        choose(self.glass, draft.glass)
        self.shaded.setText(_per_cent(draft.shaded))
        self.hours.setText(words.number(draft.lamps_hours))
        self.ppfd.setText(words.number(draft.lamps_ppfd))
        self.reading_kept()
        self.day.setText(figures(self._today))
        self._reading_button.setEnabled(view is not None)
        self.year_button.setEnabled(view is not None)
        self.logger_button.setEnabled(view is not None)
        self.stand.setText(_stand_words(view))
        self._put_readings(())
        self.benches.clear()
        self._tell_benches()
        if key is not None:
            self.place_shown.emit(key)

    @override
    def enter(self, focused: QWidget | None) -> None:
        """Write the readings down from their own fields, else do as any dialog."""
        is_reading = isinstance(focused, QLineEdit) and self._readings.isAncestorOf(
            focused
        )
        if focused is self.table.rows:
            self.table.change()
        elif focused is self.benches.benches:
            self.benches.change()
        elif is_reading and self.key is not None:
            self._give_reading()
        else:
            super().enter(focused)

    @override
    def try_save(self) -> None:
        """Save the place; readings typed for a place as it stands are written."""
        changed = self.changes()
        is_reading = bool(changed) and not any(map(self.form.has, changed))
        if is_reading and self.key is not None:
            self._give_reading()
        else:
            super().try_save()

    @override
    def changes(self) -> Held:
        """Give what was typed; a day alone, with nothing read on it, is nothing."""
        changed = super().changes()
        if not any(self._readings.has(field) and field != "on" for field in changed):
            changed.pop("on", None)
        return changed

    @override
    def tab_stops(self) -> list[QWidget]:
        readings = self._readings.editors.values()
        lists, made, *form = super().tab_stops()
        made_and_steps = [made, *self._steps]
        stops = [lists, *made_and_steps, self.pages.tabBar(), *form]
        stops += [*self.benches.stops(), *readings]
        buttons = [self._reading_button, self.logger_button]
        return [*stops, *buttons, *self.table.stops()]

    def show_benches(self, place: PlaceBenches, chosen: int | None = None) -> None:
        """Show the benches of a place, if it is still the one in the form."""
        if place.place_id == self.key:
            self.benches.show_benches(place, chosen)
            self._tell_benches()

    def move_place(self, step: int) -> None:
        """Move the place in the form up or down on the round."""
        keys = [int(self.list.item(n).data(KEY)) for n in range(self.list.count())]
        moved = shifted(keys, [] if self.key is None else [self.key], step)
        if moved != keys:
            self.places_ordered.emit(moved)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let Alt and the arrows move a place in the list."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            step = STEPS.get(Qt.Key(event.key()))
            if step and event.modifiers() & Qt.KeyboardModifier.AltModifier:
                self.move_place(step)
                return True
        return super().eventFilter(watched, event)

    def _add_steps(self) -> None:
        """Put the buttons that move a place under the list of places."""
        row = QHBoxLayout()
        self._steps = steps(
            self.move_place,
            tr("Move the place on the round up"),
            tr("Move the place on the round down"),
        )
        for each in self._steps:
            row.addWidget(each)
        self.side.addLayout(row)
        self.list.installEventFilter(self)

    def _tell_benches(self) -> None:
        count = self.benches.count
        title = (
            tr("&Benches ({count})").format(count=count) if count else tr("&Benches")
        )
        self.pages.setTabText(_BENCHES_PAGE, title)

    def _add_readings(self) -> None:
        self._readings = StripForm()
        self._fields = ReadingFields(self._readings)
        self.day, self.mean, self.low, self.high, self.light, self.humidity = (
            self._fields.lines.values()
        )
        self._readings.end()
        self._reading_button = button(tr("Save the reading"), self._give_reading)
        self.logger_button = button(tr("From a logger's &file…"), self._want_logger)
        self.table = ReadingTable()
        self.table.change_wanted.connect(self._want_reading)
        self.table.remove_wanted.connect(self._unwant_readings)
        page = column(spacing=10)
        page.setContentsMargins(0, 12, 0, 0)
        page.addWidget(self._readings)
        row = QHBoxLayout()
        row.addWidget(self._reading_button)
        row.addStretch(1)
        row.addWidget(self.logger_button)
        page.addLayout(row)
        page.addWidget(label(tr(NOTE), tone="muted"))
        page.addWidget(self.table, 1)
        page.addStretch(0)
        self.pages.addTab(_page(page), tr("&Readings"))
        self.forms = (self.form, self._readings)

    def _put_readings(self, views: Sequence[ReadingView]) -> None:
        self.table.show_readings(views)
        title = (
            tr("&Readings ({count})").format(count=len(views))
            if views
            else tr("&Readings")
        )
        self.pages.setTabText(_READINGS_PAGE, title)

    def _want_year(self) -> None:
        if self.key is not None:
            self.year_wanted.emit(self.key)

    def _want_logger(self) -> None:
        if self.key is not None:
            self.logger_wanted.emit(self.key)

    def _want_reading(self, view: ReadingView) -> None:
        if self.key is not None:
            self.reading_wanted.emit(self.key, view)

    def _unwant_readings(self, views: list[ReadingView]) -> None:
        if self.key is not None:
            self.readings_unwanted.emit(self.key, views)

    def _give_reading(self) -> None:
        key = self.key
        if key is None:
            return
        self._readings.clear_errors()
        try:
            reading = self._fields.reading()
        except InputError as error:
            self._readings.show_error(error)
            return
        self.reading_given.emit(key, reading)

    def reading_refused(self, error: Exception) -> None:
        """Tell why a reading was not written."""
        self._readings.show_error(error)

    def reading_kept(self) -> None:
        """Make room for the next reading."""
        self._fields.clear()


def _page(layout: QVBoxLayout) -> QWidget:
    made = QWidget()
    made.setLayout(layout)
    return made


def _chosen(kind: type[Word], combo: QComboBox) -> Word | None:
    data = combo.currentData()
    return None if data is None else kind(data)


def _per_cent(share: float | None) -> str:
    return "" if share is None else f"{words.number(share * 100)} %"


def _stand_words(view: PlaceView | None) -> str:
    if view is None:
        return tr("Add the place first, then its readings.")
    said = [
        tr("{plants} here.").format(plants=words.plants(view.plants)),
        view.light,
        _week_words(view),
    ]
    return " ".join(each for each in said if each)


def _week_words(view: PlaceView) -> str:
    warmth, damp = view.mean_7_days_c, view.humidity_7_days_percent
    if warmth is None:
        return tr("No temperature in the last 7 days, so warmth says nothing.")
    mean = f"{degrees_fixed(warmth)} {temperature_unit()}"
    if damp is None:
        return tr("Mean of the last 7 days: {mean}.").format(mean=mean)
    return tr("Mean of the last 7 days: {mean}, humidity {damp} %.").format(
        mean=mean, damp=fixed(damp, 0)
    )
