"""Which state of a collection a session reads, and which steps this program made.

A state is told by the history in one statement. Of a collection that others write to as
well, what they wrote is all between two states that is no step of our own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import select

from growdesk.store.schema import ActionRow

if TYPE_CHECKING:
    from growdesk.store.session import Session


class State(Struct, frozen=True):
    """A state of the collection: its newest action, and the newest that stands.

    Numbers may be given again after an undo; the digest is then another.
    """

    newest: int
    digest: bytes | None
    standing: int


_STANDS = ActionRow.undone.is_(False), ActionRow.is_note.is_(False)
_LAST = select(ActionRow.id).order_by(ActionRow.id.desc()).limit(1)
STATE = (
    _LAST.scalar_subquery(),
    _LAST.with_only_columns(ActionRow.digest).scalar_subquery(),
    _LAST.where(*_STANDS).scalar_subquery(),
)
"""What is asked for a state; see ``state_of``."""


def state_of(newest: int | None, digest: bytes | None, standing: int | None) -> State:
    """Give the state that was asked for by ``STATE``."""
    return State(newest or 0, digest, standing or 0)


def state(session: Session) -> State:
    """Give the state that a session reads."""
    return state_of(*session.execute(select(*STATE)).one())


class OwnSteps:
    """The steps of one program, in the order in which it had its turn to write.

    A step is added in the very transaction that makes it, before it is kept.
    """

    def __init__(self) -> None:
        self._steps: list[tuple[State, State]] = []
        self._digests: set[bytes | None] = set()

    def add(self, step: tuple[State, State]) -> None:
        """Note a step that is about to be kept."""
        self._steps.append(step)
        if step[0].digest != step[1].digest:
            self._digests.add(step[1].digest)

    def wrote(self, digest: bytes | None) -> bool:
        """Tell by its digest whether an action is ours."""
        return digest in self._digests

    def drop(self, step: tuple[State, State]) -> None:
        """Forget a step that was not kept."""
        self._steps = [each for each in self._steps if each is not step]

    def others(
        self, since: State | None, now: State
    ) -> tuple[tuple[State, State], ...]:
        """Give the stretches between two states that others wrote; forget our steps.

        Steps that are after ``now``, or not kept yet, stay for the next time. With no
        state to begin at there are none.
        """
        if since is None:
            self._steps.clear()
            return ()
        stretches: list[tuple[State, State]] = []
        at, done = since, 0
        for before, after in tuple(self._steps):
            if at not in (now, before):
                stretches.append((at, before))
                at = before
            if at == now:
                break
            at, done = after, done + 1
        if at != now:
            stretches.append((at, now))
        del self._steps[:done]
        return tuple(stretches)
