"""Proves the history by its own digests and numbers, without looking at any row.

With it one knows whether a row or the history changed where the two differ: what an
action with a right digest says was written so.
"""

from __future__ import annotations

from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING, Any

from msgspec import Struct, field

from growdesk.store.digests import digest_of

if TYPE_CHECKING:
    import sqlite3
    from collections.abc import Callable, Iterator

_Change = tuple[str, int, "str | None", "str | None"]
_Own = tuple[int, "list[_Change]"]
_EVERY = 1000
_NEVER = 1 << 62


class Proof(Struct):
    """What of the history can be believed.

    ``proved_from`` is the first action with a digest. ``damaged`` are actions that are
    not as they were written, ``missing`` numbers of actions that are not there, and
    ``disordered`` those that stand undone though a later one stands done.
    """

    proved_from: int = _NEVER
    damaged: set[int] = field(default_factory=set)
    missing: set[int] = field(default_factory=set)
    disordered: set[int] = field(default_factory=set)

    def proves(self, action_id: int) -> bool:
        """Tell whether what an action says was surely written so, and nothing after."""
        last = max(self.damaged | self.missing | self.disordered, default=0)
        return action_id >= self.proved_from and action_id > last


def prove(connection: sqlite3.Connection, step: Callable[[int, int], None]) -> Proof:
    """Read the whole history once, in its order."""
    columns = {row[1] for row in connection.execute("PRAGMA table_info(action)")}
    proof = Proof()
    if "digest" not in columns:
        return proof
    actions = _Actions(proof, _changes(connection))
    rows = connection.execute(
        "SELECT id, at_s, title, who, is_note, digest, undone FROM action ORDER BY id"
    )
    for number, row in enumerate(rows):
        if number % _EVERY == 0:
            step(0, 0)
        actions.take(*row)
    actions.end()
    return proof


class _Actions:
    """Takes one action after the other, each with its changes."""

    def __init__(self, proof: Proof, changes: Iterator[_Own]) -> None:
        self._proof = proof
        self._changes = changes
        self._ahead = next(changes, None)
        self._last = 0
        self._undone: set[int] = set()

    def take(  # noqa: PLR0913, PLR0917 -- the columns of an action
        self,
        number: int,
        at_s: int,
        title: str,
        who: str,
        is_note: bool,  # noqa: FBT001 -- ditto
        digest: bytes | None,
        undone: bool,  # noqa: FBT001 -- ditto
    ) -> None:
        proof = self._proof
        if self._last:
            gap = range(self._last + 1, min(number, self._last + _EVERY))
            proof.missing.update(gap)
        self._last = number
        own = self._own(number)
        if digest is not None:
            proof.proved_from = min(proof.proved_from, number)
            if not _holds(digest, number, at_s, title, who, is_note, own):
                proof.damaged.add(number)
        if is_note:
            return  # it comes and goes with no undo, whatever stands undone below it
        if undone:
            self._undone.add(number)
        elif self._undone:
            proof.disordered |= self._undone
            self._undone.clear()

    def end(self) -> None:
        """Note what has changes and no action, behind the last one."""
        self._own(_NEVER)

    def _own(self, number: int) -> list[_Change]:
        while self._ahead is not None and self._ahead[0] < number:
            self._proof.missing.add(self._ahead[0])
            self._ahead = next(self._changes, None)
        if self._ahead is None or self._ahead[0] != number:
            return []
        own, self._ahead = self._ahead[1], next(self._changes, None)
        return own


def _changes(connection: sqlite3.Connection) -> Iterator[_Own]:
    """Give the changes of each action that has any, in order."""
    rows = connection.execute(
        "SELECT action_id, table_name, row_id, before, after FROM change"
        " ORDER BY action_id, id"
    )
    for action_id, own in groupby(rows, key=itemgetter(0)):
        yield action_id, [(row[1], row[2], row[3], row[4]) for row in own]


def _holds(
    digest: bytes,
    *written: Any,
) -> bool:
    try:
        return digest_of(*written) == digest
    except (TypeError, ValueError):
        return False
