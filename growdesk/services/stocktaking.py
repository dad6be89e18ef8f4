"""Stocktaking: what is on hand of every good, and the entries that it goes by.

What a week takes and what is needed next come from the same rounds as the sheet's.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain import stocktaking_words as words
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range, read_number
from growdesk.domain.speech import Phrases, tr
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.domain.volume_words import volume_text_fine
from growdesk.services import checking, settings, shelf_rows, stock_record, used_course
from growdesk.services.ledger import written
from growdesk.services.named_rows import GONE
from growdesk.services.shelf import read_shelf
from growdesk.services.shortages import named, unit_of
from growdesk.services.stocktaking_values import EntryDraft, EntryView
from growdesk.services.week_walk import walked_week
from growdesk.store.mapping import word
from growdesk.store.schema import CareRow, DrawnRow, ShelfEntryRow

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence
    from datetime import date

    from growdesk.services.chart_values import UsedChart
    from growdesk.services.ledger import Ledger
    from growdesk.services.shelf import Shelf
    from growdesk.services.stocktaking_values import ShelfView
    from growdesk.services.values import MixPlan, Written
    from growdesk.services.week_walk import WalkedWeek
    from growdesk.store.session import Session

AMOUNT = Range(0, 10_000_000)
_CAME_IN = Range(0, 10_000_000, above=True)
PRICE = Range(0, 100_000_000)
_CURRENCY_SIGNS = 12
_A_DAY = timedelta(days=1)

_CHANGED = Phrases(
    {
        What.COUNTED: "Count of {good} changed",
        What.ADDED: "Delivery of {good} changed",
    }
)
_REMOVED = Phrases(
    {
        What.COUNTED: "Count of {good} removed",
        What.ADDED: "Delivery of {good} removed",
    }
)


class Stocktaking:
    """What is on hand in one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def view(self) -> ShelfView:
        """Give all that stands on the shelf today, with the next round's need."""
        today = self._ledger.today()
        with self._ledger.reading() as session:
            weekdays = settings.read_house(session).watering_weekdays
            on = _watering_day(today, weekdays)
            walked = walked_week(session, on, today)
            record = stock_record.read_whole_record(session)
            basics = shelf_rows.Basics(
                on=today,
                shelf=replace(walked.shelf, record=record),
                rounds=_rounds(walked, on),
                rounds_a_week=len(weekdays),
                currency=settings.read_word(session, settings.CURRENCY),
            )
            if not shelf_rows.is_something_left(basics):
                on = _watering_day(basics.rounds[-1][0] + _A_DAY, weekdays)
                after = walked_week(session, on, today)
                basics = replace(basics, rounds=_rounds(after, on))
        return shelf_rows.view(basics)

    def of_tins(self) -> dict[int, tuple[str, ...]]:
        """Give what is on hand of each tin, and what spoons of it weigh, in words."""
        today = self._ledger.today()
        with self._ledger.reading() as session:
            shelf = read_shelf(session)
        told = {}
        for view in shelf.tins:
            good = Good(Sort.TIN, view.tin_id)
            hand = shelf.record.on_hand(good, today)
            unit = unit_of(good, shelf)
            spoons = (
                words.spoon_text(tool.name, dict(tool.g_per_level)[view.tin_id])
                for tool in shelf.tools
                if view.tin_id in dict(tool.g_per_level)
            )
            told[view.tin_id] = (words.hand_text(hand, unit, today), *spoons)
        return told

    def is_round_done(self, good: Good) -> bool:
        """Tell whether today's ticks have taken of a good already."""
        drawn = select(DrawnRow.id).join(CareRow, CareRow.id == DrawnRow.care_id)
        of_today = drawn.where(
            stock_record.column_of(DrawnRow, good.sort) == good.key,
            CareRow.day == self._ledger.today(),
        )
        with self._ledger.reading() as session:
            return session.scalar(of_today.limit(1)) is not None

    def entries(self, good: Good) -> tuple[EntryView, ...]:
        """Give the entries of a good, the newest first."""
        with self._ledger.reading() as session:
            rows = session.execute(
                select(ShelfEntryRow.__table__)
                .where(stock_record.column_of(ShelfEntryRow, good.sort) == good.key)
                .order_by(ShelfEntryRow.day.desc(), ShelfEntryRow.id.desc())
            ).all()
        return tuple(_view(row) for row in rows)

    def write(self, draft: EntryDraft) -> Written:
        """Write down what was counted, or what came in."""
        kept, name, unit = self._checked(draft)
        form = (
            tr("{name}: {amount} counted")
            if kept.what is What.COUNTED
            else tr("{name}: {amount} came in")
        )
        title = form.format(name=name, amount=words.amount_text(kept.amount, unit))
        with self._ledger.writing(title) as writing:
            entry_id = writing.insert(ShelfEntryRow, _values(kept))
        return written(writing, title, (entry_id,))

    def change(self, entry_id: int, draft: EntryDraft) -> Written:
        """Put an entry right."""
        kept, name, _unit = self._checked(draft)
        title = _CHANGED[kept.what].format(good=name)
        with self._ledger.writing(title) as writing:
            _need(writing.session, (entry_id,))
            writing.update(ShelfEntryRow, entry_id, _values(kept))
        return written(writing, title, (entry_id,))

    def remove(self, entry_ids: Sequence[int]) -> Written:
        """Take entries out."""
        if not entry_ids:
            raise InputError(
                "entries", tr("none"), tr("are chosen"), tr("Choose one or more.")
            )
        title = self._removed_title(entry_ids)
        with self._ledger.writing(title) as writing:
            _need(writing.session, entry_ids)
            writing.delete_many(ShelfEntryRow, list(entry_ids))
        return written(writing, title)

    def currency(self) -> str:
        """Give the word that prices are told in; empty where none was set."""
        with self._ledger.reading() as session:
            return settings.read_word(session, settings.CURRENCY)

    def set_currency(self, typed: str) -> Written:
        """Keep the word that prices are told in."""
        kept = checking.text(settings.CURRENCY, typed, _CURRENCY_SIGNS)
        return settings.Settings(self._ledger).set_word(settings.CURRENCY, kept)

    def used(self, on: date) -> UsedChart:
        """Give what feed was used by month, over the year up to a day."""
        with self._ledger.reading() as session:
            return used_course.used(session, on)

    def _removed_title(self, entry_ids: Sequence[int]) -> str:
        """Name what is removed: the good of one entry, else how many there are."""
        if len(entry_ids) > 1:
            many = tr("{count} entries of the shelf removed")
            return many.format(count=len(entry_ids))
        with self._ledger.reading() as session:
            _need(session, entry_ids)
            of = ShelfEntryRow.id == entry_ids[0]
            row = session.execute(select(ShelfEntryRow.__table__).where(of)).one()
            draft, shelf = _view(row).draft, read_shelf(session)
        return _REMOVED[draft.what].format(good=named(draft.good, shelf))

    def _checked(self, draft: EntryDraft) -> tuple[EntryDraft, str, str]:
        """Give an entry as it is kept, with the name and the unit of its good."""
        with self._ledger.reading() as session:
            shelf = read_shelf(session)
        name, unit = named(draft.good, shelf), unit_of(draft.good, shelf)
        if not name:
            raise InputError(
                "good", draft.good.key, tr("is not there any more"), tr(GONE)
            )
        if _is_blend(draft.good, shelf):
            hint = tr("Count the two waters that it is poured from.")
            raise InputError("good", name, tr("is blended as it is poured"), hint)
        checking.day_done("on", draft.on, self._ledger.today())
        allowed = AMOUNT if draft.what is What.COUNTED else _CAME_IN
        amount = read_number("amount", draft.amount, allowed)
        _fits(draft.good, amount, shelf)
        if draft.price is not None and draft.what is What.COUNTED:
            hint = tr("Leave it empty, or write it as what came in.")
            raise InputError(
                "price", draft.price, tr("belongs to what came in only"), hint
            )
        kept = replace(
            draft,
            amount=amount,
            price=checking.number("price", draft.price, PRICE),
            note=checking.text("note", draft.note),
        )
        return kept, name, unit


def _watering_day(since: date, weekdays: Collection[int]) -> date:
    """Give the first watering day from a day on."""
    days = (since + timedelta(days=ahead) for ahead in range(7))
    return next(day for day in days if day.weekday() in weekdays)


def _rounds(walked: WalkedWeek, first: date) -> tuple[tuple[date, MixPlan], ...]:
    """Give the rounds of a week from its first one meant on, with what they mix."""
    rounds = zip((each.on for each in walked.left), walked.mixes(), strict=True)
    return tuple((on, mix) for on, mix in rounds if on >= first)


def _is_blend(good: Good, shelf: Shelf) -> bool:
    """Tell whether a water is blended of two others, and stands in no barrel."""
    blends = {view.water_id for view in shelf.waters if view.draft.first_id is not None}
    return good.sort is Sort.WATER and good.key in blends


def _fits(good: Good, amount: float, shelf: Shelf) -> None:
    """Refuse more water than its barrel holds."""
    if good.sort is not Sort.WATER:
        return
    view = shelf.water_view(good.key)
    capacity_l = None if view is None else view.draft.capacity_l
    if capacity_l is not None and amount > capacity_l:
        raise InputError(
            "amount",
            volume_text_fine(amount),
            tr("is more than the {capacity} that it holds").format(
                capacity=volume_text_fine(capacity_l)
            ),
            tr("Count again, or change under Waters what it holds."),
        )


def _need(session: Session, entry_ids: Sequence[int]) -> None:
    there = session.scalars(
        select(ShelfEntryRow.id).where(ShelfEntryRow.id.in_(entry_ids))
    ).all()
    for entry_id in entry_ids:
        if entry_id not in there:
            raise InputError("entry", entry_id, tr("is not there any more"), tr(GONE))


def _values(draft: EntryDraft) -> dict[str, object]:
    good = draft.good
    return {
        "tin_id": good.key if good.sort is Sort.TIN else None,
        "stock_id": good.key if good.sort is Sort.STOCK else None,
        "water_id": good.key if good.sort is Sort.WATER else None,
        "day": draft.on,
        "what": draft.what.value,
        "amount": draft.amount,
        "after_round": draft.after_round,
        "price": draft.price,
        "note": draft.note,
    }


def _view(row: Any) -> EntryView:
    return EntryView(
        row.id,
        EntryDraft(
            good=stock_record.good_of(row),
            on=row.day,
            what=word(What, row.what),
            amount=row.amount,
            after_round=row.after_round,
            price=row.price,
            note=row.note,
        ),
    )
