"""Undo and redo, by name, over closing and reopening; and the history itself."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr, trn
from growdesk.services.history_values import PastAction, PastAsk, PastPage
from growdesk.services.ledger import facets
from growdesk.services.long_work import quietly
from growdesk.services.standing import here
from growdesk.services.values import HistoryView, Written
from growdesk.store import past, undoing
from growdesk.store.rows import lots
from growdesk.store.schema import ActionRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.ledger import Ledger
    from growdesk.services.long_work import Step
    from growdesk.store.journal import Stamp
    from growdesk.store.past import Past, Walked
    from growdesk.store.session import Session
    from growdesk.store.undoing import Moved


class History:
    """What was done to one collection, and the way back and forth in it."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def view(self) -> HistoryView:
        """Give what undo and redo would do now, in words."""
        with self._ledger.reading() as session:
            back, forth = undoing.next_undo(session), undoing.next_redo(session)
            by, digest = "", None
            if back is not None and self._ledger.on_server is not None:
                by, digest = _sealed(session, back[0])
                by = "" if by == self._ledger.store.who() else by
        return HistoryView(
            undo=None if back is None else back[1],
            redo=None if forth is None else forth[1],
            undo_id=None if back is None else back[0],
            undo_by=by,
            undo_digest=digest,
        )

    def undo(self, only: HistoryView | None = None) -> Written | None:
        """Take the last action back; nothing where there is none.

        Raises InputError where that is another now than in ``only``. The numbers given
        are those of the plants that it touched.
        """
        with self._ledger.store.unrecorded() as session:
            if only is not None:
                _refuse_another(session, only)
            moved = _of_those_here(session, undoing.undo(session, self._stamp()))
        return _written(tr("Undone: {title}"), moved)

    def redo(self) -> Written | None:
        """Do again what was undone last; nothing where there is none."""
        with self._ledger.store.unrecorded() as session:
            moved = _of_those_here(session, undoing.redo(session, self._stamp()))
        return _written(tr("Done again: {title}"), moved)

    def page(self, ask: PastAsk = PastAsk()) -> PastPage:  # noqa: B008 -- it is frozen
        """Give some of the history, the newest first; four statements, however long."""
        with self._ledger.reading() as session:
            plant_id = _plant(session, ask.tag) if ask.tag.strip() else None
            found = past.page(
                session, ask.most + 1, ask.before, ask.text.strip(), plant_id
            )
            shown = found[: ask.most]
            plants = past.plants_of(session, [each.action_id for each in shown])
        actions = tuple(
            _action(each, [tag for _, tag in plants.get(each.action_id, ()) if tag])
            for each in shown
        )
        return PastPage(actions, has_more=len(found) > len(shown))

    def undo_to(self, action_id: int, step: Step = quietly) -> Written:
        """Undo an action and all that was done after it, the newest first.

        What the rows do not take ends it there and is told; a stop changes nothing.
        """
        with self._ledger.store.unrecorded() as session:
            if action_id <= past.last_forgotten(session):
                hint = tr("Choose an action after that.")
                problem = tr("was done before the bin was last emptied")
                raise InputError("action", "", problem, hint)
            walked = past.walk_to(session, action_id - 1, step, self._stamp())
            walked = replace(walked, plants=_here(session, walked.plants))
        return _walked(
            walked,
            trn("Undone: {last}", "Undone: {count} actions", len(walked.titles)),
            tr("“{title}” could not be undone, so all before it stays done."),
        )

    def redo_to(self, action_id: int, step: Step = quietly) -> Written:
        """Do again what was undone, up to an action and with it."""
        with self._ledger.store.unrecorded() as session:
            walked = past.walk_to(session, action_id, step, self._stamp())
            walked = replace(walked, plants=_here(session, walked.plants))
        return _walked(
            walked,
            trn(
                "Done again: {last}", "Done again: {count} actions", len(walked.titles)
            ),
            tr("“{title}” could not be done again, so all after it stays undone."),
        )

    def _stamp(self) -> Stamp:
        return self._ledger.store.stamp(self._ledger.clock.now())


def _sealed(session: Session, action_id: int) -> tuple[str, bytes | None]:
    """Give who did an action, and its digest; its number may be given again."""
    asked = select(ActionRow.who, ActionRow.digest).where(ActionRow.id == action_id)
    who, digest = session.execute(asked).one()
    return who, digest


def _refuse_another(session: Session, only: HistoryView) -> None:
    found = undoing.next_undo(session)
    now = None if found is None else (found[0], _sealed(session, found[0])[1])
    was = None if only.undo_id is None else (only.undo_id, only.undo_digest)
    if now != was:
        hint = tr("Look at what was done last, and undo that if it is to be undone.")
        problem = tr("is no longer the last step: somebody wrote meanwhile")
        raise InputError("action", "", problem, hint)


def _of_those_here(session: Session, moved: Moved | None) -> Moved | None:
    if moved is None:
        return None
    return replace(moved, plants=_here(session, moved.plants))


def _here(session: Session, plants: Sequence[int]) -> tuple[int, ...]:
    """Give those of the plants that are in the collection now."""
    wanted = select(PlantRow.id).where(here())
    found = {
        each
        for lot in lots(plants)
        for each in session.scalars(wanted.where(PlantRow.id.in_(lot)))
    }
    return tuple(each for each in plants if each in found)


def _written(form: str, moved: Moved | None) -> Written | None:
    if moved is None:
        return None
    title = form.format(title=moved.title)
    return Written(facets(moved.tables), title, moved.plants, undoable=False)


def _walked(walked: Walked, title: str, stuck: str) -> Written:
    if not walked.titles and not walked.stuck_at:
        hint = tr("Open the history anew.")
        raise InputError("action", "", tr("stands so already"), hint)
    last = walked.titles[-1] if walked.titles else tr("nothing")
    problems = (stuck.format(title=walked.stuck_at),) if walked.stuck_at else ()
    return Written(
        facets(walked.tables),
        title.format(last=last, count=len(walked.titles)),
        walked.plants,
        problems,
        undoable=False,
    )


def _action(found: Past, tags: list[str]) -> PastAction:
    return PastAction(
        found.action_id,
        datetime.fromtimestamp(found.at_s, UTC),
        found.title,
        tuple(tags),
        found.undone,
        found.is_kept,
        found.steps,
        found.who,
        found.is_note,
    )


def _plant(session: Session, tag: str) -> int:
    """Give the plant that has a tag, one in the bin where none has it here."""
    folded = tag.strip().casefold()
    wanted = select(PlantRow.id, PlantRow.tag).order_by(
        PlantRow.binned_on.is_not(None), PlantRow.id.desc()
    )
    for plant_id, known in session.execute(wanted):
        if known.casefold() == folded:
            return int(plant_id)
    hint = tr("Type a tag as it stands on the label, or none.")
    raise InputError("tag", tag, tr("is no plant's tag"), hint)
