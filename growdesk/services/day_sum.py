"""Sum a watering day up: what was given, what is left, what it used, what comes next.

What it used is what its ticks took from the shelf; the next day is the one that the
list would show, with what is left of this one not done.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.stocktaking import Sort
from growdesk.services.shelf import read_shelf
from growdesk.services.shortages import named, unit_of
from growdesk.services.stock_record import read_whole_record
from growdesk.services.values import DoneKind
from growdesk.services.watering_day import WateringDay

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.domain.stocktaking import Good
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import DayView, Line
    from growdesk.store.session import Session

_POURED = (Verdict.FEED, Verdict.CLEAR_WATER, Verdict.FLUSH)
_SORTS = (Sort.TIN, Sort.STOCK, Sort.WATER)


class Given(Struct, frozen=True):
    """Plants that were given the same; ``volume_l`` is of those that have one.

    ``what`` is None of plants that were passed by, still damp.
    """

    what: CareKind | None
    tags: tuple[str, ...]
    volume_l: float


class Used(Struct, frozen=True):
    """What the day took of a good, in its unit; ``left`` where it was ever counted.

    ``name`` is empty of what was put away since.
    """

    sort: Sort
    name: str
    unit: str
    amount: float
    left: float | None


class NextDay(Struct, frozen=True):
    """What the next watering day asks for: plants by verdict, jugs, waters, shortages.

    Volumes in litres; ``mixed_l`` has the spare in it.
    """

    on: date
    verdicts: tuple[tuple[Verdict, int], ...]
    jugs: int
    mixed_l: float
    clear_l: float
    short: tuple[str, ...]


class DaySum(Struct, frozen=True):
    """A watering day in sum; tags are in the order of the list.

    ``open`` are to be poured and are not ticked, ``looks`` want a look first, ``dry``
    are kept dry. ``is_to_come`` tells that nothing of the day can be done yet.
    """

    on: date
    today: date
    plants: int
    given: tuple[Given, ...]
    open: tuple[str, ...]
    looks: tuple[str, ...]
    dry: tuple[str, ...]
    used: tuple[Used, ...]
    following: NextDay

    @property
    def is_to_come(self) -> bool:
        """Tell whether the day is still ahead."""
        return self.on > self.today


def day_sum(ledger: Ledger, on: date) -> DaySum:
    """Sum a day of a collection up."""
    days = WateringDay(ledger)
    view = days.view(on)
    following = _next(days.view(view.next_day))
    with ledger.reading() as session:
        used = _used(session, on)
    waiting = [line for line in view.lines if line.done is None]
    return DaySum(
        on=on,
        today=ledger.today(),
        plants=len(view.lines),
        given=_given(line for line in view.lines if line.done is not None),
        open=tuple(line.tag for line in waiting if line.verdict in _POURED),
        looks=_tags(view.lines, Verdict.LOOK_FIRST),
        dry=_tags(waiting, Verdict.KEEP_DRY),
        used=used,
        following=following,
    )


def _tags(lines: Iterable[Line], verdict: Verdict) -> tuple[str, ...]:
    return tuple(line.tag for line in lines if line.verdict is verdict)


def _given(lines: Iterable[Line]) -> tuple[Given, ...]:
    found: dict[CareKind | None, list[Line]] = {kind: [] for kind in (*CareKind, None)}
    for line in lines:
        done = line.done
        if done is not None:
            passed = done.kind is DoneKind.PASSED_BY
            found[None if passed else done.what].append(line)
    return tuple(
        Given(
            what,
            tuple(line.tag for line in each),
            sum(line.done.volume_l or 0.0 for line in each if line.done is not None),
        )
        for what, each in found.items()
        if each
    )


def _used(session: Session, on: date) -> tuple[Used, ...]:
    """Give what the day's care took, tins first and waters last."""
    shelf, record = read_shelf(session), read_whole_record(session)
    taken = {good: record.taken_on(good, on) for good in record.taken}
    goods = sorted(
        (good for good, amount in taken.items() if amount > 0),
        key=lambda good: (_SORTS.index(good.sort), good.key),
    )

    def used(good: Good) -> Used:
        hand = record.on_hand(good, on)
        left = None if hand is None else hand.there
        return Used(
            good.sort, named(good, shelf), unit_of(good, shelf), taken[good], left
        )

    return tuple(used(good) for good in goods)


def _next(view: DayView) -> NextDay:
    counts = dict.fromkeys(Verdict, 0)
    for line in view.lines:
        counts[line.verdict] += 1
    mix = view.mix
    return NextDay(
        on=view.on,
        verdicts=tuple((verdict, n) for verdict, n in counts.items() if n),
        jugs=len(mix.jugs),
        mixed_l=sum(jug.volume_l + jug.spare_l for jug in mix.jugs),
        clear_l=mix.clear_l + mix.flush_l,
        short=mix.short,
    )
