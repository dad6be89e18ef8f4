"""Put the one window together: head, three panes, strip, menus.

Panes know only values and emit what a person asks for; the window connects them to
the desk, the deeds and the forms. Nothing is judged, read or written here.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QMainWindow, QSplitter, QVBoxLayout, QWidget
from typing_extensions import override

from growdesk.domain.speech import tr
from growdesk.services import trail
from growdesk.ui import (
    actions,
    calendar_words,
    deeds,
    icons,
    looking,
    sizes,
    theme,
    window_memory,
    wiring,
)
from growdesk.ui.bloom_forms import BloomForms
from growdesk.ui.bus import Bus
from growdesk.ui.calendaring import Calendaring
from growdesk.ui.care_forms import CareForms
from growdesk.ui.desk import Desk
from growdesk.ui.faces import Faces, Pages, Parts
from growdesk.ui.files import Files
from growdesk.ui.folding import Folding
from growdesk.ui.forms import Forms
from growdesk.ui.handbook_reading import HandbookReading
from growdesk.ui.handlers import Hands, handlers
from growdesk.ui.hindsight import HindsightForms
from growdesk.ui.history_forms import HistoryForms
from growdesk.ui.jobs_asking import JobsAsking
from growdesk.ui.keeping_backups import KeepingBackups
from growdesk.ui.kind_forms import KindForms
from growdesk.ui.looks_asking import LooksAsking
from growdesk.ui.moved_to import MovedTo
from growdesk.ui.overrules import Overrules
from growdesk.ui.panes.day_list import DayListPane
from growdesk.ui.panes.detail import DetailPane
from growdesk.ui.panes.mixing import MixingPane
from growdesk.ui.photo_forms import PhotoForms
from growdesk.ui.plant_forms import PlantForms
from growdesk.ui.preference_forms import PreferenceForms
from growdesk.ui.rostering import Rostering
from growdesk.ui.rule_reading import RuleReading
from growdesk.ui.shelf_forms import ShelfForms
from growdesk.ui.stacking import Stacking
from growdesk.ui.summing import Summing
from growdesk.ui.tasks import Job, Lane, Tasks
from growdesk.ui.tips import titled
from growdesk.ui.walk import Walk
from growdesk.ui.weekly import Weekly
from growdesk.ui.widgets.head import DayHead
from growdesk.ui.widgets.long_panel import LongPanel
from growdesk.ui.widgets.roomy import Body, Roomy
from growdesk.ui.widgets.strip import Strip
from growdesk.ui.widgets.thumbs import Thumbs

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtGui import QCloseEvent

    from growdesk.services.calendar_values import JobLine
    from growdesk.services.collection import Collection
    from growdesk.services.quick_values import QuickAsk
    from growdesk.services.values import HistoryView, Written
    from growdesk.ui.desk import Shown

_WIDTHS = [586, 390, 280]
_SIDE_PX = 12
_LEAST = QSize(1000, 520)
"""What the window shrinks to; panes that need more, as large text does, scroll."""


class Window(QMainWindow):
    """The window of one collection."""

    def __init__(
        self, collection: Collection, *, title: str = "", log: Path | None = None
    ) -> None:
        super().__init__()
        self._log = log
        self._reminded = False
        self._handed_over = False
        self.setWindowTitle(
            title or titled(tr("growdesk: {folder}").format(folder=collection.called))
        )
        self.theme = theme.current()
        self.tasks = Tasks(self)
        self.bus = Bus(self)
        self.desk = Desk(collection, self.tasks, self.bus)
        self.deeds = deeds.Deeds(self.desk)
        self.forms = Forms(self.desk, self)
        self.shelf = ShelfForms(self.desk, self)
        self.rules = RuleReading(self.desk, self, self.shelf)
        self.kinds = KindForms(self.desk, self)
        self.files = Files(self.desk, self)
        self.hindsight = HindsightForms(self.desk, self)
        self.care = CareForms(self.desk, self)
        self.blooms = BloomForms(self.desk, self)
        self.looks = LooksAsking(self.desk)
        self.jobs = JobsAsking(self.desk)
        self.overrules = Overrules(self.desk, self)
        self.plants = PlantForms(self.desk, self)
        self.past = HistoryForms(self.desk, self)
        self.thumbs = Thumbs(self.tasks, self.desk.thumbnail)
        self.walk = Walk(self.desk, self, self.thumbs)
        self.photos = PhotoForms(self.desk, self, self.thumbs, self.forms)
        self.head = DayHead()
        self.day_list = DayListPane()
        self.detail = DetailPane(self.thumbs)
        self.mixing = MixingPane()
        self.strip = Strip()
        self.long_panel = LongPanel(self.desk.long)
        self._lay_out()
        self.folding = Folding(self, self.mixing, self.head.mixing)
        self.stacking = Stacking(self, self.split, 2 * _SIDE_PX)
        shown = self.head, self.day_list, self.detail, self.folding
        parts = Parts(*shown, self.split, self.pages, self.strip)
        self.faces = Faces(self.desk, parts)
        self.weekly = Weekly(self.desk, parts, self.faces)
        self.roster = Rostering(self.desk, parts, self.faces, self.files, self)
        self.calendaring = Calendaring(self.desk, parts, self.faces)
        self.summing = Summing(self.desk, parts, self.faces, self)
        self.commands = actions.build(self.menuBar(), self, self.day_list.table)
        self.preferences = PreferenceForms(self, self.commands, self.desk)
        self.handbook = HandbookReading(self, self.commands, self.faces, self.rules)
        self._connect_commands()
        self._connect_desk()
        window_memory.recall(self, self._panes())
        self.day_list.table.setFocus()
        self.desk.show_day()

    # -- building -------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.pages = Pages()
        self.split = QSplitter(Qt.Orientation.Horizontal)
        self.split.setHandleWidth(10)
        self.split.setChildrenCollapsible(False)
        sizes.least_wide(self.day_list, 360)
        for pane in (self.pages, self.detail, self.mixing):
            self.split.addWidget(pane)
        for number, stretch in enumerate((4, 5, 3)):
            self.split.setStretchFactor(number, stretch)
        self.split.setSizes(_WIDTHS)
        body = Body()
        column = QVBoxLayout(body)
        column.setContentsMargins(_SIDE_PX, 2, _SIDE_PX, 10)
        column.setSpacing(4)
        column.addWidget(self.head)
        column.addWidget(self.split, 1)
        whole = QWidget()
        outer = QVBoxLayout(whole)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(0)
        outer.addWidget(Roomy(body, _LEAST), 1)
        foot = QHBoxLayout()
        foot.setSpacing(0)
        foot.addWidget(self.strip, 1)
        foot.addWidget(self.long_panel, 1)
        outer.addLayout(foot)
        self.setCentralWidget(whole)
        self.setWindowIcon(icons.icon("growdesk", theme.colours().ink))
        self.resize(1280, 800)

    def _connect_commands(self) -> None:
        hands = self._hands()
        calls = handlers(hands)
        for key, action in self.commands.items():
            action.triggered.connect(partial(_noted, key, calls[key]))
        self.commands[f"light-{self.theme.mode.value}"].setChecked(True)
        for command in actions.declared():
            if command.menu == "plant":
                self.day_list.menu.addAction(self.commands[command.key])
        own = wiring.Own(self._first_step, self._work_out)
        wiring.connect_panes(hands, self.commands, own)

    def _hands(self) -> Hands:
        return Hands(
            window=self,
            desk=self.desk,
            deeds=self.deeds,
            forms=self.forms,
            photos=self.photos,
            shelf=self.shelf,
            rules=self.rules,
            kinds=self.kinds,
            files=self.files,
            hindsight=self.hindsight,
            care=self.care,
            blooms=self.blooms,
            overrules=self.overrules,
            plants=self.plants,
            past=self.past,
            day_list=self.day_list,
            detail=self.detail,
            mixing=self.mixing,
            folding=self.folding,
            faces=self.faces,
            weekly=self.weekly,
            calendaring=self.calendaring,
            walk=self.walk,
            roster=self.roster,
            strip=self.strip,
            theme=self.theme,
            preferences=self.preferences,
            handbook=self.handbook,
            log_file=self._log,
            head=self.head,
            summing=self.summing,
        )

    def _connect_desk(self) -> None:
        self.desk.day_arrived.connect(self._show_day)
        self.desk.day_arrived.connect(self.looks.ask)
        self.looks.arrived.connect(self.day_list.looks.show_lines)
        self.desk.day_arrived.connect(self._ask_jobs)
        self.calendaring.was_read.connect(self.jobs.take)
        self.jobs.arrived.connect(self._tell_jobs)
        self.keeping = KeepingBackups(self.desk)
        self.keeping.stands.connect(self.head.tell_backups)
        self.head.backups.backups_wanted.connect(self.commands["backups"].trigger)
        self.preferences.backup_place.chosen.connect(self.keeping.ask)
        self.desk.plant_arrived.connect(self.detail.show_plant)
        self.desk.plant_gone.connect(self._show_no_plant)
        self.roster.arrived.connect(self._allow_commands)
        self.faces.turned.connect(lambda _key: self._allow_commands())
        self.faces.turned.connect(partial(trail.note, "face"))
        self.desk.chart_arrived.connect(self.detail.charts.show_chart)
        self.desk.wrote.connect(self._tell_written)
        self.desk.switched.connect(self._tell_file)
        self._tell_file()
        self.desk.told.connect(self.strip.tell)
        moved = MovedTo(self.desk, self.faces, self.day_list, self.roster.pane)
        self.past.moved.connect(moved.take)
        self.forms.plant_added.connect(self.day_list.choose_next)
        self.forms.plant_added.connect(self.roster.pane.choose_next)
        self.forms.place_wanted.connect(self.shelf.places)
        self.forms.draft_kept.connect(self._draft_kept)
        self.tasks.busy_changed.connect(self.strip.show_busy)
        self.long_panel.came.connect(partial(self.strip.show_busy, busy=False))
        self.desk.long.turned.connect(self._allow_cancel)
        self._allow_cancel()
        self.theme.turned.connect(self._turn_colours)
        sizes.current().turned.connect(self._turn_colours)
        sizes.current().turned.connect(self.folding.fit)
        sizes.current().turned.connect(self.stacking.fit)

    # -- showing --------------------------------------------------------------------

    def _show_day(self, shown: Shown) -> None:
        view = shown.view
        self.head.show_day(view, self.desk.today)
        self.head.clock.show_doubt(shown.clock_doubt)
        self.mixing.show_day(view)
        self.mixing.show_shelf(shown.tins, shown.waters, shown.recipes)
        self._name_history(shown.history)
        before = self.day_list.chosen
        self.day_list.show_day(view, self.desk.today)
        self._allow_commands()
        after = self.day_list.chosen
        if not self.faces.follows_day:
            return
        if not view.lines:
            self.desk.show_plant(None)
        elif after == before:
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
        told = calendar_words.beside_the_round(lines, self.desk.today)
        self.head.tell_jobs(told)

    def _allow_cancel(self) -> None:
        """Let long work be cancelled while there is any."""
        self.commands["cancel"].setEnabled(self.desk.long.now is not None)

    def _allow_commands(self) -> None:
        """Let commands of plants be asked for where there are any in sight."""
        view = self.desk.view
        has_come = view is None or view.on <= self.desk.today
        has_plants = self.roster.has_plants or (view is not None and bool(view.lines))
        is_looked_at = bool(self.desk.collection.looking)
        for command in actions.declared():
            may = not (is_looked_at and command.key in actions.WRITING)
            if command.needs_plant:
                fits = has_come or not command.needs_today
                self.commands[command.key].setEnabled(has_plants and fits and may)
            elif command.key in actions.WRITING - {"undo", "redo"}:
                self.commands[command.key].setEnabled(may)

    def _show_no_plant(self) -> None:
        has_plants = self.desk.view is not None and bool(self.desk.view.lines)
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

    def _draft_kept(self) -> None:
        self._reminded = False

    def _turn_colours(self) -> None:
        self.head.refresh_colours()
        self.detail.refresh_colours()
        self.mixing.refresh_colours()
        self.day_list.table.viewport().update()

    # -- asking ---------------------------------------------------------------------

    def _first_step(self, key: str) -> None:
        steps: dict[str, Callable[[], object]] = {
            "latitude": partial(self.shelf.settings, "latitude"),
            "water": self.shelf.waters,
            "tin": self.shelf.tins,
            "plant": self.forms.add_plant,
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
        return window_memory.Panes(*shown, self.detail, self.mixing)

    def hand_over(self) -> Collection:
        """Close and give the collection, still open, to the window that comes next."""
        self._handed_over = True
        self.close()
        return self.desk.collection

    @override
    def changeEvent(self, event: QEvent) -> None:
        """Show the new day when the window comes back to the front after midnight."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.desk.notice_midnight()

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        """Close, but once remind of a look that was left unsaved."""
        unsaved = self.forms.unsaved_line()
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
