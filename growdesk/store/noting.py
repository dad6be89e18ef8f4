"""A note in the history of a file that nobody has open, such as one just laid."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.store.engine import for_writing, make_engine
from growdesk.store.journal import note
from growdesk.store.session import Session

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.store.journal import Stamp


def note_at(path: Path, title: str, stamp: Stamp) -> None:
    """Keep in a file's history what no undo takes back; it is left at rest.

    What had been undone in it can still be done again.
    """
    engine = make_engine(path)
    try:
        with Session(for_writing(engine)) as session:
            note(session, title, stamp, forgets=False)
    finally:
        engine.dispose()
    journal = path.with_name(f"{path.name}-journal")
    if journal.exists() and journal.stat().st_size == 0:
        journal.unlink()
