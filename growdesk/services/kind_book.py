"""The kinds of a collection, field by field, and the grower's corrections of them.

Corrections stand apart from the shipped table and go before it; one for a plant goes
before one for its kind. What a later table no longer fits is kept and named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.kind_corrections import as_kept, corrected
from growdesk.domain.speech import tr
from growdesk.services import checking, kind_changes, kind_rows, kinds
from growdesk.services.kind_changes import named
from growdesk.services.kind_effect import effect_of
from growdesk.services.kind_reading import all_views, plant_view, problems_of
from growdesk.services.known import load_known
from growdesk.services.ledger import written
from growdesk.services.plant_rows import get_draft
from growdesk.store.schema import KindCorrectionRow, PlantCorrectionRow

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.facts import Plant
    from growdesk.domain.kinds import Kind
    from growdesk.services.kind_values import KindEffect, KindProblem, KindView
    from growdesk.services.known import Known
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Written
    from growdesk.store.session import Session


class Kinds:
    """The kinds of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[KindView, ...]:
        """Give all kinds by title, the careful general one last."""
        with self._ledger.reading() as session:
            return all_views(session)

    def of_plant(self, plant_id: int) -> KindView:
        """Give the kind of one plant, as it holds for that plant."""
        with self._ledger.reading() as session:
            (known,) = self._known(session, plant_id)
            return plant_view(session, known)

    def kind_for(self, plant_id: int) -> Kind:
        """Give the kind that a plant is judged by."""
        with self._ledger.reading() as session:
            (known,) = self._known(session, plant_id)
        return known.kind

    def problems(self) -> tuple[KindProblem, ...]:
        """Name the corrections that are kept and cannot be judged by."""
        with self._ledger.reading() as session:
            return problems_of(session)

    # -- for a kind -----------------------------------------------------------------

    def correct(
        self, kind_key: str, cells: Mapping[str, str], note: str = ""
    ) -> Written:
        """Keep fields of a kind as the grower has them; as shipped is no correction.

        Cells are written as in the table of kinds; ``InputError`` names the field.
        """
        shipped = _shipped(kind_key)
        said = checking.text("note", note)
        with self._ledger.reading() as session:
            now = kind_rows.table_of(session).kinds[kind_key]
        kept = as_kept(now, cells)
        title = tr("{title}: {named} corrected").format(
            title=tr(now.title), named=named(kept)
        )
        with self._ledger.writing(title) as writing:
            where = {"kind": kind_key}
            kind_changes.keep(writing, KindCorrectionRow, where, shipped, kept, said)
        return written(writing, title)

    def restore(self, kind_key: str, *names: str) -> Written:
        """Go back to what is shipped; fields that only fit together go together."""
        found = kinds.table().kinds.get(kind_key)
        with self._ledger.reading() as session:
            kept = kind_rows.by_kind(session).get(kind_key, {})
        gone = kind_changes.gone(kept, names, found)
        called = kind_key if found is None else tr(found.title)
        title = tr("{called}: {named} as shipped").format(
            called=called, named=named(gone)
        )
        with self._ledger.writing(title) as writing:
            kind_changes.drop(writing, KindCorrectionRow, {"kind": kind_key}, gone)
        return written(writing, title)

    def effect(self, kind_key: str, cells: Mapping[str, str]) -> KindEffect:
        """Give what correcting a kind so would turn today; nothing is written."""
        with self._ledger.reading() as session:
            _shipped(kind_key)
            table = kind_rows.table_of(session)
            made = corrected(table.kinds[kind_key], cells)
            altered = replace(table, kinds={**table.kinds, kind_key: made})
            today = self._ledger.today()
            found = [
                known
                for known in load_known(session, today)
                if known.kind.key == kind_key
            ]
            turned = [kinds.kind_of(known.plant, altered)[0] for known in found]
            return effect_of(session, today, found, turned)

    # -- for one plant --------------------------------------------------------------

    def correct_for_plant(
        self, plant_id: int, cells: Mapping[str, str], note: str = ""
    ) -> Written:
        """Keep fields of its kind that hold otherwise for one plant."""
        said = checking.text("note", note)
        with self._ledger.reading() as session:
            (known,) = self._known(session, plant_id)
            below = _below(session, known.plant)
        kept = as_kept(known.kind, cells)
        title = tr("{tag}: {named} of its kind corrected").format(
            tag=known.plant.tag, named=named(kept)
        )
        with self._ledger.writing(title) as writing:
            where = {"plant_id": plant_id}
            kind_changes.keep(writing, PlantCorrectionRow, where, below, kept, said)
        return written(writing, title, (plant_id,))

    def restore_for_plant(self, plant_id: int, *names: str) -> Written:
        """Let one plant go by its kind again."""
        with self._ledger.reading() as session:
            (known,) = self._known(session, plant_id)
            below = _below(session, known.plant)
        gone = kind_changes.gone(dict(known.plant.kind_fields), names, below)
        title = tr("{tag}: {named} as its kind has it").format(
            tag=known.plant.tag, named=named(gone)
        )
        with self._ledger.writing(title) as writing:
            where = {"plant_id": plant_id}
            kind_changes.drop(writing, PlantCorrectionRow, where, gone)
        return written(writing, title, (plant_id,))

    def effect_for_plant(self, plant_id: int, cells: Mapping[str, str]) -> KindEffect:
        """Give what correcting its kind for one plant would turn today."""
        with self._ledger.reading() as session:
            (known,) = self._known(session, plant_id)
            made = corrected(known.kind, cells, here=True)
            return effect_of(session, self._ledger.today(), [known], [made])

    # -- inside ---------------------------------------------------------------------

    def _known(self, session: Session, plant_id: int) -> tuple[Known, ...]:
        get_draft(session, plant_id)
        return load_known(session, self._ledger.today(), plant_id)


def _shipped(kind_key: str) -> Kind:
    found = kinds.table().kinds.get(kind_key)
    if found is None:
        hint = tr("Choose a kind of the list.")
        raise InputError("kind", kind_key, tr("is not a kind"), hint)
    return found


def _below(session: Session, plant: Plant) -> Kind:
    """Give the kind that a plant goes by without its own corrections."""
    table = kind_rows.table_of(session)
    return kinds.kind_of(replace(plant, kind_fields=()), table)[0]
