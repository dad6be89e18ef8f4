"""The day as it was last judged, brought up to date by what was written since.

Of a plant's own rows only that plant is read and judged again. Whatever else was
written (the house, the shelf, a place, a kind), an undo, another day or another
language: everything is read and judged anew, many plants by steps (``begun_day``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.rules.potting import WATER_TOO_SALTY
from growdesk.domain.speech import manner
from growdesk.services import begun_day, day_lines, day_rows, first_steps
from growdesk.services.judged_day import JudgedDay, judged_of
from growdesk.services.known import SPARE, as_of, load_known, load_some
from growdesk.services.settings import is_kept
from growdesk.services.shelf import read_shelf
from growdesk.services.shown_day import shown_day
from growdesk.services.touched import Touched, touched_since
from growdesk.store.states import state
from growdesk.store.transactions import AMID

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.speech import Manner
    from growdesk.services.begun_day import PartDay
    from growdesk.services.known import Known
    from growdesk.services.values import Done, Line, MixPlan, SetupStep
    from growdesk.store.session import Session
    from growdesk.store.states import State

    Judged = tuple[Known, Judgement]

MOST_PLANTS = 200
"""Of more plants touched, all are read anew."""

BESIDE = frozenset({"photo", "bloom", "mark", "job_done", "saved_view"})
"""Tables that no day goes by."""

OF_A_PLANT = BESIDE | {"look", "care", "pass_by", "plant", "drawn"}
"""Tables whose rows bear on their own plant alone, and on the shelf."""

_ON_THE_SHELF = frozenset({"plant", "care", "drawn"})


class KeptDay(Struct, frozen=True):
    """A day judged, with its lines, and the state of the collection it stands on."""

    state: State
    today: date
    manner: Manner
    day: JudgedDay
    done: Mapping[int, Done]
    mix: MixPlan
    lines: tuple[Line, ...]
    setup: tuple[SetupStep, ...]
    rows: Mapping[int, int]
    """Where each plant stands among those judged, and among the lines."""


class KeptDays:
    """Keeps the day last asked for, of one collection, and one that is on its way.

    Another lane may put its own day there at any moment: each is given what it made.
    """

    def __init__(self) -> None:
        self._kept: KeptDay | None = None
        self._part: PartDay | None = None

    def of(self, session: Session, on: date, today: date) -> KeptDay:
        """Give a day as the session reads the collection."""
        now = state(session)
        if session.info.get(AMID):
            return _whole(session, now, on, today)
        kept = self._at_hand(session, now, on, today)
        if kept is None:
            part = self._begun(session, now, on, today)
            if part is None:
                kept = _whole(session, now, on, today)
            else:
                kept = _of_part(session, begun_day.gone_on(session, part))
        self._kept, self._part = kept, None
        return kept

    def by_steps(
        self, session: Session, on: date, today: date, first: Iterable[int] = ()
    ) -> KeptDay | PartDay:
        """Give a day whole, or one step nearer to it where its plants are many.

        Plants of ``first`` are judged before the others.
        """
        if session.info.get(AMID) or on > today:
            return self.of(session, on, today)
        now = state(session)
        kept = self._at_hand(session, now, on, today)
        if kept is None:
            part = self._begun(session, now, on, today)
            if part is None:
                if not begun_day.is_of_many(session):
                    return self.of(session, on, today)
                part = begun_day.begun(session, now, on, today)
            most = begun_day.STEP if part.judged else begun_day.FIRST
            part = begun_day.gone_on(session, part, first, most)
            if not part.is_whole:
                self._part = part
                return part
            kept = _of_part(session, part)
        self._kept, self._part = kept, None
        return kept

    def begun(
        self, session: Session, on: date, today: date, plant_id: int
    ) -> PartDay | None:
        """Give the day on its way with one plant judged; None where there is none."""
        if self._part is None or session.info.get(AMID):
            return None
        part = self._begun(session, state(session), on, today)
        if part is None:
            return None
        self._part = part = begun_day.gone_on(session, part, (plant_id,), 1)
        return part if plant_id in part.judged else None

    def known(self, session: Session, on: date, today: date) -> tuple[Known, ...]:
        """Give all plants as known on a day; where today's are at hand, out of them."""
        is_near = on <= today <= on + SPARE and not session.info.get(AMID)
        now = state(session)
        kept = self._at_hand(session, now, today, today) if is_near else None
        if kept is None:
            return load_known(session, on)
        known = tuple([each for each, _ in kept.day.judged])
        return known if on == today else as_of(session, known, on)

    def _at_hand(
        self, session: Session, now: State, on: date, today: date
    ) -> KeptDay | None:
        """Give the day kept, brought up to date, where little was written since."""
        kept = self._kept
        if kept is None or (kept.day.on, kept.today, kept.manner) != (
            on,
            today,
            manner(),
        ):
            return None
        touched = touched_since(session, kept.state, now)
        if touched is None or not _is_small(touched, kept):
            return None
        return _anew(session, replace(kept, state=now), touched)

    def _begun(
        self, session: Session, now: State, on: date, today: date
    ) -> PartDay | None:
        """Give the day on its way, without what was judged of plants touched since."""
        part = self._part
        if part is None or (part.on, part.today, part.manner) != (on, today, manner()):
            return None
        touched = touched_since(session, part.state, now)
        if touched is None or not touched.tables <= OF_A_PLANT:
            return None
        if touched.tables <= BESIDE:
            return replace(part, state=now)
        fresh = begun_day.begun(session, now, on, today)
        return begun_day.without(part, fresh, touched.plants)


def _is_small(touched: Touched, kept: KeptDay) -> bool:
    if touched.tables <= BESIDE:
        return True
    is_to_come = kept.day.on > kept.today  # then one plant's round moves the next days
    return (
        not is_to_come
        and touched.tables <= OF_A_PLANT
        and len(touched.plants) <= MOST_PLANTS
    )


def _whole(session: Session, now: State, on: date, today: date) -> KeptDay:
    day = shown_day(session, on, today)
    done = day_rows.done_on(session, on)
    mix = day.mix()
    lines = day_lines.lines(day, mix, done)
    setup = _setup(session, day)
    rows = _rows(day.judged)
    return KeptDay(now, today, manner(), day, done, mix, lines, setup, rows)


def _of_part(session: Session, part: PartDay) -> KeptDay:
    """Give the day of which every plant is judged by now."""
    judged, said = part.in_order()
    day = JudgedDay(part.on, part.house, read_shelf(session), judged)
    mix = day.mix()
    lines = tuple(day_lines.Poured(mix).all_over(said))
    setup = _setup(session, day)
    of = part.state, part.today, part.manner
    return KeptDay(*of, day, part.done, mix, lines, setup, _rows(judged))


def _rows(judged: tuple[Judged, ...]) -> dict[int, int]:
    return {known.plant_id: row for row, (known, _) in enumerate(judged)}


def _anew(session: Session, kept: KeptDay, touched: Touched) -> KeptDay:
    """Give the day once more, only some plants read and judged again."""
    if touched.tables <= BESIDE:
        return kept
    on, plants = kept.day.on, touched.plants
    shelf = kept.day.shelf
    if touched.tables & _ON_THE_SHELF:
        shelf = read_shelf(session)
    some = {
        known.plant_id: (known, judgement)
        for known, judgement in judged_of(
            load_some(session, on, plants), kept.day.house, on
        )
    }
    done = dict(kept.done)
    for each in plants:
        done.pop(each, None)
    done |= day_rows.done_on(session, on, plants)
    if shelf == kept.day.shelf and _asks_the_same(kept, some, plants):
        return _in_place(kept, some, done)
    judged = _merged(kept.day.judged, some, plants)
    if bool(judged) != bool(kept.day.judged):
        return _whole(session, kept.state, on, kept.today)
    day = replace(kept.day, shelf=shelf, judged=judged)
    mix = day.mix()
    lines = _poured_anew(kept, day, mix, some, done)
    return replace(
        kept, day=day, done=done, mix=mix, lines=lines, rows=_rows(day.judged)
    )


def _in_place(
    kept: KeptDay, some: Mapping[int, Judged], done: Mapping[int, Done]
) -> KeptDay:
    """Give the day with some plants judged again, who are served as before."""
    judged, lines = list(kept.day.judged), list(kept.lines)
    for plant_id, of in some.items():
        row = kept.rows[plant_id]
        was, judged[row] = lines[row], of
        lines[row] = replace(
            day_lines.line(kept.day, *of, done),
            letter=was.letter,
            jug_ppm_n=was.jug_ppm_n,
            outside_band=was.outside_band,
        )
    day = replace(kept.day, judged=tuple(judged))
    return replace(kept, day=day, done=done, lines=tuple(lines))


def _poured_anew(
    kept: KeptDay,
    day: JudgedDay,
    mix: MixPlan,
    some: Mapping[int, Judged],
    done: Mapping[int, Done],
) -> tuple[Line, ...]:
    """Give the lines by their jugs; one that says the same stays the same."""
    poured = day_lines.Poured(mix)
    return tuple(
        poured.over(
            day_lines.line(day, known, judgement, done)
            if known.plant_id in some
            else kept.lines[kept.rows[known.plant_id]]
        )
        for known, judgement in day.judged
    )


def _merged(
    judged: tuple[Judged, ...], some: Mapping[int, Judged], plants: frozenset[int]
) -> tuple[Judged, ...]:
    """Give all judged plants with some of them anew, in the order of the round."""
    stay = [each for each in judged if each[0].plant_id not in plants]
    return tuple(sorted([*stay, *some.values()], key=lambda each: each[0].walk))


def _asks_the_same(
    kept: KeptDay, some: Mapping[int, Judged], plants: frozenset[int]
) -> bool:
    """Tell whether the jugs serve the plants judged again as they did before."""
    return (plants & kept.rows.keys()) == some.keys() and all(
        _asked(*kept.day.judged[kept.rows[each]]) == _asked(*of)
        for each, of in some.items()
    )


def _asked(known: Known, judgement: Judgement) -> object:
    """Give all that a plan takes from a plant and its judgement."""
    strength = judgement.strength
    return (
        replace(known.plant, looks=(), care=()),
        known.kind,
        known.walk,
        judgement.verdict,
        judgement.water,
        strength and (strength.ppm_n, strength.ceiling_ppm_n),
        judgement.volume_l,
        judgement.flush_l,
        any(reason.key == WATER_TOO_SALTY for reason in judgement.reasons),
    )


def _setup(session: Session, day: JudgedDay) -> tuple[SetupStep, ...]:
    return first_steps.steps(
        {
            "latitude": is_kept(session, "latitude"),
            "water": bool(day.shelf.waters),
            "tin": bool(day.shelf.tins),
            "plant": bool(day.judged),
        }
    )
