"""Take in what the coming night and day should bring, and name the plants to move.

Nothing is fetched: the grower types what any forecast says, place by place. The list
below follows what is typed.
"""

from __future__ import annotations

from itertools import groupby, islice
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout
from typing_extensions import override

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.quantity_words import degrees_fixed, temperature_unit
from growdesk.domain.speech import mark, tr
from growdesk.ui import sizes, words
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.low_high import LowHigh
from growdesk.ui.widgets.parts import Page, clear, label

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.night import Expected
    from growdesk.services.nights import NightMove, NightPlace, NightView
    from growdesk.ui.dialogs.held import Held

NO_PLACE = mark("Add a place first; what is expected is typed for each of them.")
NOTHING_TYPED = mark(
    "Type the coldest of the night, or the hottest of the day, as it will be at the "
    "place itself. Empty places are not reckoned with."
)
ALL_WELL = mark("Every plant may stay where it is.")
_AT_ONCE = 30


class NightDialog(FormDialog):
    """The night that begins on a day, and the day itself.

    Lines of plants to move are made as they are scrolled to.
    """

    asked = Signal(object)

    def __init__(self, parent: QWidget | None, view: NightView) -> None:
        title = tr("Cold or hot: {short_day} and its night").format(
            short_day=words.short_day(view.on)
        )
        super().__init__(parent, title, tr("Keep what is expected"))
        self._on = view.on
        self._rows: dict[int, LowHigh] = {}
        self._waiting: Iterator[tuple[str, str]] = iter(())
        for place in view.places:
            row = LowHigh(place.name, place.expected, _beside(place, view.on))
            shown = place.name.replace("&", "&&")
            self.form.add(_field(place.place_id), shown, row)
            row.changed.connect(self._ask)
            self._rows[place.place_id] = row
        self.form.end()
        self.body.addWidget(self.form)
        self._told = Page()
        self._told.setAccessibleName(tr("Plants to move"))
        self._lines = QVBoxLayout(self._told)
        self._lines.setContentsMargins(0, 0, 0, 0)
        self._lines.setSpacing(6)
        self.body.addWidget(self._told)
        self.body.addStretch(1)
        self.save_button.setEnabled(bool(view.places))
        sizes.least_wide(self, 620)
        self.begin()
        self.area.verticalScrollBar().valueChanged.connect(self._put_more)
        self.area.verticalScrollBar().rangeChanged.connect(self._put_more)
        self.show_view(view)
        if self._rows:
            next(iter(self._rows.values())).low.setFocus()

    def texts(self) -> list[str]:
        """Give the lines that name what to move."""
        items = (self._lines.itemAt(n) for n in range(self._lines.count()))
        widgets = (item.widget() for item in items if item is not None)
        return [each.property("told") for each in widgets if each is not None]

    def show_view(self, view: NightView) -> None:
        """Name the plants to move, by what is to be done with them."""
        clear(self._lines)
        self._waiting = self._said(view)
        self._put_more()

    def _said(self, view: NightView) -> Iterator[tuple[str, str]]:
        """Give all lines, each with its tone."""
        if not self._rows:
            yield tr(NO_PLACE), ""
        elif not any(any(each.held()) for each in self._rows.values()):
            yield tr(NOTHING_TYPED), "muted"
        elif not view.moves:
            yield tr(ALL_WELL), ""
        else:
            ordered = sorted(view.moves, key=lambda move: (move.threat, move.shelter))
            for do, moves in groupby(ordered, key=lambda move: move.do):
                yield do, "head"
                yield from ((_line(move), "") for move in moves)
            if view.advice:
                yield view.advice, "muted"

    def _put_more(self, *_scrolled: int) -> None:
        """Make more lines where the last are near to sight; a night can move many."""
        bar = self.area.verticalScrollBar()
        if bar.value() + bar.pageStep() >= bar.maximum():
            for text, tone in islice(self._waiting, _AT_ONCE):
                self._put(text, tone)

    @override
    def draft(self) -> dict[int, Expected]:
        """Give what is expected, by place."""
        return {
            place_id: row.expected(_field(place_id))
            for place_id, row in self._rows.items()
        }

    @override
    def kept(self) -> Held:
        """Give the whole form as it stands once anything was changed."""
        return self.held() if self.changes() else {}

    @override
    def take_draft(self, kept: Held) -> None:
        super().take_draft(kept)
        self._ask()

    def _ask(self) -> None:
        try:
            self.asked.emit(self.draft())
        except GrowdeskError:
            self._waiting = iter(())
            clear(self._lines)

    def _put(self, text: str, tone: str = "") -> None:
        made = label(text, tone=tone)
        made.setProperty("told", text)
        self._lines.addWidget(made)


def _field(place_id: int) -> str:
    return f"place_{place_id}"


def _beside(place: NightPlace, on: date) -> str:
    plants = words.counted(place.plants, "plant", "plants")
    if place.last_low_c is None or place.last_low_on is None:
        return plants
    low = f"{degrees_fixed(place.last_low_c)} {temperature_unit()}".replace("-", "−")
    if place.last_low_on == on:
        return tr("{plants}; last read {low}, today").format(plants=plants, low=low)
    return tr("{plants}; last read {low}, {day}").format(
        plants=plants, low=low, day=words.near_day(place.last_low_on)
    )


def _line(move: NightMove) -> str:
    where = f"{move.place}, {move.bench}" if move.bench else move.place
    return f"{move.tag} {move.name} ({where}). {move.why}".replace("  ", " ")
