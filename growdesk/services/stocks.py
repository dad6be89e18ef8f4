"""Bottles of stock solution: made, kept, emptied.

What is left in a bottle and what its making took from the tins is reckoned by
``stock_record``; here a bottle is only written down. One that would not stay clear is
refused with the way out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services import checking, shelf, stock_answers, stock_rows
from growdesk.services.ledger import written
from growdesk.services.named_rows import name_of
from growdesk.services.recipe_rows import read_recipes
from growdesk.services.settings import read_house
from growdesk.services.solubilities import room_of
from growdesk.services.stock_values import StockBench
from growdesk.services.water_rows import waters
from growdesk.store.schema import StockPartRow, StockRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.stock_solution import Stock
    from growdesk.services.ledger import Ledger
    from growdesk.services.stock_values import StockAnswer, StockWanted
    from growdesk.services.values import Written
    from growdesk.store.session import Session

    Lines = tuple[tuple[int, float], ...]
    from growdesk.store.journal import Writing

_GONE = mark("It was emptied; undo brings it back.")
_DUST = 1e-9


class Stocks:
    """The stock bottles of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def bench(self) -> StockBench:
        """Give the bottles there are, and all that a new one asks for."""
        with self._ledger.reading() as session:
            return self._bench(session)

    def answer(self, wanted: StockWanted) -> StockAnswer:
        """Give what a wanted stock comes to, without writing it down."""
        return stock_answers.answer(wanted, self.bench())

    def of_recipe(self, recipe_id: int, strength_ppm_n: float) -> Lines:
        """Give the tins of a recipe with what a litre of feed of a strength takes.

        In g, of a liquid in mL.
        """
        return stock_answers.of_recipe(recipe_id, strength_ppm_n, self.bench())

    def make(self, wanted: StockWanted) -> Written:
        """Write a bottle down as it is weighed; refused where it would not stay clear.

        The day it was made is today where none is given.
        """
        values, stock = self._checked(wanted, None)
        title = tr("Stock bottle {name} made").format(name=stock.name)
        with self._ledger.writing(title) as writing:
            stock_id = writing.insert(StockRow, values)
            _weigh_in(writing, stock_id, stock)
        return written(writing, title, (stock_id,))

    def change(self, stock_id: int, wanted: StockWanted) -> Written:
        """Change what was written down of a bottle."""
        values, stock = self._checked(wanted, stock_id)
        title = tr("Stock bottle {name} changed").format(name=stock.name)
        with self._ledger.writing(title) as writing:
            name_of(writing.session, StockRow, stock_id, "stock", tr(_GONE))
            writing.update(StockRow, stock_id, values)
            _weigh_in(writing, stock_id, stock)
        return written(writing, title, (stock_id,))

    def empty(self, stock_id: int) -> Written:
        """Put an emptied bottle away; what was taken from it stays on record."""
        with self._ledger.reading() as session:
            name = name_of(session, StockRow, stock_id, "stock", tr(_GONE))
            title = tr("Stock bottle {name} emptied").format(name=name)
        with self._ledger.writing(title) as writing:
            writing.update(StockRow, stock_id, {"gone_on": self._ledger.today()})
        return written(writing, title)

    def _bench(self, session: Session) -> StockBench:
        today, house = self._ledger.today(), read_house(session)
        found = waters(session)
        used = next((view for view in found if view.draft.in_use), None)
        return StockBench(
            today=today,
            bottles=stock_rows.bottles(session, today),
            tins=shelf.tins(session),
            waters=found,
            tools=shelf.tools(session),
            room=room_of(house),
            keep_months=house.stock_keep_months,
            coolest=stock_rows.coolest_read(session, today),
            water_id=None if used is None else used.water_id,
            recipes=read_recipes(session).recipes,
        )

    def _checked(
        self, wanted: StockWanted, stock_id: int | None
    ) -> tuple[dict[str, Any], Stock]:
        """Give the row and the bottle; a bottle already made may be what it is."""
        bench = self.bench()
        made = stock_answers.answer(wanted, bench)
        before = next((b for b in bench.bottles if b.stock_id == stock_id), None)
        is_same = before is not None and _alike(before.stock, made.stock)
        if made.refused and not is_same:
            raise InputError(
                "parts",
                made.stock.name,
                tr("would not stay clear"),
                " ".join((*made.refused, *made.way_out)),
            )
        name = checking.needed_text(
            "name", made.stock.name, tr("Name it."), checking.NAME
        )
        if any(b.name == name and b.stock_id != stock_id for b in bench.bottles):
            raise InputError(
                "name",
                name,
                tr("is the name of another bottle"),
                tr("Give it another name, or empty the other."),
            )
        made_on = checking.day_done("made_on", wanted.made_on, bench.today)
        if wanted.water_id not in {None, *(view.water_id for view in bench.waters)}:
            hint = tr("Choose another, or none.")
            raise InputError(
                "water_id", wanted.water_id, tr("is not there any more"), hint
            )
        return {
            "name": name,
            "made_on": made_on or bench.today,
            "keep_by": _later(made.keep_by, made_on or bench.today),
            "volume_l": made.stock.volume_l,
            "water_id": wanted.water_id,
            "note": checking.text("note", wanted.note),
        }, made.stock


def _later(until: date, made_on: date) -> date:
    if until < made_on:
        raise InputError(
            "keep_by",
            until.isoformat(),
            tr("is before it was made"),
            tr("Give a later day, or none."),
        )
    return until


def _alike(one: Stock, other: Stock) -> bool:
    """Tell whether two bottles hold the same, weighed alike."""
    if abs(one.volume_l - other.volume_l) > _DUST:
        return False
    grams = [{p.key: g for p, g in stock.weighed} for stock in (one, other)]
    return grams[0].keys() == grams[1].keys() and all(
        abs(g - grams[1][key]) <= _DUST for key, g in grams[0].items()
    )


def _weigh_in(writing: Writing, stock_id: int, stock: Stock) -> None:
    """Write what was weighed in, in place of what stood there."""
    there = select(StockPartRow.id).where(StockPartRow.stock_id == stock_id)
    writing.delete_many(StockPartRow, list(writing.session.scalars(there)))
    writing.insert_many(
        StockPartRow,
        [
            {"stock_id": stock_id, "tin_id": product.key, "mass_g": grams}
            for product, grams in stock.weighed
        ],
    )
