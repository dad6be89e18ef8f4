"""Takes a table in: a dry run that names each bad row, then all of it in one action."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import asdict, replace
from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import Phrases
from growdesk.services.intake_fields import Sort
from growdesk.services.intake_plants import PlantTaking
from growdesk.services.intake_reading import Rows, check
from growdesk.services.intake_records import RecordTaking
from growdesk.services.intake_values import DryRun
from growdesk.services.ledger import written
from growdesk.services.long_work import quietly
from growdesk.services.values import PlaceDraft
from growdesk.store.schema import BenchRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from growdesk.services.intake_values import Choices, Survey
    from growdesk.services.ledger import Ledger
    from growdesk.services.long_work import Step
    from growdesk.store.journal import Writing

SHOWN = 200
_LOT = 500

_TITLES = Phrases(
    {
        Sort.PLANTS: "Plants taken in from {source}",
        Sort.LOOKS: "Looks taken in from {source}",
        Sort.CARE: "Care taken in from {source}",
        Sort.BLOOMS: "Blooms taken in from {source}",
    }
)


def dry_run(
    ledger: Ledger, survey: Survey, choices: Choices, step: Step = quietly
) -> DryRun:
    """Say what taking a table would bring, and which rows are bad; write nothing."""
    return _planned(ledger, survey, choices, step)[0]


def take(
    ledger: Ledger, survey: Survey, choices: Choices, step: Step = quietly
) -> DryRun:
    """Write all rows of a table in one action, or none where one of them is bad."""
    found, taking = _planned(ledger, survey, choices, step)
    if not found.would_write:
        return found
    title = _TITLES[choices.sort].format(source=survey.source)
    with ledger.writing(title) as writing:
        if isinstance(taking, PlantTaking):
            _write_plants(writing, taking)
        else:
            writing.insert_many(taking.table, taking.rows)
    return replace(found, written=written(writing, title))


def _planned(
    ledger: Ledger, survey: Survey, choices: Choices, step: Step
) -> tuple[DryRun, PlantTaking | RecordTaking]:
    check(survey, choices)
    rows, today = Rows(survey, choices), ledger.today()
    taking: PlantTaking | RecordTaking
    with ledger.reading() as session:
        if choices.sort is Sort.PLANTS:
            taking = PlantTaking(session, today, changes=choices.changes)
        else:
            taking = RecordTaking(session, today, choices.sort)
    for done, (number, given) in enumerate(rows.read()):
        if not done % _LOT:
            step(done, survey.rows)
        try:
            taking.take(number, given)
        except InputError as error:
            rows.refuse(number, error)
    if isinstance(taking, PlantTaking):
        for number, lost in taking.finish():
            rows.refuse(number, lost)
    return _told(rows, survey, choices, taking), taking


def _told(
    rows: Rows, survey: Survey, choices: Choices, taking: PlantTaking | RecordTaking
) -> DryRun:
    plain = DryRun(
        source=survey.source,
        sort=choices.sort,
        rows=survey.rows,
        added=0,
        changed_count=0,
        same=taking.same,
        bad=tuple(sorted(rows.bad, key=lambda bad: bad.row)),
        tags=(),
        new_places=(),
        new_benches=(),
        changed=(),
        notices=survey.table.notices,
    )
    if isinstance(taking, RecordTaking):
        return replace(plain, added=len(taking.rows))
    new = [each for each in taking.wanted if each.plant_id is None]
    return replace(
        plain,
        added=len(new),
        changed_count=len(taking.changed),
        tags=tuple(each.row["tag"] for each in new),
        new_places=tuple(taking.new_places),
        new_benches=tuple(name for _, name in taking.new_benches),
        changed=tuple(taking.changed[:SHOWN]),
        notices=(*survey.table.notices, *taking.notices),
    )


def _write_plants(writing: Writing, taking: PlantTaking) -> None:
    """Add places, benches and plants, in one statement each; then who is whose."""
    places = [asdict(PlaceDraft(name)) for name in taking.new_places]
    ids = writing.insert_many(PlaceRow, places)
    for name, place_id in zip(taking.new_places, ids, strict=True):
        taking.place_ids[name.casefold()] = place_id
    _write_benches(writing, taking)
    rows = [
        {
            **each.row,
            "place_id": taking.place_ids.get(each.place),
            "bench_id": taking.bench_ids.get((each.place, each.bench)),
            "parent_id": None,
        }
        for each in taking.wanted
    ]
    pairs = list(zip(taking.wanted, rows, strict=True))
    new = [(each, row) for each, row in pairs if each.plant_id is None]
    made = writing.insert_many(PlantRow, [row for _, row in new])
    tags = {**taking.tag_ids}
    for (each, _), plant_id in zip(new, made, strict=True):
        tags[each.row["tag"].casefold()] = plant_id
    owners = {
        each.row["tag"].casefold(): tags[each.parent]
        for each in taking.wanted
        if each.parent
    }
    _update(
        writing,
        [
            (each.plant_id, {k: v for k, v in row.items() if k != "parent_id"})
            for each, row in pairs
            if each.plant_id is not None
        ],
    )
    _update(
        writing,
        [(tags[tag], {"parent_id": parent}) for tag, parent in owners.items()],
    )


def _update(writing: Writing, changes: list[tuple[int, dict[str, object]]]) -> None:
    if changes:
        writing.update_many(PlantRow, changes)


def _write_benches(writing: Writing, taking: PlantTaking) -> None:
    """Add the new benches, each after the last of its place."""
    found = writing.session.execute(
        select(BenchRow.place_id, func.max(BenchRow.position)).group_by(
            BenchRow.place_id
        )
    )
    last: dict[int | None, int] = {row[0]: row[1] for row in found}
    rows = []
    for place, name in taking.new_benches:
        place_id = taking.place_ids[place]
        last[place_id] = last.get(place_id, 0) + 1
        rows.append({"place_id": place_id, "name": name, "position": last[place_id]})
    ids = writing.insert_many(BenchRow, rows)
    for (place, name), bench_id in zip(taking.new_benches, ids, strict=True):
        taking.bench_ids[place, name.casefold()] = bench_id
