"""Mixing: the tins on the shelf, and the calculator that needs no plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import asdict, replace
from sqlalchemy import select

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range
from growdesk.domain.salts import known_formula
from growdesk.domain.same_salt import check_salt
from growdesk.domain.speech import tr
from growdesk.services import checking, shelf
from growdesk.services.ledger import written
from growdesk.services.named_rows import name_of, put_in_use
from growdesk.services.recipe_rows import recipes_with
from growdesk.services.settings import read_house
from growdesk.store.schema import DrawnRow, RecipeRow, ShelfEntryRow, TinRow

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.services.quick_values import QuickAsk, QuickMix
    from growdesk.services.values import TinDraft, TinView, Written
    from growdesk.store.journal import Writing

_EC_PER_100 = Range(0, 5, above=True)
_PRICE = Range(0, 100_000_000)
_PACK = Range(0, 10_000_000, above=True)


class Mixing:
    """The shelf of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def tins(self) -> tuple[TinView, ...]:
        """Give all tins, the one in use first."""
        with self._ledger.reading() as session:
            return shelf.tins(session)

    def add_tin(self, draft: TinDraft) -> Written:
        """Put a tin on the shelf; the first one is in use."""
        kept = _checked_tin(draft)
        return self._add(asdict(kept), tr("Tin {name} added").format(name=kept.name))

    def change_tin(self, tin_id: int, draft: TinDraft) -> Written:
        """Change a tin."""
        kept = _checked_tin(draft)
        return self._change(
            tin_id, kept, tr("Tin {name} changed").format(name=kept.name)
        )

    def remove_tin(self, tin_id: int) -> Written:
        """Take a tin off the shelf; recipes that need it are told."""
        with self._ledger.reading() as session:
            needed = recipes_with(session, tin_id)
        return replace(self._remove(tin_id, tr("Tin {} removed")), problems=needed)

    def use_tin(self, tin_id: int) -> Written:
        """Mix from this tin alone from now on; the recipe in use is set aside."""
        return self._use(tin_id, tr("Tin {} in use"))

    def quick(self, ask: QuickAsk) -> QuickMix:
        """Give what to measure for a mix free of any plan, from texts as typed."""
        from growdesk.services import quick  # noqa: PLC0415 -- only when asked

        with self._ledger.reading() as session:
            house, there = read_house(session), shelf.read_unrecorded(session)
        return quick.answer(ask, house, there)

    def _add(self, values: dict[str, object], title: str) -> Written:
        with self._ledger.writing(title) as writing:
            there = select(TinRow.id).where(TinRow.gone_on.is_(None)).limit(1)
            first = writing.session.scalar(there) is None
            row_id = writing.insert(TinRow, {**values, "in_use": False})
            if first or values["in_use"]:
                put_in_use(writing, TinRow, row_id)
        return written(writing, title, (row_id,))

    def _change(self, row_id: int, kept: TinDraft, title: str) -> Written:
        with self._ledger.writing(title) as writing:
            name_of(writing.session, TinRow, row_id, "tin")
            _told_anew(writing, row_id, kept.density_g_per_ml)
            writing.update(TinRow, row_id, asdict(kept))
            if kept.in_use:
                put_in_use(writing, TinRow, row_id)
        return written(writing, title, (row_id,))

    def _remove(self, row_id: int, form: str) -> Written:
        with self._ledger.reading() as session:
            title = form.format(name_of(session, TinRow, row_id, "tin"))
        off = {"in_use": False, "gone_on": self._ledger.today()}
        with self._ledger.writing(title) as writing:
            writing.update(TinRow, row_id, off)
        return written(writing, title)

    def _use(self, row_id: int, form: str) -> Written:
        with self._ledger.reading() as session:
            title = form.format(name_of(session, TinRow, row_id, "tin"))
        with self._ledger.writing(title) as writing:
            put_in_use(writing, TinRow, row_id)
            for each in writing.session.scalars(
                select(RecipeRow.id).where(RecipeRow.in_use)
            ).all():
                writing.update(RecipeRow, each, {"in_use": False})
        return written(writing, title, (row_id,))


def _told_anew(writing: Writing, tin_id: int, density: float | None) -> None:
    """Bring what was counted and taken of a tin from g to mL, or back.

    A tin is told in mL once it is known as a liquid.
    """
    density_of = select(TinRow.density_g_per_ml).where(TinRow.id == tin_id)
    before = writing.session.scalar(density_of)
    if (before is None) is (density is None):
        return
    times = (before or 1.0) / (density or 1.0)
    for table in (ShelfEntryRow, DrawnRow):
        rows = writing.session.execute(
            select(table.id, table.amount).where(table.tin_id == tin_id)
        ).all()
        writing.update_many(
            table, [(row.id, {"amount": row.amount * times}) for row in rows]
        )


def _checked_tin(draft: TinDraft) -> TinDraft:
    """Give a tin as it is kept; its analysis must be one that can be read."""
    name = checking.needed_text(
        "name", draft.name, tr("Write what its label says."), checking.NAME
    )
    parse_analysis(draft.analysis, draft.density_g_per_ml)
    if draft.price is not None and draft.pack_amount is None:
        hint = tr("Give what the price was paid for, for instance 1 kg.")
        raise InputError("pack_amount", "", tr("is empty"), hint)
    ec = draft.ec_per_100_ppm_n_ms_per_cm
    return replace(
        draft,
        name=name,
        analysis=" ".join(draft.analysis.split()),
        note=checking.text("note", draft.note),
        formula=None if draft.formula is None else _checked_salt(draft, draft.formula),
        ec_per_100_ppm_n_ms_per_cm=checking.number(
            "ec_per_100_ppm_n_ms_per_cm", ec, _EC_PER_100
        ),
        price=checking.number("price", draft.price, _PRICE),
        pack_amount=checking.number("pack_amount", draft.pack_amount, _PACK),
    )


def _checked_salt(draft: TinDraft, typed: str) -> str:
    """Give the salt of a tin; its analysis must be the salt's, as labels round it."""
    formula = known_formula(typed, "formula")
    check_salt(parse_analysis(draft.analysis, draft.density_g_per_ml), formula)
    return formula
