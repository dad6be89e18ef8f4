"""Writing what was done on a watering day, one plant or many, as one action.

A plant has one outcome a day: fed, watered, flushed, rained on, or passed by. A later
word on the same day takes the place of an earlier one; undo brings that back.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from growdesk.domain import pouring
from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.facts_fields import read_number
from growdesk.domain.facts_look import GIVEN_PPM_N
from growdesk.domain.facts_plant import POT_L
from growdesk.domain.recipe_uses import recipe_for
from growdesk.services import checking, day_rows, drawing_down
from growdesk.services.judged_day import judged_day
from growdesk.services.known import load_known
from growdesk.services.ledger import written
from growdesk.services.planning import pour_l
from growdesk.services.plants import tags_of
from growdesk.services.settings import read_house
from growdesk.services.shelf import house_with_water, read_shelf
from growdesk.services.values import DoneKind
from growdesk.store.schema import CareRow, DrawnRow, PassByRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import House, Medium, Plant
    from growdesk.services.judged_day import JudgedDay
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Done, MixPlan, Written
    from growdesk.store.journal import Writing

Row = dict[str, Any]

_GIVES = {
    Verdict.FEED: CareKind.FEED,
    Verdict.CLEAR_WATER: CareKind.CLEAR_WATER,
    Verdict.FLUSH: CareKind.FLUSH,
}
_VERDICTS = {what: verdict for verdict, what in _GIVES.items()}
_TITLES = {
    CareKind.FEED: "Feed given to {}",
    CareKind.CLEAR_WATER: "Clear water given to {}",
    CareKind.FLUSH: "Flush given to {}",
    CareKind.REPOT: "Repot of {}",
    CareKind.DIVIDE: "Division of {}",
    CareKind.MOVE: "Move of {}",
    CareKind.TREAT: "Treatment of {}",
    CareKind.RAIN: "Rain on {}",
}
_REFUSALS = {
    Verdict.KEEP_DRY: "{} to be kept dry; nothing was written there.",
    Verdict.LOOK_FIRST: "{} to be looked at first; nothing was written there.",
}
_WAY_OUT = "Record a look, or write what was really given."


@dataclass(frozen=True, slots=True)
class Given:
    """What was really given or done on a day. Strength in mg N per litre."""

    on: date
    what: CareKind
    strength_ppm_n: float | None
    note: str


@dataclass(frozen=True, slots=True)
class Repot:
    """A repot on a day; what is ``None`` stays as it was. Volume in litres."""

    on: date
    pot_volume_l: float | None = None
    medium: Medium | None = None
    note: str = ""


def tick(ledger: Ledger, plant_ids: Sequence[int], on: date) -> Written:
    """Write as given what the day's plan says; leave out and name what it refuses."""
    tags = _wanted(ledger, plant_ids, on)
    with ledger.reading() as session:
        day = judged_day(session, on)
        done = day_rows.done_on(session, on)
    mix = day.mix()
    rows, problems = _planned(day, tags, mix)
    if problems and not rows:
        refused = ", ".join(tags.values())
        raise InputError("plants", refused, "cannot be ticked", " ".join(problems))
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


def pass_by(ledger: Ledger, plant_ids: Sequence[int], on: date) -> Written:
    """Write that plants were passed by, in place of anything written for the day.

    A plant that is to be kept dry was not passed by for being damp: it is left out and
    named. One to be looked at first may be passed by, and still wants its look.
    """
    tags = _wanted(ledger, plant_ids, on)
    with ledger.reading() as session:
        day = judged_day(session, on)
        done = day_rows.done_on(session, on)
    dry = [
        known.plant.tag
        for known, judgement in day.judged
        if known.plant_id in tags and judgement.verdict is Verdict.KEEP_DRY
    ]
    problems = (_refusal(Verdict.KEEP_DRY, dry),) if dry else ()
    passed = {plant_id: tag for plant_id, tag in tags.items() if tag not in dry}
    if not passed:
        refused = ", ".join(dry)
        raise InputError("plants", refused, "cannot be passed by", " ".join(problems))
    new = [
        plant_id
        for plant_id in passed
        if plant_id not in done or _is_cared(done, plant_id)
    ]
    title = f"{_named(list(passed.values()))} passed by"
    with ledger.writing(title) as writing:
        day_rows.take_back(writing, new, on)
        ids = writing.insert_many(
            PassByRow, [{"plant_id": plant_id, "day": on} for plant_id in new]
        )
    return written(writing, title, ids, problems)


def give(ledger: Ledger, plant_ids: Sequence[int], given: Given) -> Written:
    """Write what was really given or done, whatever the plan says.

    It takes from the shelf what is in use; no spare is reckoned to it.
    """
    tags = _wanted(ledger, plant_ids, given.on)
    strength = _given_strength(given)
    note = checking.text("note", given.note)
    title = _TITLES[given.what].format(_named(list(tags.values())))
    with ledger.reading() as session:
        shelf = replace(read_shelf(session), on=given.on)
        house = house_with_water(read_house(session), shelf)
        plants = {k.plant_id: k.plant for k in load_known(session, given.on)}
    rows = [
        {
            "plant_id": plant_id,
            "day": given.on,
            "what": given.what,
            "strength_ppm_n": strength,
            "volume_l": _given_l(plants[plant_id], house, given.what),
            "note": note,
        }
        for plant_id in tags
    ]
    recipes = [
        recipe_for(plants[key], given.on, shelf.uses, shelf.recipe, house.latitude)
        for key in tags
    ]
    with ledger.writing(title) as writing:
        if given.what in day_rows.WATERING:
            day_rows.take_back(writing, tags, given.on)
        ids = writing.insert_many(CareRow, rows)
        uses = drawing_down.of_given(rows, recipes, house, shelf)
        writing.insert_many(DrawnRow, drawing_down.rows(ids, uses))
        if given.what is CareKind.REPOT:
            _date_repots(writing, plants, tags, given.on)
    return written(writing, title, ids)


def repot(ledger: Ledger, plant_ids: Sequence[int], done: Repot) -> Written:
    """Write that plants were repotted, and what is new about their pots."""
    tags = _wanted(ledger, plant_ids, done.on)
    note = checking.text("note", done.note)
    volume_l = checking.number("pot_volume_l", done.pot_volume_l, POT_L)
    new = {"pot_volume_l": volume_l, "medium": done.medium}
    new = {name: value for name, value in new.items() if value is not None}
    with ledger.reading() as session:
        plants = {k.plant_id: k.plant for k in load_known(session, done.on)}
    if new:
        _refuse_older(plants, tags, done.on)
    row = {"day": done.on, "what": CareKind.REPOT, "note": note}
    title = _TITLES[CareKind.REPOT].format(_named(list(tags.values())))
    with ledger.writing(title) as writing:
        ids = writing.insert_many(CareRow, [{"plant_id": key, **row} for key in tags])
        _date_repots(writing, plants, tags, done.on)
        for plant_id in tags if new else ():
            writing.update(PlantRow, plant_id, new)
    return written(writing, title, ids)


def untick(ledger: Ledger, plant_ids: Sequence[int], on: date) -> Written:
    """Take back what is written as given, or passed by, on a day."""
    tags = _wanted(ledger, plant_ids, on)
    title = f"Tick of {_named(list(tags.values()))} taken back"
    with ledger.writing(title) as writing:
        day_rows.take_back(writing, tags, on)
    return written(writing, title)


def _wanted(ledger: Ledger, plant_ids: Sequence[int], on: date) -> dict[int, str]:
    """Give the tags of the plants meant, once each; refuse a day still to come."""
    checking.day_done("on", on, ledger.today())
    if not plant_ids:
        raise InputError("plants", "none", "are chosen", "Choose one plant or more.")
    with ledger.reading() as session:
        return tags_of(session, plant_ids)


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
    named = f"{', '.join(tags)} {'is' if len(tags) == 1 else 'are'}"
    return f"{_REFUSALS[verdict].format(named)} {_WAY_OUT}"


def _is_cared(done: Mapping[int, Done], plant_id: int) -> bool:
    return plant_id in done and done[plant_id].kind is DoneKind.CARED


def _given_strength(given: Given) -> float | None:
    """Give the strength that was given; only a feed has one."""
    if given.strength_ppm_n is None:
        return None
    if given.what is not CareKind.FEED:
        hint = "Leave it empty, or write it as feed."
        raise InputError(
            "strength_ppm_n", given.strength_ppm_n, "belongs to a feed only", hint
        )
    return read_number("strength_ppm_n", given.strength_ppm_n, GIVEN_PPM_N)


def _given_l(plant: Plant, house: House, what: CareKind) -> float | None:
    """Give the litres that are taken as given: a whole round, or a whole flush."""
    verdict = _VERDICTS.get(what)
    if verdict is None:
        return None
    return pouring.pour_l(plant, house, verdict, Water.THROUGH)


def _refuse_older(
    plants: Mapping[int, Plant], tags: Mapping[int, str], on: date
) -> None:
    """Refuse a new pot from before the one that the plant stands in by now."""
    for plant_id, tag in tags.items():
        last = plants[plant_id].repotted_on
        if last is not None and last > on:
            raise InputError(
                "on",
                on.isoformat(),
                f"is before the last repot of {tag}, on {last.isoformat()}",
                "Leave pot volume and medium as before, or give a later day.",
            )


def _date_repots(
    writing: Writing, plants: Mapping[int, Plant], tags: Mapping[int, str], on: date
) -> None:
    """Bring the plants' own day of repotting up to date."""
    for plant_id in tags:
        before = plants[plant_id].repotted_on
        if before is None or before < on:
            writing.update(PlantRow, plant_id, {"repotted_on": on})


def _named(tags: Sequence[str]) -> str:
    return tags[0] if len(tags) == 1 else f"{len(tags)} plants"


def _title(whats: Collection[CareKind], tags: Sequence[str]) -> str:
    """Give a title that names what was given where it is the same for all."""
    if not tags:
        return "Nothing to tick"
    if len(whats) == 1:
        return _TITLES[next(iter(whats))].format(_named(tags))
    return f"Watering of {_named(tags)} done"
