"""Turn the first pane between its faces: the day's list, the week, and the others.

Each face brings its page, where its keys go, and the width it would like; the day comes
back with the panes as wide as they were. It knows no service and asks for nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QObject, QSize, Qt, Signal
from PySide6.QtWidgets import QApplication, QStackedWidget, QWidget
from shiboken6 import isValid
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.ui import actions, sizes
from growdesk.ui.widgets.find_line import FindLine

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QSplitter

    from growdesk.ui.desk import Desk
    from growdesk.ui.folding import Folding
    from growdesk.ui.panes.day_list import DayListPane
    from growdesk.ui.picking import Picked
    from growdesk.ui.widgets.head import DayHead
    from growdesk.ui.widgets.strip import Strip

DAY = "day"
_DETAIL_PX = 350


class Pages(QStackedWidget):
    """The faces of the first pane, of which one is in sight and asks for its room."""

    def __init__(self) -> None:
        super().__init__()
        self.currentChanged.connect(self.updateGeometry)

    @override
    def minimumSizeHint(self) -> QSize:
        page, first = self.currentWidget(), self.widget(0)
        if page is None or first is None:
            return super().minimumSizeHint()
        hint = page.minimumSizeHint()
        least = page.minimumWidth() or hint.width()
        return QSize(max(least, first.minimumWidth()), hint.height())


class Parts(Struct, frozen=True):
    """What the faces are shown in and go along with."""

    head: DayHead
    day_list: DayListPane
    folding: Folding
    split: QSplitter
    pages: Pages
    strip: Strip


class Face(Struct, frozen=True):
    """One face, made when it is first shown.

    ``wanted_px`` is asked each time room is made; ``shown`` is called once it is in
    sight. ``picked`` gives the plants selected there and ``chosen`` the one the cursor
    is on; without them the day's list has the word.
    """

    page: QWidget
    focus: Callable[[], object]
    find: Callable[[], object]
    hint: str
    wanted_px: Callable[[], int]
    shown: Callable[[], object] = lambda: None
    picked: Callable[[], Sequence[Picked]] | None = None
    chosen: Callable[[], int | None] | None = None


class Faces(QObject):
    """Which face is in sight, and the widths that go with it."""

    turned = Signal(str)

    def __init__(self, desk: Desk, parts: Parts) -> None:
        super().__init__(desk)
        self._desk = desk
        self._parts = parts
        self._faces: dict[str, Face] = {}
        self._makers: dict[str, Callable[[], Face]] = {}
        self._needing: set[str] = set()
        self._summing: set[str] = set()
        self._now = DAY
        self._widths: list[int] = []
        self._had_mixing = False
        self._waits = ""
        parts.pages.addWidget(parts.day_list)
        parts.head.face_wanted.connect(self.go)
        desk.day_begun.connect(lambda _begun: self._hint())
        desk.day_arrived.connect(self._day_arrived)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._focus_moved)

    @property
    def shown(self) -> str:
        """Give the key of the face in sight."""
        return self._now

    @property
    def picked(self) -> tuple[Picked, ...]:
        """Give the plants that a command is about: those selected in sight."""
        face = self._faces.get(self._now)
        if face is None or face.picked is None:
            return self._parts.day_list.selected()
        return tuple(face.picked())

    @property
    def chosen(self) -> int | None:
        """Give the plant that the cursor in sight is on."""
        face = self._faces.get(self._now)
        if face is None or face.chosen is None:
            return self._parts.day_list.chosen
        return face.chosen()

    @property
    def follows_day(self) -> bool:
        """Tell whether the plant shown is the one of the day's list."""
        face = self._faces.get(self._now)
        return face is None or face.chosen is None

    def add(
        self,
        key: str,
        make: Callable[[], Face],
        *,
        needs_plants: bool = True,
        sums_up: bool = False,
    ) -> None:
        """Take a face in; its key is that of its command and its button in the head.

        Without plants only what does not need them is shown. What sums the day up waits
        until all of them are judged.
        """
        self._makers[key] = make
        if needs_plants:
            self._needing.add(key)
        if sums_up:
            self._summing.add(key)

    def go(self, key: str) -> None:
        """Show a face; the day is one too."""
        self._waits = ""
        if key == DAY:
            self.show_day()
        elif key != self._now:
            self._show(key)

    def knows(self, key: str) -> bool:
        """Tell whether there is such a face beside the day."""
        return key in self._makers

    def settle_panes(self) -> bool:
        """Give the panes their widths of the day; tell whether the mixing stands there.

        A mixing that folded itself away in a narrow window counts as standing.
        """
        folding = self._parts.folding
        if self._now == DAY:
            return folding.is_open or folding.is_by_itself
        self._bring_widths()
        return self._had_mixing

    def turn(self, key: str) -> None:
        """Show a face, or the day again where it is in sight."""
        self.go(DAY if key == self._now else key)

    def show_day(self) -> None:
        """Show the day's list, with the panes as wide as they were."""
        if self._now == DAY:
            return
        parts = self._parts
        parts.pages.setCurrentIndex(0)
        self._take(DAY)
        if self._had_mixing and not parts.folding.is_open:
            parts.folding.bring()
        self._bring_widths()
        parts.day_list.focus_list()
        self._hint()

    def to_list(self) -> None:
        """Put the focus on what is in sight."""
        if self._now == DAY:
            self._parts.day_list.focus_list()
        else:
            self._faces[self._now].focus()

    def find(self) -> None:
        """Let the grower type into the filter that is in sight."""
        if self._now == DAY:
            self._parts.day_list.focus_filter()
        else:
            self._faces[self._now].find()

    def make_room(self) -> None:
        """Give the face in sight the width it wants, from the plant's pane if it can.

        Else the mixing goes for it. The plant keeps its reasons readable; what is still
        missing is scrolled to.
        """
        if self._now == DAY or self._is_stacked:
            return
        parts = self._parts
        face_px, detail_px, mixing_px = parts.split.sizes()
        wanted = self._faces[self._now].wanted_px() - face_px
        if wanted <= 0:
            return
        if parts.folding.is_open and detail_px - wanted >= sizes.px(_DETAIL_PX):
            parts.split.setSizes([face_px + wanted, detail_px - wanted, mixing_px])
            return
        if parts.folding.is_open:
            parts.folding.turn()
        widths = self._widths or parts.split.sizes()
        whole = sum(widths)
        listed = min(widths[0] + wanted, whole - sizes.px(_DETAIL_PX))
        parts.split.setSizes([listed, whole - listed, 0])

    def _show(self, key: str) -> None:
        view = self._desk.view
        lacks_plants = key in self._needing and (view is None or not view.lines)
        if lacks_plants or (key in self._summing and self._desk.begun is not None):
            self._parts.head.show_mode(self._now)
            if self._desk.begun is not None:
                self._waits = key
                self._parts.strip.tell(tr("It is shown once all plants are judged."))
            return
        face = self._made(key)
        if self._now == DAY:
            self._widths = [] if self._is_stacked else self._parts.split.sizes()
            self._had_mixing = self._parts.folding.is_open
        self._parts.pages.setCurrentWidget(face.page)
        self._take(key)
        self.make_room()
        face.shown()
        face.focus()
        self._hint()

    def _made(self, key: str) -> Face:
        if key not in self._faces:
            self._faces[key] = self._makers[key]()
            self._parts.pages.addWidget(self._faces[key].page)
        return self._faces[key]

    @property
    def _is_stacked(self) -> bool:
        """Tell whether the panes stand under one another and have no widths."""
        return self._parts.split.orientation() == Qt.Orientation.Vertical

    def _bring_widths(self) -> None:
        if self._widths and not self._is_stacked:
            self._parts.split.setSizes(self._widths)

    def _take(self, key: str) -> None:
        self._now = key
        self._parts.head.show_mode(key)
        self.turned.emit(key)

    def _day_arrived(self) -> None:
        view = self._desk.view
        has_plants = view is not None and bool(view.lines)
        self._parts.head.allow_faces(self._needing, allowed=has_plants)
        if not has_plants and self._now in self._needing:
            self.show_day()
        wanted, self._waits = self._waits, ""
        if wanted:
            self.go(wanted)
        self._hint()

    def _focus_moved(self, _before: QWidget | None, now: QWidget | None) -> None:
        """Let the foot follow where the keys go in this window, not in a dialog."""
        strip = self._parts.strip
        if now is not None and isValid(strip) and now.window() is strip.window():
            self._hint()

    def _hint(self) -> None:
        self._parts.strip.hint(self._hint_for(self._parts.strip.window().focusWidget()))

    def _hint_for(self, held: QWidget | None) -> str:
        """Give the keys of the part that has the focus, else of the face in sight."""
        if isinstance(held, FindLine):
            return tr(actions.FIND_HINT)
        if self._now != DAY:
            return self._faces[self._now].hint
        if held is self._parts.day_list.looks.view:
            return tr(actions.LOOKS_HINT)
        view = self._desk.view
        has_plants = view is not None and bool(view.lines)
        if self._desk.collection.looking:
            return tr(actions.LOOKING_HINT)
        is_ahead = has_plants and self._desk.on > self._desk.today
        if is_ahead or self._desk.begun is not None:
            return actions.ahead_hint()
        return actions.strip_hint(has_plants=has_plants)
