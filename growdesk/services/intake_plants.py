"""Rows of a list of plants as plants: new ones, and changes of those that are there.

What is there already is read once, however many rows come. Nothing is written here.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.services import checking, kinds
from growdesk.services.intake_reading import told
from growdesk.services.plant_drafts import checked, draft_of, values_of
from growdesk.services.standing import here
from growdesk.store.schema import BenchRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.services.intake_reading import Given
    from growdesk.store.session import Session

Row = dict[str, Any]
Bench = tuple[str, str]
"""A place and a bench in it, both folded."""
_FIRST_NEW = -1
_NOT_AS_GIVEN = frozenset({"place", "bench_name", "parent", "bench"})


class Wanted(Struct, frozen=True):
    """A plant to be written: its row, and by name what it refers to.

    ``plant_id`` is of a plant that is there. Names are folded; empty is none.
    """

    row: Row
    plant_id: int | None
    place: str
    bench: str
    parent: str
    number: int


class PlantTaking:
    """The plants taken so far, and the places and benches to be made for them."""

    def __init__(self, session: Session, today: date, *, changes: bool) -> None:
        self._today = today
        self._changes = changes
        self.place_ids: dict[str, int | None] = {
            row.name.casefold(): row.id
            for row in session.execute(select(PlaceRow.id, PlaceRow.name))
        }
        self._place_names = {number: name for name, number in self.place_ids.items()}
        self.bench_ids: dict[Bench, int | None] = {
            (self._place_names[row.place_id], row.name.casefold()): row.id
            for row in session.execute(
                select(BenchRow.id, BenchRow.place_id, BenchRow.name)
            )
        }
        self._bench_names = {number: name for name, number in self.bench_ids.items()}
        self._there = {
            row["tag"].casefold(): dict(row)
            for row in session.execute(
                select(PlantRow.__table__).where(here())
            ).mappings()
        }
        self.tag_ids = {tag: row["id"] for tag, row in self._there.items()}
        self._last = self._last_numbers()
        self._rows: dict[str, int] = {}
        self.wanted: list[Wanted] = []
        self.same = 0
        self.new_places: list[str] = []
        self.new_benches: list[tuple[str, str]] = []
        self.changed: list[str] = []
        self.notices: list[str] = []

    def _last_numbers(self) -> dict[Bench, int]:
        """Give the highest number along each bench, and along what has no bench."""
        found: dict[Bench, int] = {}
        for row in self._there.values():
            place = self._place_names.get(row["place_id"], "")
            at = self._bench_names.get(row["bench_id"]) or (place, "")
            found[at] = max(found.get(at, 0), row["bench"] or 0)
        return found

    def take(self, number: int, given: Given) -> None:
        """Check the plant of one row; raise ``InputError`` for a bad one."""
        tag = checking.needed_text(
            "tag", given.get("tag", ""), tr("Give the number on its label.")
        )
        said = tag.casefold()
        if said in self._rows:
            hint = tr("Give this plant another tag.")
            problem = tr("is on another plant already, in row {rows}").format(
                rows=self._rows[said]
            )
            raise InputError("tag", tag, problem, hint)
        there = self._there.get(said)
        if there is not None and not self._changes:
            hint = tr(
                "Give this plant another tag, or let rows change plants that are there."
            )
            raise InputError("tag", tag, tr("is on another plant already"), hint)
        before = _NEW if there is None else there
        place, bench = self._stand(given, before)
        parent = given.get("parent", "").casefold()
        own = {key: each for key, each in given.items() if key not in _NOT_AS_GIVEN}
        base = {**before, **own, "bench": given.get("bench", before["bench"])}
        if parent:
            base["parent_id"] = _FIRST_NEW
        if there is None and not base["kind"]:
            base["kind"] = _guessed(base["name"])
        draft = checked(draft_of(SimpleNamespace(**base)), self._today)
        row = values_of(draft)
        wanted = Wanted(
            row, None if there is None else there["id"], place, bench, parent, number
        )
        self._keep(said, wanted, there)
        if there is None:
            self._note_kind(number, row)

    def _keep(self, said: str, wanted: Wanted, there: Row | None) -> None:
        self._rows[said] = wanted.number
        self.place_ids.setdefault(wanted.place, None)
        if there is not None:
            self._keep_change(wanted, there)
            return
        at = (wanted.place, wanted.bench)
        given, last = wanted.row["bench"], self._last.get(at, 0)
        wanted.row["bench"] = last + 1 if given is None else given
        self._last[at] = max(last, wanted.row["bench"])
        self.wanted.append(wanted)

    def _keep_change(self, wanted: Wanted, there: Row) -> None:
        place = self._place_names.get(there["place_id"], "")
        bench = self._bench_names.get(there["bench_id"], ("", ""))[1]
        parts = [
            f"{key.removesuffix('_id')} {_shown(there[key])} → {_shown(value)}"
            for key, value in wanted.row.items()
            if key not in {"place_id", "bench_id", "parent_id"} and value != there[key]
        ]
        parts += [
            f"{key} {_shown(old)} → {_shown(new)}"
            for key, old, new in (
                ("place", place, wanted.place),
                ("bench", bench, wanted.bench),
            )
            if old != new
        ]
        parent = self.tag_ids.get(wanted.parent)
        if wanted.parent and parent != there["parent_id"]:
            parts.append(tr("taken from {parent}").format(parent=wanted.parent))
        if not parts:
            self.same += 1
            return
        self.changed.append(f"{there['tag']}: {'; '.join(parts)}")
        self.wanted.append(wanted)

    def _stand(self, given: Given, before: Row) -> Bench:
        """Give the place and bench a row means; new ones are noted with their names."""
        place = self._place_names.get(before["place_id"], "")
        bench = self._bench_names.get(before["bench_id"], ("", ""))[1]
        if "place" in given:
            name = checking.needed_text(
                "place", given["place"], tr("Give the place a name."), checking.NAME
            )
            if name.casefold() != place:
                place, bench = name.casefold(), ""
            if place not in self.place_ids:
                self.place_ids[place] = None
                self.new_places.append(name)
        if "bench_name" in given:
            name = checking.needed_text(
                "bench_name", given["bench_name"], tr("Give it a name."), checking.NAME
            )
            if not place:
                hint = tr("Say in which place the bench stands.")
                raise InputError("bench_name", name, tr("stands in no place"), hint)
            bench = name.casefold()
            if (place, bench) not in self.bench_ids:
                self.bench_ids[place, bench] = None
                self.new_benches.append((place, name))
        return place, bench

    def finish(self) -> list[tuple[int, InputError]]:
        """Give the rows whose parent cannot be; to be asked once all are taken."""
        known = {**self.tag_ids, **self._rows}
        above = self._parents()
        found = []
        for each in self.wanted:
            problem = ""
            if each.parent and each.parent not in known:
                problem = tr("is no plant of the collection or the table")
            elif each.parent and _comes_of(each.row["tag"].casefold(), above):
                problem = tr("came of {tag} itself").format(tag=each.row["tag"])
            if problem:
                hint = tr(
                    "Mend the tag, take the parent in too, or leave the cell empty."
                )
                error = InputError("parent", each.parent, problem, hint)
                found.append((each.number, error))
        return found

    def _parents(self) -> dict[str, str]:
        """Give the tag that each plant was taken from, the table's word first."""
        tags = {row["id"]: tag for tag, row in self._there.items()}
        found = {
            tag: tags[row["parent_id"]]
            for tag, row in self._there.items()
            if row["parent_id"] in tags
        }
        taken = {e.row["tag"].casefold(): e.parent for e in self.wanted if e.parent}
        return {**found, **taken}

    def _note_kind(self, number: int, row: Row) -> None:
        kind, table = row["kind"], kinds.table()
        if kind and not (table.find(kind) or table.find(row["name"])):
            self.notices.append(
                tr(
                    "Row {number}, kind: {kind!r} is not in the table of kinds; {tag}"
                    " will be judged as a careful general one."
                ).format(number=number, kind=kind, tag=row["tag"])
            )


def _comes_of(tag: str, above: Mapping[str, str]) -> bool:
    """Tell whether a plant is among those it was taken from."""
    seen: set[str] = set()
    at = above.get(tag)
    while at is not None and at not in seen:
        if at == tag:
            return True
        seen.add(at)
        at = above.get(at)
    return False


def _shown(value: object) -> str:
    return tr("empty") if value in {None, ""} else told(value)


def _guessed(name: str) -> str:
    kind = kinds.table().find(name)
    return "" if kind is None else kind.key


def _blank() -> Mapping[str, Any]:
    found: Row = {}
    for column in PlantRow.__table__.columns:
        default = getattr(column.default, "arg", None)
        is_text = column.type.python_type is str and not column.nullable
        found[column.name] = "" if default is None and is_text else default
    return found


_NEW = dict(_blank())
