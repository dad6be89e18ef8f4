"""Put the one window together: head, three panes, strip, menus.

Panes know only values and emit what a person asks for; the window connects them to
the desk, the deeds and the forms. Nothing is judged, read or written here.
"""

# ruff: noqa: PLW0108 -- what a lambda names is made when it is first called

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services import trail
from growdesk.services.values import Changed
from growdesk.ui import (
    actions,
    deeds,
    icons,
    looking,
    sizes,
    theme,
    window_memory,
    wiring,
)
from growdesk.ui.bus import Bus
from growdesk.ui.calendaring import Calendaring
from growdesk.ui.desk import Desk
from growdesk.ui.drafts import Drafts
from growdesk.ui.faces import Faces, Pages, Parts
from growdesk.ui.first_paint import FirstPaint
from growdesk.ui.folding import Folding
from growdesk.ui.handbook_asking import HandbookAsking
from growdesk.ui.handlers import handlers
from growdesk.ui.hands import Hands
from growdesk.ui.jobs_asking import JobsAsking
from growdesk.ui.keeping_backups import KeepingBackups
from growdesk.ui.looks_asking import LooksAsking
from growdesk.ui.others import OthersAsking
from growdesk.ui.panes.day_list import DayListPane
from growdesk.ui.place_beside import PlaceBeside
from growdesk.ui.rostering import Rostering
from growdesk.ui.stacking import Stacking
from growdesk.ui.summing import Summing
from growdesk.ui.tasks import Job, Lane, Tasks
from growdesk.ui.tips import titled
from growdesk.ui.weekly import Weekly
from growdesk.ui.widgets.head import DayHead
from growdesk.ui.widgets.long_panel import LongPanel
from growdesk.ui.widgets.roomy import Body, Roomy
from growdesk.ui.widgets.strip import Strip
from growdesk.ui.widgets.thumbs import Thumbs

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent

    from growdesk.services.calendar_values import JobLine
    from growdesk.services.collection import Collection
    from growdesk.services.quick_values import QuickAsk
    from growdesk.services.values import DayBegun, HistoryView, Written
    from growdesk.ui.charts.asking import Wanted
    from growdesk.ui.charts.drawing import Chart
    from growdesk.ui.desk import Shown

_WIDTHS = [586, 390, 280]
_DETAIL_PX, _MIXING_PX = 300, 225
"""What the panes beside the list ask for, so that it stays where it is as they come."""
_SIDE_PX = 12
_LEAST = QSize(1000, 520)
"""What the window shrinks to; panes that need more, as large text does, scroll."""


class Window(Hands):
    """The window of one collection.

    ``day_stands`` tells a day once its list is shown: at the first one, painted.
    """

    day_stands = Signal(object)

    def __init__(
        self, collection: Collection, *, title: str = "", log: Path | None = None
    ) -> None:
        super().__init__()
        self.log_file = log
        self._reminded = False
        self._handed_over = False
        self._before: int | None = None
        self.setWindowTitle(
            title or titled(tr("growdesk: {folder}").format(folder=collection.called))
        )
        self.theme = theme.current()
        self.tasks = Tasks(self)
        self.bus = Bus(self)
        self.desk = Desk(collection, self.tasks, self.bus)
        self.deeds = deeds.Deeds(self.desk)
        self.looks = LooksAsking(self.desk)
        self.jobs = JobsAsking(self.desk)
        self.thumbs = Thumbs(self.tasks, self.desk.thumbnail)
        self.head = DayHead()
        self.day_list = DayListPane()
        self.strip = Strip()
        self.long_panel = LongPanel(self.desk.long)
        self.first_paint = FirstPaint(self.day_list, self.tasks)
        self._lay_out()
        self.folding = Folding(self, self.mixing_place, self.head.mixing)
        self.stacking = Stacking(self, self.split, 2 * _SIDE_PX)
        shown = self.head, self.day_list, self.folding
        parts = Parts(*shown, self.split, self.pages, self.strip)
        self.faces = Faces(self.desk, parts)
        self.weekly = Weekly(self.desk, parts, self.faces)
        self.roster = Rostering(self.desk, parts, self.faces, lambda: self.files, self)
        self.calendaring = Calendaring(self.desk, parts, self.faces)
        self.summing = Summing(self.desk, parts, self.faces, self)
        self.commands = actions.build(self.menuBar(), self, self.day_list.table)
        HandbookAsking(self).wanted.connect(lambda page: self.handbook.open(page))
        Drafts.of(self).left.connect(self._draft_left)
        self.setAcceptDrops(True)
        self._connect_commands()
        self._connect_desk()
        window_memory.recall(self, self._panes())
        self.day_list.table.setFocus()
        self.desk.show_day()

    # -- building -------------------------------------------------------------------

    def _lay_out(self) -> None:
        """Lay the panes out, each place put into the window before it is filled.

        What moves into another parent is styled again with all that stands in it.
        """
        whole = QWidget(self)
        self.setCentralWidget(whole)
        outer = QVBoxLayout(whole)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(0)
        body = Body()
        outer.addWidget(Roomy(body, _LEAST), 1)
        foot = QHBoxLayout()
        foot.setSpacing(0)
        outer.addLayout(foot)
        foot.addWidget(self.strip, 1)
        foot.addWidget(self.long_panel, 1)
        column = QVBoxLayout(body)
        column.setContentsMargins(_SIDE_PX, 2, _SIDE_PX, 10)
        column.setSpacing(4)
        column.addWidget(self.head)
        self.split = QSplitter(Qt.Orientation.Horizontal)
        column.addWidget(self.split, 1)
        self.split.setHandleWidth(10)
        self.split.setChildrenCollapsible(False)
        sizes.least_wide(self.day_list, 360)
        self.pages = Pages()
        self.split.addWidget(self.pages)
        below = self.strip, self.long_panel
        self.detail_place = PlaceBeside(self.split, _DETAIL_PX, *below)
        self.mixing_place = PlaceBeside(self.split, _MIXING_PX, *below)
        for number, stretch in enumerate((4, 5, 3)):
            self.split.setStretchFactor(number, stretch)
        self.split.setSizes(_WIDTHS)
        self.setWindowIcon(icons.icon("growdesk", theme.colours().ink))
        self.resize(1280, 800)

    def _connect_commands(self) -> None:
        calls = handlers(self)
        for key, action in self.commands.items():
            action.triggered.connect(partial(_noted, key, calls[key]))
        self.commands[f"light-{self.theme.mode.value}"].setChecked(True)
        for command in actions.declared():
            if command.menu == "plant":
                self.day_list.menu.addAction(self.commands[command.key])
        own = wiring.Own(self._first_step, self._work_out)
        wiring.connect_panes(self, self.commands, own)

    def _connect_desk(self) -> None:
        self.destroyed.connect(self.desk.rest)
        self.desk.seen = self.day_list.unjudged_in_sight
        self.desk.day_begun.connect(self._show_begun)
        self.desk.day_arrived.connect(self._show_day)
        self.bus.changed.connect(self._show_changed)
        self.day_stands.connect(self._show_rest)
        self.day_stands.connect(self.looks.ask)
        self.looks.arrived.connect(self.day_list.looks.show_lines)
        self.day_stands.connect(self._ask_jobs)
        self.calendaring.was_read.connect(self.jobs.take)
        self.jobs.arrived.connect(self._tell_jobs)
        self.others = OthersAsking(self.desk)
        self.keeping = KeepingBackups(self.desk)
        self.keeping.stands.connect(self.head.tell_backups)
        self.head.backups.backups_wanted.connect(self.commands["backups"].trigger)
        self.desk.plant_arrived.connect(lambda plant: self.detail.show_plant(plant))
        self.desk.plant_gone.connect(self._show_no_plant)
        self.roster.arrived.connect(self._allow_commands)
        self.faces.turned.connect(lambda _key: self._allow_commands())
        self.faces.turned.connect(partial(trail.note, "face"))
        self.desk.chart_arrived.connect(self._show_chart)
        self.desk.wrote.connect(self._tell_written)
        self.desk.switched.connect(self._tell_file)
        self._tell_file()
        self.desk.told.connect(self.strip.tell)
        self.tasks.busy_changed.connect(self.strip.show_busy)
        self.long_panel.came.connect(partial(self.strip.show_busy, busy=False))
        self.desk.long.turned.connect(self._allow_cancel)
        self._allow_cancel()
        self.theme.turned.connect(self._turn_colours)
        sizes.current().turned.connect(self._turn_colours)
        sizes.current().turned.connect(self.folding.fit)
        sizes.current().turned.connect(self.stacking.fit)

    # -- showing --------------------------------------------------------------------

    def _show_begun(self, begun: DayBegun) -> None:
        """Show all plants of a day before all of them are judged."""
        self.head.show_begun(begun, self.desk.today)
        self.day_list.show_begun(begun)
        self._allow_commands()
        self.first_paint.then(self._stand_begun)
        self.first_paint.then(partial(self._go_on, begun))

    def _stand_begun(self) -> None:
        """Say beside the list what is not there before all plants are judged."""
        if self.desk.begun is not None:
            self.mixing.show_begun()

    def _show_changed(self, changed: Changed) -> None:
        """Show what was written of the chosen plant before the whole day is there."""
        chosen = self.day_list.chosen
        is_meant = self.faces.follows_day and chosen is not None
        if self.desk.begun is not None and is_meant and changed is not Changed.NOTHING:
            self.desk.show_plant(chosen)

    def _go_on(self, begun: DayBegun) -> None:
        """Have the next plants judged, unless another day is asked for meanwhile."""
        if begun is self.desk.begun:
            self.desk.go_on()

    def _show_day(self, shown: Shown) -> None:
        view = shown.view
        self.head.show_day(view, self.desk.today)
        self.head.clock.show_doubt(shown.clock_doubt)
        self._name_history(shown.history)
        self._before = self.day_list.chosen
        self.day_list.show_day(view, self.desk.today)
        self._allow_commands()
        self.first_paint.then(partial(self._stand, shown))

    def _stand(self, shown: Shown) -> None:
        """Go on to what stands beside the list, unless another day has come.

        Each pane is made in a turn of its own, so that keys come between.
        """
        if self.make_pane():
            QTimer.singleShot(0, self, partial(self._stand, shown))
            return
        if shown.view is self.desk.view:
            self.day_stands.emit(shown)

    def _show_rest(self, shown: Shown) -> None:
        view = shown.view
        self.mixing.show_day(view)
        self.mixing.show_shelf(shown.tins, shown.waters, shown.recipes)
        after = self.day_list.chosen
        if not self.faces.follows_day:
            return
        if not view.lines:
            self.desk.show_plant(None)
        elif after == self._before:
            self.desk.show_plant(after)

    def _tell_file(self) -> None:
        """Say how the collection's file was found, and whether it may be written."""
        now = self.desk.collection
        looking.current().take(now.looking)
        self.head.tell_file(looking=now.looking, notice=now.notice)

    def _ask_jobs(self) -> None:
        """Ask what is overdue; the calendar in sight reads it itself."""
        if not self.calendaring.is_shown:
            self.jobs.ask()

    def _tell_jobs(self, lines: tuple[JobLine, ...]) -> None:
        from growdesk.ui import calendar_words  # noqa: PLC0415 -- after the list

        told = calendar_words.beside_the_round(lines, self.desk.today)
        self.head.tell_jobs(told)

    def _allow_cancel(self) -> None:
        """Let long work be cancelled while there is any."""
        self.commands["cancel"].setEnabled(self.desk.long.now is not None)

    def _allow_commands(self) -> None:
        """Let commands of plants be asked for where there are any in sight."""
        view, begun = self.desk.view, self.desk.begun
        has_come = view is None or view.on <= self.desk.today
        has_plants = self.roster.has_plants or any(
            each is not None and each.lines for each in (view, begun)
        )
        is_looked_at = bool(self.desk.collection.looking)
        for command in actions.declared():
            may = not (is_looked_at and command.key in actions.WRITING)
            if command.needs_plant:
                fits = has_come or not command.needs_today
                self.commands[command.key].setEnabled(has_plants and fits and may)
            elif command.key in actions.WRITING - {"undo", "redo"}:
                self.commands[command.key].setEnabled(may)

    def _show_chart(self, wanted: Wanted, chart: Chart | None) -> None:
        self.detail.charts.show_chart(wanted, chart)

    def _show_no_plant(self) -> None:
        shown = self.desk.view or self.desk.begun
        has_plants = shown is not None and bool(shown.lines)
        self.detail.show_nothing(
            tr("Choose a plant in the list; its reasons stand here.")
            if has_plants
            else tr(
                "Here a plant says why it is fed, watered or left dry. Add the first "
                "plant and record a look: new growths, root tips, leaves."
            ),
            add=not has_plants,
        )

    def _name_history(self, history: HistoryView) -> None:
        for key, title in (("undo", history.undo), ("redo", history.redo)):
            action = self.commands[key]
            is_looked_at = bool(self.desk.collection.looking)
            action.setEnabled(title is not None and not is_looked_at)
            word = tr("&Undo") if key == "undo" else tr("&Redo")
            said = (title or "").replace("&", "&&")  # one alone marks a letter
            action.setText(f"{word}: {said}" if said else word)

    def _tell_written(self, written: Written) -> None:
        line = written.title
        if written.problems:
            line = f"{line}. {' '.join(written.problems)}"
        self.strip.tell(line, undo=written.title if written.undoable else "")

    def _draft_left(self, title: str) -> None:
        self._reminded = False
        self.strip.tell(
            tr("{title}: kept as a draft; open it again to go on.").format(title=title)
        )

    def unsaved_line(self) -> str:
        """Name the forms that were left unsaved, or say nothing."""
        titles = "; ".join(Drafts.of(self).titles)
        if not titles:
            return ""
        return tr(
            "Not saved yet: {titles}. Open it to save; close again to let it go."
        ).format(titles=titles)

    def _turn_colours(self) -> None:
        self.head.refresh_colours()
        for pane in self.panes_made:
            if pane is not None:
                pane.refresh_colours()
        self.day_list.table.viewport().update()

    # -- asking ---------------------------------------------------------------------

    def _first_step(self, key: str) -> None:
        steps: dict[str, Callable[[], object]] = {
            "latitude": lambda: self.shelf.settings("latitude"),
            "water": lambda: self.shelf.waters(),
            "tin": lambda: self.shelf.tins(),
            "plant": lambda: self.forms.add_plant(),
        }
        steps[key]()

    def _work_out(self, typed: QuickAsk) -> None:
        work = partial(self.desk.collection.mixing.quick, typed)
        quick = self.mixing.quick
        job = Job(work, quick.show_answer, quick.show_error, "quick")
        self.tasks.ask(quick, job, Lane.SIDE)

    # -- coming and going ------------------------------------------------------------

    def _panes(self) -> window_memory.Panes:
        shown = self.desk, self.split, self.faces, self.folding
        return window_memory.Panes(*shown, *self.panes_made)

    def hand_over(self) -> Collection:
        """Close and give the collection, still open, to the window that comes next."""
        self._handed_over = True
        self.close()
        return self.desk.collection

    @override
    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Let a table be dropped on the window."""
        self.take_in.let_in(event)

    @override
    def dropEvent(self, event: QDropEvent) -> None:
        """Read a table that is dropped on the window."""
        self.take_in.take_dropped(event)

    @override
    def changeEvent(self, event: QEvent) -> None:
        """Show the new day when the window comes back to the front after midnight."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.desk.notice_midnight()
            self.others.ask()

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        """Close, but once remind of a look that was left unsaved."""
        unsaved = self.unsaved_line()
        if unsaved and not self._reminded and not self._handed_over:
            self._reminded = True
            self.strip.tell(unsaved)
            event.ignore()
            return
        window_memory.keep(self, self._panes())
        self.weekly.close()
        self.strip.give_way()
        self.desk.long.close()
        self.tasks.stop()
        if not self._handed_over:
            self.desk.collection.close()
        super().closeEvent(event)


def _noted(key: str, call: Callable[[], object], *_checked: object) -> None:
    trail.note("command", key)
    call()
