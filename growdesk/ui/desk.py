"""Stand between the window and one open collection.

The desk asks the services on its own thread, hands frozen answers to whoever listens,
and turns every failure into one plain line. It knows which day and which plant are
shown, and no widget.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, TypeVar

from msgspec import Struct
from msgspec.structs import replace
from PySide6.QtCore import QObject, QTimer, Signal

from growdesk.domain.errors import GrowdeskError, LookOnlyError
from growdesk.domain.speech import tr
from growdesk.services.mixed_with import mixed_with
from growdesk.services.values import Changed, DayBegun
from growdesk.ui.field_words import plain_line
from growdesk.ui.long_work import LongWork
from growdesk.ui.tasks import Job, Lane, Tasks

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from datetime import date
    from pathlib import Path

    from growdesk.services.collection import Collection
    from growdesk.services.recipe_values import RecipeView
    from growdesk.services.values import (
        DayView,
        HistoryView,
        PhotoView,
        PlantDetail,
        TinView,
        WaterView,
        Written,
    )
    from growdesk.ui.bus import Bus
    from growdesk.ui.charts.asking import Wanted

T = TypeVar("T")
DAY_TURNS_MS = 60_000
"""How often it is looked whether a day has begun, awake or after a sleep."""


class Shown(Struct, frozen=True):
    """All that the window shows of a day, read in one go."""

    view: DayView
    history: HistoryView
    tins: tuple[TinView, ...]
    waters: tuple[WaterView, ...]
    recipes: tuple[RecipeView, ...] = ()
    clock_doubt: str = ""


class Desk(QObject):
    """One collection, the day shown, and the plant shown.

    A day of many plants is judged by steps. While there is none to show, ``day_begun``
    tells each of them, and who shows it says ``go_on``.
    """

    day_begun = Signal(object)
    day_arrived = Signal(object)
    plant_arrived = Signal(object)
    plant_gone = Signal()
    chart_arrived = Signal(object, object)
    week_arrived = Signal(object)
    wrote = Signal(object)
    told = Signal(str)
    switched = Signal()

    def __init__(self, collection: Collection, tasks: Tasks, bus: Bus) -> None:
        super().__init__()
        self.collection = collection
        self.tasks = tasks
        tasks.doubted = partial(_damage_behind, collection)
        self.long = LongWork(tasks, self)
        self.bus = bus
        self.view: DayView | None = None
        self.begun: DayBegun | None = None
        """The day of which not all plants are judged yet, while there is no view."""
        self.seen: Callable[[], Sequence[int]] = tuple
        """Gives the plants that are looked at, to be judged before the others."""
        self.detail: PlantDetail | None = None
        self.asked_day: date | None = None
        self._stepping: object = None
        self.stands_on: object = None
        """The state of a server that is shown; see ``Ledger.standing_on``."""
        bus.changed.connect(self._changed)
        self._day_turns = QTimer(self)
        self._day_turns.timeout.connect(self.notice_midnight)
        self._day_turns.start(DAY_TURNS_MS)

    # -- reading --------------------------------------------------------------------

    @property
    def today(self) -> date:
        """Give today as the collection's clock has it."""
        return self.collection.clock.today()

    @property
    def on(self) -> date:
        """Give the day shown."""
        shown = self.view or self.begun
        return shown.on if shown is not None else self.today

    def show_day(self, on: date | None = None) -> None:
        """Ask for a day; none is today."""
        self.asked_day, self._stepping = on, None
        self.go_on()

    def step_day(self, by: int) -> None:
        """Ask for the next (1) or the previous (-1) watering day.

        Another day asked for before it is known which one that is goes before it.
        """
        self._stepping = asked = object()

        def stepped(on: date) -> None:
            if self._stepping is asked:
                self.show_day(on)

        self.read(partial(self.collection.day.step, self.on, by), stepped)

    def go_on(self) -> None:
        """Ask for the next step of the day asked for; of few plants it is the last."""
        work = partial(_read_day, self.collection, self.asked_day, self.seen())
        self.tasks.ask(self, Job(work, self._day, self.fail, "day"))

    def notice_midnight(self) -> None:
        """Show the new day where the day shown was today and no longer is."""
        shown = self.view or self.begun
        if shown is not None and self.asked_day is None and shown.on != self.today:
            self.show_day()

    def rest(self) -> None:
        """Wait for no midnight any more: whoever showed the day is gone."""
        self._day_turns.stop()

    def show_plant(self, plant_id: int | None) -> None:
        """Ask for a plant on the day shown."""
        if plant_id is None:
            self.detail = None
            self.plant_gone.emit()
            return
        work = partial(self.collection.day.detail, plant_id, self.on, self.view)
        self.tasks.ask(self, Job(work, self._plant, self._no_plant, "plant"))

    def show_week(self) -> None:
        """Ask for the week of the day shown."""
        work = partial(self.collection.day.week, self.on)
        self.tasks.ask(self, Job(work, self.week_arrived.emit, self.fail, "week"))

    def show_chart(self, wanted: Wanted) -> None:
        """Ask for a chart; the drawing library is loaded where nobody waits for it."""
        from growdesk.ui.charts import asking  # noqa: PLC0415 -- when drawn

        failed = partial(self._no_chart, wanted)
        alone = {
            asking.Which.PLACE,
            asking.Which.USED,
            asking.Which.MIX,
            asking.Which.BLOOMS,
        }
        topic = f"{wanted.which}-chart" if wanted.which in alone else "chart"
        read = partial(asking.read, self.collection, wanted)
        job = Job(read, partial(self.chart_arrived.emit, wanted), failed, topic)
        self.tasks.ask(
            self,
            Job(
                asking.load,
                lambda _none: self.tasks.ask(self, job),
                failed,
                topic,
            ),
            Lane.SIDE,
        )

    def draw(self, owner: QObject, job: Job[object], lane: Lane = Lane.SIDE) -> None:
        """Draw beside the window; a failure is told."""

        def failed(error: Exception) -> None:
            job.failed(error)
            self.fail(error)

        self.tasks.ask(owner, replace(job, failed=failed), lane)

    def read(
        self,
        work: Callable[[], T],
        done: Callable[[T], object],
        failed: Callable[[Exception], object] | None = None,
    ) -> None:
        """Read something of the collection and hand it on; a failure is told."""
        self.tasks.ask(self, Job(work, done, failed or self.fail))

    def load_units(self) -> None:
        """Load the units beside the window: reading what is typed never waits then."""
        from growdesk.domain import units  # noqa: PLC0415 -- beside the window

        job = Job(units.load, lambda _done: None, self.fail)
        self.tasks.ask(self, job, Lane.SIDE)

    def thumbnail(self, photo: PhotoView) -> Path | None:
        """Give a photo's thumbnail, made where missing; not for the window's thread."""
        return self.collection.photos.thumbnail(photo)

    def drawable(self, photo_id: int) -> Path | None:
        """Give a photo as a file a window can draw; not for the window's thread."""
        return self.collection.photos.drawable(photo_id)

    # -- writing --------------------------------------------------------------------

    def write(
        self,
        work: Callable[[], Written | None],
        done: Callable[[Written], object] | None = None,
        refused: Callable[[Exception], object] | None = None,
    ) -> None:
        """Write something; what it touched goes over the bus, a refusal is told.

        Where the collection is only looked at, all is refused and nothing is lost. On a
        server it goes by the state that ``refused``'s form was opened on.
        """
        if self.collection.looking:
            (refused or self.fail)(LookOnlyError(self.collection.looking))
            return
        form = getattr(refused, "__self__", None)
        since = getattr(form, "stands_on", None) or self.stands_on
        if since is not None:
            work = partial(_standing_on, self.collection, since, work)
        self.tasks.ask(
            self, Job(work, partial(self._written, done), refused or self.fail)
        )

    def fail(self, error: Exception) -> None:
        """Tell a failure in one line."""
        self.told.emit(plain_line(error))

    def switch(self, collection: Collection) -> None:
        """Work on another collection from now on; the old one is closed."""
        old = self.collection
        self.collection = collection
        self.tasks.doubted = partial(_damage_behind, collection)
        self.view = self.begun = None
        self.detail = None
        self.tasks.ask(self, Job(old.close, lambda _none: None, self.fail))
        self.switched.emit()
        self.plant_gone.emit()
        self.show_day()

    # -- answers --------------------------------------------------------------------

    def _day(self, shown: Shown | DayBegun) -> None:
        """Show a day; of one begun only where none is shown that is whole."""
        if isinstance(shown, Shown):
            self.view, self.begun = shown.view, None
            self.day_arrived.emit(shown)
        elif self.view is None:
            self.begun = shown
            self.day_begun.emit(shown)
        else:
            self.go_on()

    def _plant(self, detail: PlantDetail) -> None:
        self.detail = detail
        self.plant_arrived.emit(detail)

    def _no_plant(self, error: Exception) -> None:
        self.detail = None
        self.plant_gone.emit()
        self.fail(error)

    def _no_chart(self, wanted: Wanted, error: Exception) -> None:
        self.chart_arrived.emit(wanted, None)
        self.fail(error)

    def _written(
        self, done: Callable[[Written], object] | None, written: Written | None
    ) -> None:
        if written is None:
            self.told.emit(tr("There is nothing to undo or redo."))
            return
        self.wrote.emit(written)
        self.bus.tell(written.changed)
        if done is not None:
            done(written)

    def _changed(self, changed: Changed) -> None:
        if changed is not Changed.NOTHING:
            self.go_on()


def _damage_behind(collection: Collection) -> GrowdeskError | None:
    from growdesk.services.values_behind import behind  # noqa: PLC0415 -- for a fault

    return behind(collection.ledger)


def _standing_on(collection: Collection, since: object, work: Callable[[], T]) -> T:
    with collection.ledger.standing_on(since):
        return work()


def _read_day(
    collection: Collection, on: date | None, first: Sequence[int]
) -> Shown | DayBegun:
    with collection.ledger.at_once():
        view = collection.day.by_steps(on, first)
        if isinstance(view, DayBegun):
            return view
        return Shown(
            view,
            collection.history.view(),
            *mixed_with(collection.ledger),
            collection.clock_doubt.line(),
        )
