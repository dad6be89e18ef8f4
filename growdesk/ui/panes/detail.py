"""Show one plant on one day: the reasons first, then what is on record of it.

Knows ``PlantDetail`` and a source of thumbnails; all that a person wants done goes
out as signals.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QSplitter,
    QStackedLayout,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.charts.tab import ROOM_PX, ChartTab
from growdesk.ui.dropping import DropZone, Spot
from growdesk.ui.looking import writes
from growdesk.ui.timeline_entries import What
from growdesk.ui.widgets import focus, plant_page
from growdesk.ui.widgets.bloom_page import blooms_page
from growdesk.ui.widgets.parts import button, label, scrolled
from growdesk.ui.widgets.photo_page import PhotoPage
from growdesk.ui.widgets.reasons import Reasons
from growdesk.ui.widgets.soft_edge import SoftEdge
from growdesk.ui.widgets.timeline import Timeline

if TYPE_CHECKING:
    from PySide6.QtCore import QPoint

    from growdesk.services.values import PlantDetail
    from growdesk.services.week_values import WeekView
    from growdesk.ui.timeline_entries import Entry
    from growdesk.ui.widgets.thumbs import Thumbs


_TIMELINE, _PHOTOS, _BLOOMS, _PLANT, _CHART = range(5)
_SHARES = (3, 1)
"""How reasons and records share the height: the reasons are what the pane is for."""


class DetailPane(QFrame):
    """The middle pane."""

    add_wanted = Signal()
    look_wanted = Signal()
    look_change_wanted = Signal(object)
    care_change_wanted = Signal(object)
    bloom_change_wanted = Signal(object)
    bloom_wanted = Signal()
    proposal_taken = Signal(object)
    give_wanted = Signal()
    plant_wanted = Signal()
    kind_wanted = Signal(int)
    kin_wanted = Signal(int)
    back_wanted = Signal(int)
    photos_wanted = Signal()
    photo_opened = Signal(object)
    rule_wanted = Signal(str)
    word_wanted = Signal(str)

    def __init__(self, thumbs: Thumbs) -> None:
        super().__init__()
        self.setProperty("pane", "true")
        self.setAccessibleName(tr("The plant"))
        self._thumbs = thumbs
        self.detail: PlantDetail | None = None
        self._reasons = Reasons()
        self._reasons.change_wanted.connect(self.plant_wanted)
        self._reasons.rule_wanted.connect(self.rule_wanted)
        self._reasons.kind_wanted.connect(self.kind_wanted)
        self._reasons.word_wanted.connect(self.word_wanted)
        self._reasons.back_wanted.connect(self.back_wanted)
        self.tabs = QTabWidget()
        self.tabs.setObjectName("record")
        self.tabs.setAccessibleName(tr("What is on record of the plant"))
        bar = self.tabs.tabBar()
        self.tabs.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the bar alone is a stop
        bar.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self._filled: dict[int, object] = {}
        self.timeline = Timeline(thumbs)
        self.timeline.setAccessibleName(tr("Timeline"))
        self.timeline.change_wanted.connect(self._change)
        self.timeline.photo_opened.connect(self.photo_opened)
        self.timeline.look_wanted.connect(self.look_wanted)
        self._areas = [
            scrolled(QWidget(), title)
            for title in (tr("Photos"), tr("Blooms"), tr("Plant"))
        ]
        self.charts = ChartTab()
        self.charts.room_wanted.connect(self._make_room)
        self._areas.append(scrolled(self.charts, tr("Chart")))
        for page in (self.timeline, *self._areas):
            self.tabs.addTab(page, page.accessibleName())
        self._before_chart: list[int] = []
        self._timeline_of: int | None = None
        self.tabs.currentChanged.connect(self._turn_tab)
        self._nothing = label("", tone="muted")
        self.add_button = writes(button(tr("Add a plant…"), self.add_wanted.emit))
        self.add_button.hide()
        self.photos = DropZone(self, self._drop_spot)
        self._stack = QStackedLayout(self)
        self._lay_out()
        self.show_nothing(tr("Choose a plant in the list; its reasons stand here."))

    @property
    def words(self) -> tuple[str, ...]:
        """Give the keys of the glossary's words in the reasons shown."""
        return () if self.detail is None else tuple(self._reasons.words)

    def show_nothing(self, text: str, *, add: bool = False) -> None:
        """Say in words why no plant is shown; ``add`` offers to add one."""
        self.add_button.setVisible(add)
        self.detail = None
        self._nothing.setText(text)
        self._stack.setCurrentIndex(0)

    def take_focus(self) -> None:
        """Put the focus on the first thing to do here."""
        held = self.add_button if self.detail is None else self.look_button
        held.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_plant(self, detail: PlantDetail) -> None:
        """Show a plant; the tab that was open stays open."""
        same = self.detail is not None and self.detail.plant_id == detail.plant_id
        held = focus.name_within(self)
        self.detail = detail
        self._reasons.show_plant(detail)
        if not same:
            self._scroll.verticalScrollBar().setValue(0)
        for each in (self.look_button, self._give_button):
            each.setVisible(not detail.left)
        self._name_tabs(detail)
        self._stack.setCurrentIndex(1)
        self._fill(self.tabs.currentIndex())
        focus.give_back(self, held, self.look_button)

    def show_week(self, view: WeekView | None) -> None:
        """Take the week that the plant's own days are told from."""
        self._reasons.week = view
        if self.detail is not None:
            self.show_plant(self.detail)

    def forget_week(self) -> None:
        """Tell nothing of the week from the next plant on, until it has come anew."""
        self._reasons.week = None

    def refresh_colours(self) -> None:
        """Draw the plant again in the scheme now in force."""
        self._filled.clear()
        if self.detail is not None:
            self.show_plant(self.detail)

    def _drop_spot(self, _at: QPoint) -> Spot | None:
        if self.detail is None:
            return None
        rect = self.rect().adjusted(6, 6, -6, -6)
        tag = self.detail.draft.tag
        return Spot(
            self.detail.plant_id, tr("Add to the photos of {tag}").format(tag=tag), rect
        )

    def _lay_out(self) -> None:
        empty = QWidget()
        inner = QVBoxLayout(empty)
        inner.setContentsMargins(22, 22, 22, 22)
        inner.addWidget(self._nothing)
        inner.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeft)
        inner.addStretch(1)
        self._stack.addWidget(empty)
        self._scroll = scrolled(self._reasons, tr("Reasons"))
        sizes.least_high(self._scroll, 200)
        SoftEdge(self._scroll)
        upper = QWidget()
        column = QVBoxLayout(upper)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._scroll, 1)
        column.addLayout(self._buttons())
        self._split = split = QSplitter(Qt.Orientation.Vertical)
        split.setChildrenCollapsible(False)
        split.addWidget(upper)
        split.addWidget(self.tabs)
        for number, share in enumerate(_SHARES):
            split.setStretchFactor(number, share)
        split.setSizes([share * 100 for share in _SHARES])
        self._stack.addWidget(split)

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(14, 8, 12, 10)
        row.setSpacing(8)
        self.look_button = writes(button(tr("Record a look…"), self.look_wanted.emit))
        self.look_button.setDefault(True)
        self._give_button = writes(
            button(tr("Give something else…"), self.give_wanted.emit)
        )
        for each in (self.look_button, self._give_button):
            each.setObjectName(each.text())
            row.addWidget(each)
        row.addStretch(1)
        return row

    def _name_tabs(self, detail: PlantDetail) -> None:
        self.tabs.setTabText(
            _PHOTOS, tr("Photos ({count})").format(count=len(detail.photos))
        )
        self.tabs.setTabText(
            _BLOOMS, tr("Blooms ({count})").format(count=len(detail.blooms.blooms))
        )

    def _fill(self, number: int) -> None:
        """Fill a tab in sight where what it shows has changed; others wait."""
        detail = self.detail
        if detail is None:
            return
        key = _key(number, detail)
        if self._filled.get(number) != key:
            self._filled[number] = key
            self._refill(number, detail)
        self._order_stops(number)

    def _refill(self, number: int, detail: PlantDetail) -> None:
        if number == _TIMELINE:
            is_same = self._timeline_of == detail.plant_id
            self._timeline_of = detail.plant_id
            self.timeline.show_plant(detail, is_same=is_same)
            return
        area = self._areas[number - 1]
        if area.widget() is self.charts:
            self.charts.show_plant(detail)
            return
        old = area.takeWidget()
        if old is not None:
            old.deleteLater()
        page = self._page(number, detail, area.viewport())
        area.setWidget(page)

    def _order_stops(self, number: int) -> None:
        """Let Tab go down the pane: reasons, buttons, tabs, then the tab's page."""
        area: QWidget = self.timeline
        page: QWidget | None = self.timeline
        if number != _TIMELINE:
            area = self._areas[number - 1]
            page = self._areas[number - 1].widget()
        focus.chain(
            [
                self._scroll,
                *focus.stops(self._reasons),
                self.look_button,
                self._give_button,
                self.tabs.tabBar(),
                area,
                *([] if page is None else focus.stops(page)),
            ]
        )

    def _turn_tab(self, number: int) -> None:
        """Fill a tab; a chart has its room while it is open, and no longer."""
        self._fill(number)
        is_chart = number == _CHART
        if is_chart and self.charts.canvas is not None:
            self._make_room(ROOM_PX)
        elif not is_chart and self._before_chart:
            self._split.setSizes(self._before_chart)
            self._before_chart = []

    def reasons_share(self) -> int:
        """Give how much of the pane the reasons have, in percent, without a chart."""
        upper, lower = self._before_chart or self._split.sizes()
        return round(100 * upper / max(upper + lower, 1))

    def share_reasons(self, percent: int) -> None:
        """Give the reasons so much of the pane."""
        self._split.setSizes([percent * 10, (100 - percent) * 10])

    def _make_room(self, wanted_px: int) -> None:
        """Give the chart more of the pane where it has less; reasons keep some."""
        upper, lower = self._split.sizes()
        if lower < wanted_px:
            self._before_chart = [upper, lower]
            self._split.setSizes([upper + lower - wanted_px, wanted_px])

    def _page(self, number: int, detail: PlantDetail, within: QWidget) -> QWidget:
        if number == _PHOTOS:
            wishes = self.photo_opened.emit, self.photos_wanted.emit
            return PhotoPage(detail, self._thumbs, *wishes, within)
        if number == _BLOOMS:
            return blooms_page(
                detail.blooms,
                self.bloom_change_wanted.emit,
                self.bloom_wanted.emit,
                self.proposal_taken.emit,
            )
        return plant_page.plant_page(
            detail, self.plant_wanted.emit, self.kin_wanted.emit
        )

    def _change(self, entry: Entry) -> None:
        """Ask for the form of what an entry of the timeline tells of."""
        wishes = {
            What.LOOK: self.look_change_wanted,
            What.CARE: self.care_change_wanted,
            What.BLOOM: self.bloom_change_wanted,
        }
        wish = wishes.get(entry.what)
        if wish is None:
            self.plant_wanted.emit()
        else:
            wish.emit(entry.source)


def _key(number: int, detail: PlantDetail) -> object:
    """Give what a tab shows, so that it is built again only where that changed."""
    shown = (
        (detail.looks, detail.photos, detail.care, detail.blooms, detail.draft),
        (detail.photos, detail.looks),
        detail.blooms,
        plant_page.shown(detail),
    )
    own = shown[number] if number < len(shown) else id(detail)
    return detail.plant_id, own
