"""The table of all plants on record: one line each, in ten statements however many."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from growdesk.domain.facts import CareKind, Flowering
from growdesk.domain.speech import tr
from growdesk.services import kind_rows, names, roster_rows, walking
from growdesk.services.day_rows import WATERING
from growdesk.services.finding import joined
from growdesk.services.look_words import signs_line
from growdesk.services.roster_values import RosterLine
from growdesk.store.mapping import (
    descent_of,
    held_as_of,
    look_of,
    medium_of,
    size_of,
    status_of,
)

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.facts import Look
    from growdesk.domain.kinds import Kind, KindTable
    from growdesk.domain.name_sort import SortKey
    from growdesk.services.ledger import Ledger
    from growdesk.store.session import Session

    _Named = tuple[str, SortKey | None]

_STAGES = (
    Flowering.OPEN,
    Flowering.FADING,
    Flowering.BUDS,
    Flowering.SPIKE,
    Flowering.SHEATH,
)


class Roster:
    """The plants of one collection as a table, also those that left it."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self._before = _Before()

    def read(self, on: date | None = None) -> tuple[RosterLine, ...]:
        """Give all plants on record as the round is walked, as they stood on a day.

        Places, notes and the like are those of now; looks, care and blooms after the
        day are not told. ``noted`` is what more a find goes through.
        """
        day = on or self._ledger.today()
        with self._ledger.reading() as session:
            about = _About(session, day, self._before)
            lines = [about.line(row) for row in roster_rows.plants(session)]
        return tuple(sorted(lines, key=lambda line: line.walk))

    def noted(self) -> Mapping[int, str]:
        """Give what was ever noted at looks, by plant, folded for a find."""
        with self._ledger.reading() as session:
            notes = roster_rows.look_notes(session)
        return {
            plant_id: joined(dict.fromkeys(text.split("\n")))
            for plant_id, text in notes.items()
        }


@dataclass(slots=True)
class _Before:
    """What was made at earlier reads, each with all that it was made of.

    Reading a name is dear, and so is a line of thousands that are as they were.
    """

    names: dict[str, _Named] = field(default_factory=dict)
    kinds: dict[str, Kind] = field(default_factory=dict)
    lines: dict[int, tuple[object, RosterLine]] = field(default_factory=dict)


@dataclass(slots=True)
class _About:
    """What is known around the plants on a day, by plant."""

    session: Session
    on: date
    before: _Before
    kinds: dict[str, Kind] = field(default_factory=dict)
    table: KindTable = field(init=False)
    places: dict[int, tuple[str, int | None]] = field(init=False)
    looks: dict[int, Any] = field(init=False)
    care: dict[int, roster_rows.Days] = field(init=False)
    blooms: dict[int, Any] = field(init=False)
    photos: dict[int, int] = field(init=False)

    def __post_init__(self) -> None:
        self.table = kind_rows.table_of(self.session)
        self.places = roster_rows.places(self.session)
        self.looks = roster_rows.last_looks(self.session, self.on)
        self.care = roster_rows.last_care(self.session, self.on)
        self.blooms = roster_rows.last_blooms(self.session, self.on)
        self.photos = roster_rows.photo_counts(self.session)

    def line(self, row: Any) -> RosterLine:
        """Give a plant's line: the very one of before where nothing of it differs."""
        made_of = (
            self.on,
            self._kind(row),
            tuple(row),
            self.places.get(row.place_id),
            tuple(self.looks.get(row.id, ())),
            self.care.get(row.id),
            tuple(self.blooms.get(row.id, ())),
            self.photos.get(row.id),
        )
        before = self.before.lines.get(row.id)
        if before is not None and before[0] == made_of:
            return before[1]
        line = self._line(row)
        self.before.lines[row.id] = made_of, line
        return line

    def _line(self, row: Any) -> RosterLine:
        kind = self._kind(row)
        place, turn = self.places.get(row.place_id, ("", None))
        look_row = self.looks.get(row.id)
        look = None if look_row is None else look_of(look_row)
        signs = "" if look is None else signs_line(look)
        care = self.care.get(row.id, {})
        bloom = self.blooms.get(row.id)
        genera, name_order = self._named(row.name)
        watered = [day for what, day in care.items() if what in WATERING]
        repots = [row.repotted_on, care.get(CareKind.REPOT)]
        return RosterLine(
            plant_id=row.id,
            tag=row.tag,
            name=row.name,
            kind_key=kind.key,
            kind_title=tr(kind.title),
            place_id=row.place_id,
            place=place,
            bench_name=row.bench_name or "",
            bench=row.bench,
            walk=walking.order(row, place, turn),
            status=status_of(row),
            left_on=row.left_on,
            left_why=row.left_why,
            looked_on=None if look is None else look.on,
            signs=signs,
            flowering=_flowering(look, bloom, kind, self.on),
            fed_on=care.get(CareKind.FEED),
            watered_on=max(watered, default=None),
            treated_on=care.get(CareKind.TREAT),
            repotted_on=max((day for day in repots if day), default=None),
            last_bloom=None if bloom is None else bloom.began,
            medium=medium_of(row),
            mounted=row.mounted,
            pot_volume_l=row.pot_volume_l,
            size=size_of(row),
            acquired_on=row.acquired_on,
            source=row.source,
            parentage=row.parentage,
            parent_tag=row.parent_tag or "",
            parent_how=descent_of(row),
            papers=row.papers,
            held_as=held_as_of(row),
            how_many=row.how_many,
            quarantine_until=row.quarantine_until,
            photos=self.photos.get(row.id, 0),
            note=row.note,
            found_by=joined(
                (
                    row.tag,
                    row.name,
                    genera,
                    kind.title,
                    tr(kind.title),
                    place,
                    row.bench_name or "",
                    signs,
                    row.note,
                    row.source,
                    row.parentage,
                    row.parent_tag or "",
                    row.papers,
                    row.left_why,
                )
            ),
            name_order=name_order,
        )

    def _named(self, name: str) -> _Named:
        """Give the genera of a name in full, and what it is sorted by."""
        if name not in self.before.names:
            read = names.read(name)
            among = [each for each in (read, read.pod, read.pollen) if each is not None]
            genera = " ".join(each.genus for each in among)
            order = names.sort_key_of(name) if name.strip() else None
            self.before.names[name] = genera, order
        return self.before.names[name]

    def _kind(self, row: Any) -> Kind:
        """Give a plant's kind; thousands of plants have a few dozen of them."""
        called = row.kind or row.name
        if called not in self.kinds:
            now = self.table.find(called) or self.table.general
            before = self.before.kinds.get(called)
            self.kinds[called] = before if before == now else now
            self.before.kinds[called] = self.kinds[called]
        return self.kinds[called]


def _flowering(look: Look | None, bloom: Any, kind: Kind, on: date) -> Flowering | None:
    """Give the stage that stands on a day.

    What was seen is taken to stand for as long as the kind's flowers last; a bloom that
    opened after the last look goes before it.
    """
    seen = look.on if look is not None and look.flowering is not None else None
    opened = None if bloom is None else bloom.first_open_on
    if opened is not None and (seen is None or opened > seen):
        faded = bloom.last_faded_on is not None and bloom.last_faded_on < on
        stands = not faded and _days(kind) >= (on - opened).days
        return Flowering.OPEN if stands else None
    if look is None or look.flowering is None or (on - look.on).days > _days(kind):
        return None
    return next((stage for stage in _STAGES if stage in look.flowering), None)


def _days(kind: Kind) -> float:
    return kind.flower_weeks * 7
