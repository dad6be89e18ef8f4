"""Views of the collection that a grower keeps: to add, change, rename and remove."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services.ledger import written
from growdesk.services.named_rows import name_of, refuse_second
from growdesk.services.roster_values import SavedView, ViewDraft
from growdesk.services.view_form import text_of, view_of
from growdesk.services.view_starts import STARTS
from growdesk.store.schema import SavedViewRow

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session

MOST_LETTERS = 60


class Views:
    """The views of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[SavedView, ...]:
        """Give the views that growdesk brings along, then the grower's own by name."""
        with self._ledger.reading() as session:
            rows = session.execute(select(SavedViewRow.__table__)).all()
        own = sorted(rows, key=lambda row: row.name.casefold())
        return (*STARTS, *(_read(row.id, row.name, row.what) for row in own))

    def add(self, draft: ViewDraft) -> Written:
        """Keep a view under a name of its own."""
        kept = _named(draft)
        title = tr("View {name} kept").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            _refuse_taken(writing.session, kept.name, None)
            values = {"name": kept.name, "what": text_of(kept)}
            view_id = writing.insert(SavedViewRow, values)
        return written(writing, title, (view_id,))

    def change(self, view_id: int, draft: ViewDraft) -> Written:
        """Let a view show something else; it keeps its name."""
        with self._ledger.reading() as session:
            name = name_of(session, SavedViewRow, view_id, "view")
        title = tr("View {name} changed").format(name=name)
        with self._ledger.writing(title) as writing:
            values = {"what": text_of(replace(draft, name=name))}
            writing.update(SavedViewRow, view_id, values)
        return written(writing, title, (view_id,))

    def rename(self, view_id: int, name: str) -> Written:
        """Give a view another name."""
        kept = _named(ViewDraft(name)).name
        with self._ledger.reading() as session:
            before = name_of(session, SavedViewRow, view_id, "view")
        title = tr("View {before} renamed to {kept}").format(before=before, kept=kept)
        with self._ledger.writing(title) as writing:
            _refuse_taken(writing.session, kept, view_id)
            writing.update(SavedViewRow, view_id, {"name": kept})
        return written(writing, title, (view_id,))

    def remove(self, view_id: int) -> Written:
        """Forget a view; its plants stay as they are."""
        with self._ledger.reading() as session:
            name = name_of(session, SavedViewRow, view_id, "view")
        title = tr("View {name} removed").format(name=name)
        with self._ledger.writing(title) as writing:
            writing.delete(SavedViewRow, view_id)
        return written(writing, title, (view_id,))


def _read(view_id: int, name: str, what: str) -> SavedView:
    try:
        return SavedView(view_id, view_of(name, what))
    except InputError as error:
        told = tr("The view {name} {problem}. {hint}").format(
            name=name, problem=error.problem, hint=error.hint
        )
        return SavedView(view_id, ViewDraft(name), told)


def _named(draft: ViewDraft) -> ViewDraft:
    name = " ".join(draft.name.split())
    hint = tr("Give it a short name, such as Warm bench.")
    if not name:
        raise InputError("name", name, tr("is empty"), hint)
    if len(name) > MOST_LETTERS:
        raise InputError(
            "name",
            name,
            tr("is over {most_letters} letters long").format(most_letters=MOST_LETTERS),
            hint,
        )
    if name.casefold() in {
        n.casefold() for each in STARTS for n in (each.draft.name, each.title)
    }:
        hint = tr("Give this one another name.")
        raise InputError("name", name, tr("is a view of growdesk's own"), hint)
    return replace(draft, name=name)


def _refuse_taken(session: Session, name: str, own: int | None) -> None:
    refuse_second(session, SavedViewRow, name, own, "view")
