"""The week as the window shows it, from the same walk as the sheet.

It only puts together what the walk, the record and the domain's words give; nothing is
judged here but by asking what a day hangs on.
"""

from __future__ import annotations

from collections import Counter
from datetime import timedelta
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import week_wording
from growdesk.domain.facts import Verdict
from growdesk.domain.judging import judge
from growdesk.domain.week import planned_care
from growdesk.domain.week_because import Earlier, because
from growdesk.domain.week_wording import PlantDay
from growdesk.services import day_rows, sheet_words
from growdesk.services.planning import pour_l
from growdesk.services.values import DoneKind
from growdesk.services.week_values import WeekCell, WeekDay, WeekLine, WeekView

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import Care, House
    from growdesk.domain.week import Round
    from growdesk.services.known import Known
    from growdesk.services.values import Done, Jug, MixPlan
    from growdesk.services.week_walk import WalkedWeek
    from growdesk.store.session import Session


class _Column(Struct, frozen=True):
    """A day of the week with its jugs; ``index`` is its place in the walk."""

    index: int
    round: Round
    mix: MixPlan | None
    jugs: Mapping[str, Jug]


def week_view(walked: WalkedWeek) -> WeekView:
    """Give the week with a cell for every plant on every watering day."""
    columns = tuple(_columns(walked))
    lines = tuple(_line(walked, columns, number) for number in range(len(walked.known)))
    days = tuple(
        _day(walked, column, [line.cells[place] for line in lines])
        for place, column in enumerate(columns)
    )
    return WeekView(walked.days.begins, walked.today, days, lines)


def missed_before(
    session: Session, known: Sequence[Known], house: House, today: date
) -> date | None:
    """Give the last watering day before today if nothing of its round is on record.

    A round with nothing to pour, or from before any care was on record, is not missed.
    """
    days = (today - timedelta(days=back) for back in range(1, 8))
    last = next((d for d in days if d.weekday() in house.watering_weekdays), None)
    if last is None or not _was_kept(known, last):
        return None
    if day_rows.is_any_done_on(session, last):
        return None
    due = any(
        planned_care(
            judge(each.plant, each.kind, house, last, kind_known=each.kind_known), None
        )
        for each in known
    )
    return last if due else None


def _columns(walked: WalkedWeek) -> Iterable[_Column]:
    mixes = dict(zip((each.on for each in walked.left), walked.mixes(), strict=True))
    for index, each in enumerate(walked.rounds):
        if each.on in walked.days.past or each.on in mixes:
            mix = mixes.get(each.on)
            jugs = {} if mix is None else {t: jug for jug in mix.jugs for t in jug.tags}
            yield _Column(index, each, mix, jugs)


def _line(walked: WalkedWeek, columns: Sequence[_Column], number: int) -> WeekLine:
    known = walked.known[number]
    cells, told = [], []
    for column in columns:
        done = walked.done[column.round.on].get(known.plant_id)
        cell = _cell(walked, column, number, done)
        cells.append(cell)
        told.append(_plant_day(cell))
    return WeekLine(
        plant_id=known.plant_id,
        tag=known.plant.tag,
        name=known.plant.name,
        place=known.plant.place.name,
        cells=tuple(cells),
        told=week_wording.sentences(told, walked.today),
        bench_name=known.bench_name,
    )


def _cell(
    walked: WalkedWeek, column: _Column, number: int, done: Done | None
) -> WeekCell:
    known, each = walked.known[number], column.round
    plant, judged = each.plants[number], each.judged[number]
    jug = column.jugs.get(plant.tag)
    cell = WeekCell(
        on=each.on,
        verdict=judged.verdict,
        water=judged.water,
        strength_ppm_n=_poured_ppm_n(judged, jug, each.served_ppm_n[number]),
        letter=None if jug is None else jug.letter,
        volume_l=pour_l(plant, judged, walked.house),
        reason=sheet_words.reason(judged),
        done=done,
        missed=_is_missed(walked, each, number),
        because=because(
            plant,
            known.kind,
            walked.house,
            judged,
            [
                _earlier(walked, before, number)
                for before in walked.rounds[: column.index]
            ],
        ),
        sentence="",
    )
    said = week_wording.sentence(_plant_day(cell), walked.today)
    return replace(cell, sentence=said)


def _poured_ppm_n(
    judged: Judgement, jug: Jug | None, served_ppm_n: float | None
) -> float | None:
    if jug is not None:
        return float(jug.strength_ppm_n)
    return judged.strength_ppm_n if served_ppm_n is None else served_ppm_n


def _earlier(walked: WalkedWeek, each: Round, number: int) -> Earlier:
    """Give what an earlier day's plan has and its record has not, for one plant."""
    if _is_missed(walked, each, number):
        return Earlier(each.on, _planned(each, number))
    done = walked.done[each.on].get(walked.known[number].plant_id)
    planned = None if done is None else _planned(each, number)
    if done is None or planned is None or planned.what is done.what:
        return Earlier(each.on)
    return Earlier(each.on, planned, done.kind is DoneKind.PASSED_BY)


def _planned(each: Round, number: int) -> Care | None:
    return planned_care(each.judged[number], each.served_ppm_n[number])


def _is_missed(walked: WalkedWeek, each: Round, number: int) -> bool:
    if each.on >= walked.today or not _was_kept(walked.known, each.on):
        return False
    if walked.known[number].plant_id in walked.done[each.on]:
        return False
    return planned_care(each.judged[number], None) is not None


def _was_kept(known: Iterable[Known], on: date) -> bool:
    """Tell whether a record of care was kept by a day: before it nothing is missed."""
    return any(care.on <= on for each in known for care in each.plant.care)


def _plant_day(cell: WeekCell) -> PlantDay:
    done = cell.done
    cared = done is not None and done.kind is DoneKind.CARED
    return PlantDay(
        on=cell.on,
        verdict=cell.verdict,
        water=cell.water,
        strength_ppm_n=done.strength_ppm_n if done and cared else cell.strength_ppm_n,
        because=cell.because,
        given=done.what if done and cared else None,
        passed_by=done is not None and not cared,
        missed=cell.missed,
    )


def _day(walked: WalkedWeek, column: _Column, cells: Sequence[WeekCell]) -> WeekDay:
    on = column.round.on
    counts = Counter(cell.verdict for cell in cells)
    missed = sum(cell.missed for cell in cells)
    return WeekDay(
        on=on,
        is_today=on == walked.today,
        is_past=on < walked.today,
        is_missed=bool(missed) and not walked.done[on],
        counts=tuple((each, counts[each]) for each in Verdict if counts[each]),
        done=sum(cell.done is not None for cell in cells),
        missed=missed,
        mix=column.mix,
    )
