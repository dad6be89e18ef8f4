"""Open the forms for what is done to plants of the collection, and write it.

Which plants are meant, the face in sight says; what they are is read on the desk's
thread first.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from growdesk.domain.holding import Status
from growdesk.domain.speech import tr
from growdesk.services import left_words
from growdesk.services.plant_dividing import MOST
from growdesk.ui.dialogs.change_many import ChangeManyDialog
from growdesk.ui.dialogs.divide import DivideDialog, DivideStart
from growdesk.ui.dialogs.leave import LeaveDialog, LeaveStart
from growdesk.ui.dialogs.move import MoveDialog, MoveStart
from growdesk.ui.picking import whom
from growdesk.ui.thing_forms import ThingForms

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.plant_moving import Where
    from growdesk.services.plant_values import Dividing, Leaving, ManyChanges
    from growdesk.services.values import PlantDraft, Written
    from growdesk.ui.dialogs.base import FormDialog
    from growdesk.ui.picking import Picked

    Drafts = tuple[PlantDraft, ...]


class PlantForms(ThingForms):
    """The forms for one plant or many of a window's collection."""

    # -- leaving --------------------------------------------------------------------

    def leave(self, picked: Sequence[Picked]) -> None:
        """Open what became of plants; those that had left may be here again."""
        self._with_drafts(picked, self._open_leave)

    def _open_leave(self, picked: tuple[Picked, ...], drafts: Drafts) -> None:
        pairs = list(zip(picked, drafts, strict=True))
        here = [each for each, d in pairs if d.status is Status.GROWING]
        gone = [(each, d) for each, d in pairs if d.status is not Status.GROWING]
        told = tuple(
            f"{each.tag}: {left_words.when(d.status, d.left_on)}" for each, d in gone
        )
        start = LeaveStart(whom(here), self._day, told)
        dialog = LeaveDialog(self._window, start)
        ids = tuple(each.plant_id for each in here)
        self._attend(dialog, "leave", ids)
        dialog.saved.connect(partial(self._leave, dialog, ids))
        back = tuple(each.plant_id for each, _draft in gone)
        dialog.back_wanted.connect(
            lambda: self._write(dialog, partial(self._now.plants.back, back))
        )
        dialog.open()

    def _leave(
        self, dialog: LeaveDialog, ids: tuple[int, ...], leaving: Leaving
    ) -> None:
        self._write(dialog, partial(self._now.plants.leave, ids, leaving))

    # -- moving ---------------------------------------------------------------------

    def move(self, picked: Sequence[Picked]) -> None:
        """Open a move of plants to another place or bench."""
        self._with_drafts(picked, self._read_places)

    def _read_places(self, picked: tuple[Picked, ...], drafts: Drafts) -> None:
        place_id = _shared([draft.place_id for draft in drafts])
        bench_id = _shared([draft.bench_id for draft in drafts])
        start = partial(MoveStart, whom(picked), self._day, place_id, bench_id=bench_id)
        work = partial(_with_places, self._now, start)
        self._desk.read(work, partial(self._open_move, picked))

    def _open_move(self, picked: tuple[Picked, ...], start: MoveStart) -> None:
        dialog = MoveDialog(self._window, start)
        ids = tuple(each.plant_id for each in picked)
        self._attend(dialog, "move", ids)
        dialog.saved.connect(partial(self._move, dialog, ids))
        dialog.open()

    def _move(self, dialog: MoveDialog, ids: tuple[int, ...], where: Where) -> None:
        work = partial(
            self._now.plants.move, ids, where.place_id, where.bench_id, where.on
        )
        self._write(dialog, work)

    # -- changing many --------------------------------------------------------------

    def change_many(self, picked: Sequence[Picked]) -> None:
        """Open what many plants are given alike."""
        if not picked:
            self._desk.told.emit(tr("No plant is selected."))
            return
        self._desk.load_units()
        self._desk.read(self._now.plants.kinds, partial(self._open_many, tuple(picked)))

    def _open_many(
        self, picked: tuple[Picked, ...], kinds: tuple[tuple[str, str], ...]
    ) -> None:
        dialog = ChangeManyDialog(self._window, whom(picked), len(picked), kinds)
        ids = tuple(each.plant_id for each in picked)
        self._attend(dialog, tr("change many"), ids)
        dialog.saved.connect(partial(self._change_many, dialog, ids))
        dialog.open()

    def _change_many(
        self, dialog: ChangeManyDialog, ids: tuple[int, ...], changes: ManyChanges
    ) -> None:
        self._write(dialog, partial(self._now.plants.change_many, ids, changes))

    # -- dividing -------------------------------------------------------------------

    def divide(self, plant_id: int) -> None:
        """Open new plants taken from one."""
        self._desk.load_units()
        work = partial(_divide_start, self._now, plant_id, self._desk.on)
        self._desk.read(work, partial(self._open_divide, plant_id))

    def _open_divide(self, plant_id: int, start: DivideStart) -> None:
        if start.parent.status is not Status.GROWING:
            told = left_words.when(start.parent.status, start.parent.left_on)
            self._desk.told.emit(
                tr("{tag} is not here any more: {told}.").format(
                    tag=start.parent.tag, told=told
                )
            )
            return
        dialog = DivideDialog(self._window, start)
        self._attend(dialog, "divide", plant_id)
        dialog.saved.connect(partial(self._divide, dialog, plant_id))
        dialog.open()

    def _divide(self, dialog: DivideDialog, plant_id: int, dividing: Dividing) -> None:
        self._write(dialog, partial(self._now.plants.divide, plant_id, dividing))

    # -- what all of them do --------------------------------------------------------

    @property
    def _day(self) -> date:
        return min(self._desk.on, self._desk.today)

    def _with_drafts(
        self,
        picked: Sequence[Picked],
        use: Callable[[tuple[Picked, ...], Drafts], None],
    ) -> None:
        if not picked:
            self._desk.told.emit(tr("No plant is selected."))
            return
        plants = tuple(picked)
        ids = tuple(each.plant_id for each in plants)
        self._desk.read(partial(self._now.plants.some, ids), partial(use, plants))

    def _write(self, dialog: FormDialog, work: Callable[[], Written]) -> None:
        self._desk.write(work, lambda _done: dialog.close_saved(), dialog.refused)


def _shared(ids: Sequence[int | None]) -> int | None:
    """Give what all of them have, if it is one."""
    return ids[0] if len(set(ids)) == 1 else None


def _with_places(collection: Collection, start: Callable[..., MoveStart]) -> MoveStart:
    return start(collection.places.all(), collection.benches.choices())


def _divide_start(collection: Collection, plant_id: int, shown: date) -> DivideStart:
    return DivideStart(
        collection.plants.get(plant_id),
        min(shown, collection.clock.today()),
        collection.plants.next_tags(MOST),
        collection.places.all(),
        collection.benches.choices(),
    )
