"""Writing what was done on a watering day, one plant or many, as one action.

A plant has one outcome a day: fed, watered, flushed, rained on, or passed by. A later
word on the same day takes the place of an earlier one; undo brings that back.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.speech import mark, tr, trn
from growdesk.services import care_writing, day_rows, drawing_down
from growdesk.services.care_values import CareDraft
from growdesk.services.ledger import written
from growdesk.services.planning import pour_l
from growdesk.services.values import DoneKind
from growdesk.store.schema import CareRow, DrawnRow, PassByRow

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import Medium
    from growdesk.services.judged_day import JudgedDay
    from growdesk.services.kept_day import KeptDays
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Done, MixPlan, Written

Row = dict[str, Any]

_GIVES = {
    Verdict.FEED: CareKind.FEED,
    Verdict.CLEAR_WATER: CareKind.CLEAR_WATER,
    Verdict.FLUSH: CareKind.FLUSH,
}
_WAY_OUT = mark("Record a look, or write what was really given.")


class Given(Struct, frozen=True):
    """What was really given or done on a day. Strength in mg N per litre."""

    on: date
    what: CareKind
    strength_ppm_n: float | None
    note: str


class Repot(Struct, frozen=True):
    """A repot on a day; what is ``None`` stays as it was. Volume in litres."""

    on: date
    pot_volume_l: float | None = None
    medium: Medium | None = None
    note: str = ""


def tick(ledger: Ledger, plant_ids: Sequence[int], on: date, days: KeptDays) -> Written:
    """Write as given what the day's plan says; leave out and name what it refuses."""
    tags = care_writing.wanted(ledger, plant_ids, on)
    with ledger.reading() as session:
        kept = days.of(session, on, ledger.today())
    day, done, mix = kept.day, kept.done, kept.mix
    rows, problems = _planned(day, tags, mix)
    if problems and not rows:
        refused = ", ".join(tags.values())
        raise InputError("plants", refused, tr("cannot be ticked"), " ".join(problems))
    new = [row for row in rows if not _is_cared(done, row["plant_id"])]
    title = _title({row["what"] for row in new}, [tags[row["plant_id"]] for row in new])
    uses = [
        drawing_down.of_planned(row, tags[row["plant_id"]], mix, day.shelf)
        for row in new
    ]
    with ledger.writing(title) as writing:
        day_rows.take_back(writing, [row["plant_id"] for row in new], on)
        ids = writing.insert_many(CareRow, new)
        writing.insert_many(DrawnRow, drawing_down.rows(ids, uses))
    return written(writing, title, ids, problems)


def pass_by(
    ledger: Ledger, plant_ids: Sequence[int], on: date, days: KeptDays
) -> Written:
    """Write that plants were passed by, in place of anything written for the day.

    A plant that is to be kept dry was not passed by for being damp: it is left out and
    named. One to be looked at first may be passed by, and still wants its look.
    """
    tags = care_writing.wanted(ledger, plant_ids, on)
    with ledger.reading() as session:
        kept = days.of(session, on, ledger.today())
    day, done = kept.day, kept.done
    dry = [
        known.plant.tag
        for known, judgement in day.judged
        if known.plant_id in tags and judgement.verdict is Verdict.KEEP_DRY
    ]
    problems = (_refusal(Verdict.KEEP_DRY, dry),) if dry else ()
    passed = {plant_id: tag for plant_id, tag in tags.items() if tag not in dry}
    if not passed:
        refused = ", ".join(dry)
        raise InputError(
            "plants", refused, tr("cannot be passed by"), " ".join(problems)
        )
    new = [
        plant_id
        for plant_id in passed
        if plant_id not in done or _is_cared(done, plant_id)
    ]
    title = tr("{named} passed by").format(
        named=care_writing.named(list(passed.values()))
    )
    with ledger.writing(title) as writing:
        day_rows.take_back(writing, new, on)
        ids = writing.insert_many(
            PassByRow, [{"plant_id": plant_id, "day": on} for plant_id in new]
        )
    return written(writing, title, ids, problems)


def give(ledger: Ledger, plant_ids: Sequence[int], given: Given) -> Written:
    """Write what was really given or done, whatever the plan says."""
    draft = CareDraft(given.on, given.what, given.strength_ppm_n, note=given.note)
    return care_writing.add(ledger, plant_ids, draft)


def repot(ledger: Ledger, plant_ids: Sequence[int], done: Repot) -> Written:
    """Write that plants were repotted, and what is new about their pots."""
    draft = CareDraft(
        done.on,
        CareKind.REPOT,
        note=done.note,
        medium=done.medium,
        pot_volume_l=done.pot_volume_l,
    )
    return care_writing.add(ledger, plant_ids, draft)


def untick(ledger: Ledger, plant_ids: Sequence[int], on: date) -> Written:
    """Take back what is written as given, or passed by, on a day."""
    tags = care_writing.wanted(ledger, plant_ids, on)
    title = tr("Tick of {named} taken back").format(
        named=care_writing.named(list(tags.values()))
    )
    with ledger.writing(title) as writing:
        day_rows.take_back(writing, tags, on)
    return written(writing, title)


def _planned(
    day: JudgedDay, tags: Mapping[int, str], mix: MixPlan
) -> tuple[list[Row], tuple[str, ...]]:
    """Give the care that the plan says, and a line for each verdict it refuses."""
    strengths = {tag: jug.strength_ppm_n for jug in mix.jugs for tag in jug.tags}
    rows: list[Row] = []
    refused: dict[Verdict, list[str]] = {}
    for known, judgement in day.judged:
        if known.plant_id not in tags:
            continue
        what = _GIVES.get(judgement.verdict)
        if what is None:
            refused.setdefault(judgement.verdict, []).append(known.plant.tag)
            continue
        feeds = what is CareKind.FEED
        own = judgement.strength_ppm_n
        rows.append(
            {
                "plant_id": known.plant_id,
                "day": day.on,
                "what": what,
                "strength_ppm_n": strengths.get(known.plant.tag, own)
                if feeds
                else None,
                "volume_l": pour_l(known.plant, judgement, day.house),
            }
        )
    return rows, tuple(_refusal(verdict, refused[verdict]) for verdict in refused)


def _refusal(verdict: Verdict, tags: Sequence[str]) -> str:
    """Give one plain line that names the plants for which nothing was written."""
    form = (
        trn(
            "{tags} is to be kept dry; nothing was written there.",
            "{tags} are to be kept dry; nothing was written there.",
            len(tags),
        )
        if verdict is Verdict.KEEP_DRY
        else trn(
            "{tags} is to be looked at first; nothing was written there.",
            "{tags} are to be looked at first; nothing was written there.",
            len(tags),
        )
    )
    return f"{form.format(tags=', '.join(tags))} {tr(_WAY_OUT)}"


def _is_cared(done: Mapping[int, Done], plant_id: int) -> bool:
    return plant_id in done and done[plant_id].kind is DoneKind.CARED


def _title(whats: Collection[CareKind], tags: Sequence[str]) -> str:
    """Give a title that names what was given where it is the same for all."""
    if not tags:
        return tr("Nothing to tick")
    if len(whats) == 1:
        return care_writing.TITLES[next(iter(whats))].format(care_writing.named(tags))
    return tr("Watering of {named} done").format(named=care_writing.named(tags))
