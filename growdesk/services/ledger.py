"""What every service is given: the open store, the clock, and titled writing.

It exists so that services need not know the collection that makes them. Which facets a
write touched follows from the tables it wrote.
"""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.services.values import Changed, Written

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from contextlib import AbstractContextManager
    from datetime import date
    from pathlib import Path

    from growdesk.services.clock import Clock
    from growdesk.services.whereabouts import OnServer, Where
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session
    from growdesk.store.transactions import Transactions

FACETS = {
    "plant": Changed.PLANTS,
    "bloom": Changed.PLANTS,
    "place": Changed.PLACES,
    "bench": Changed.PLACES,
    "forecast": Changed.PLACES,
    "job_done": Changed.JOBS,
    "saved_view": Changed.VIEWS,
    "reading": Changed.PLACES,
    "look": Changed.LOOKS,
    "care": Changed.CARE,
    "pass_by": Changed.CARE,
    "photo": Changed.PHOTOS,
    "kind_correction": Changed.KINDS,
    "plant_correction": Changed.KINDS,
    "mark": Changed.MARKS,
    "tin": Changed.SHELF,
    "water": Changed.SHELF,
    "recipe": Changed.SHELF,
    "recipe_part": Changed.SHELF,
    "recipe_use": Changed.SHELF,
    "tool": Changed.SHELF,
    "spoon_weight": Changed.SHELF,
    "vessel": Changed.SHELF,
    "stock": Changed.SHELF,
    "stock_part": Changed.SHELF,
    "drawn": Changed.SHELF,
    "shelf_entry": Changed.SHELF,
    "meter": Changed.SHELF,
    "setting": Changed.HOUSE,
}


def facets(tables: Iterable[str]) -> Changed:
    """Give the facets of these tables; one that a later program made has none."""
    changed = Changed.NOTHING
    for table in tables:
        changed |= FACETS.get(table, Changed.NOTHING)
    return changed


def written(
    writing: Writing,
    title: str,
    ids: Sequence[int] = (),
    problems: Sequence[str] = (),
) -> Written:
    """Give what a write did, as its caller hands it on."""
    return Written(facets(writing.tables), title, tuple(ids), tuple(problems))


class Ledger(Struct, frozen=True):
    """The store and the clock of one open collection."""

    store: Transactions
    clock: Clock
    on_server: OnServer | None = None

    @property
    def where(self) -> Where:
        """Give where the collection lies."""
        return self.on_server or self.folder

    @property
    def folder(self) -> Path:
        """Give the collection's folder."""
        return self.store.folder

    @property
    def name(self) -> str:
        """Give what the collection is called where the grower gave it no word."""
        on = self.on_server
        return self.folder.name if on is None else on.address.database

    def today(self) -> date:
        """Give today by the collection's clock."""
        return self.clock.today()

    def reading(self) -> AbstractContextManager[Session]:
        """Give a session to read with, closed at the end of the block."""
        return self.store.reading()

    def at_once(self) -> AbstractContextManager[None]:
        """Let all that a thread reads in the block be of one state."""
        return self.store.at_once()

    def standing_on(self, state: object) -> AbstractContextManager[None]:
        """Say which state a thread's writing in the block goes by."""
        return self.store.standing_on(state)

    def writing(self, title: str) -> AbstractContextManager[Writing]:
        """Give a writing, kept whole under its title or not at all."""
        return self.store.writing(title, self.clock.now)

    @contextmanager
    def together(self, title: str, *, remember: bool = True) -> Iterator[None]:
        """Make all writes of this thread inside the block one action, one undo.

        With ``remember`` off they leave no history (a demo laid into a new folder).
        """
        with self.store.together(title, self.clock.now, remember=remember):
            yield
