"""Takes plants in from a CSV file: all of its rows, or none.

Each row is added by the same service as a plant typed in, inside one action that is
taken back whole where any row is bad or only a dry run was asked for. So a dry run
finds exactly what the import would.
"""

from __future__ import annotations

import difflib
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Medium, Size
from growdesk.services import csv_cells, csv_form, kinds
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from growdesk.services.collection import Collection

PLANT_COLUMNS = (
    "tag",
    "name",
    "kind",
    "place",
    "bench",
    "hybrid",
    "pot_volume_l",
    "volume_l",
    "medium",
    "mounted",
    "size",
    "under_cover",
    "repotted_on",
    "slow_release_until",
    "full_strength_ppm_n",
    "feed_ceiling_ppm_n",
    "feed_interval_days",
    "ignores_rest",
    "acquired_on",
    "source",
    "note",
)
_MOST_BYTES = 50_000_000
_READERS: Mapping[str, Callable[[str, str], object]] = {
    "bench": csv_cells.whole,
    "hybrid": csv_cells.flag,
    "pot_volume_l": csv_cells.number,
    "volume_l": csv_cells.number,
    "medium": lambda field, text: csv_cells.word(field, text, Medium),
    "mounted": csv_cells.flag,
    "size": lambda field, text: csv_cells.word(field, text, Size),
    "under_cover": csv_cells.flag,
    "repotted_on": csv_cells.day,
    "slow_release_until": csv_cells.day,
    "full_strength_ppm_n": csv_cells.number,
    "feed_ceiling_ppm_n": csv_cells.number,
    "feed_interval_days": csv_cells.whole,
    "ignores_rest": csv_cells.flag,
    "acquired_on": csv_cells.day,
}


@dataclass(frozen=True, slots=True)
class ImportReport:
    """What an import took in, or would take in on a dry run.

    ``problems`` has a line for each bad row; with any, nothing was written.
    """

    source: str
    tags: tuple[str, ...]
    new_places: tuple[str, ...]
    problems: tuple[str, ...]
    notices: tuple[str, ...]
    written: bool


class _TakenBack(Exception):  # noqa: N818 -- no error: it ends a dry run
    """Ends an import that shall leave nothing behind."""


def import_csv(collection: Collection, path: Path, *, dry_run: bool) -> ImportReport:
    """Add the plants of a CSV file in one action, or say which rows are bad."""
    table = csv_form.read_table(_read(path), path.name)
    _check_header(table.header)
    taking = _Taking(collection)
    title = f"Plants taken in from {path.name}"
    written = False
    with suppress(_TakenBack):
        with collection.ledger.together(title):
            for number, row in table.rows:
                taking.take(number, table.header, row)
            taking.settle(dry_run=dry_run)
        written = True
    return ImportReport(
        source=path.name,
        tags=tuple(taking.tags),
        new_places=tuple(taking.new_places),
        problems=tuple(taking.problems),
        notices=(*table.notices, *taking.notices),
        written=written,
    )


class _Taking:
    """The rows taken so far, the places made for them, and the bad rows."""

    def __init__(self, collection: Collection) -> None:
        self._plants = collection.plants
        self._places = collection.places
        self._place_ids = {
            view.draft.name.casefold(): view.place_id for view in self._places.all()
        }
        self.tags: list[str] = []
        self.new_places: list[str] = []
        self.problems: list[str] = []
        self.notices: list[str] = []

    def take(self, number: int, header: tuple[str, ...], row: tuple[str, ...]) -> None:
        """Add the plant of one row, or note what is wrong with the row."""
        try:
            draft = self._draft(header, row)
            self._plants.add(draft)
        except InputError as error:
            self.problems.append(f"Row {number}, {error.line()}")
        else:
            self.tags.append(draft.tag)
            self._note_kind(number, draft)

    def _note_kind(self, number: int, draft: PlantDraft) -> None:
        table = kinds.table()
        if draft.kind and not (table.find(draft.kind) or table.find(draft.name)):
            self.notices.append(
                f"Row {number}, kind: {draft.kind!r} is not in the table of kinds; "
                f"{draft.tag} will be judged as a careful general one."
            )

    def settle(self, *, dry_run: bool) -> None:
        """Take all rows back where any is bad, or only a dry run was asked for."""
        if dry_run or self.problems:
            raise _TakenBack

    def _draft(self, header: tuple[str, ...], row: tuple[str, ...]) -> PlantDraft:
        if len(row) > len(header):
            hint = "Put a text with a separator in it into quotes."
            raise InputError("row", row[-1], "stands beyond the last field", hint)
        cells = dict(zip(header, row, strict=False))
        read = {
            name: _READERS[name](name, cells[name])
            for name in header
            if name in _READERS and name in cells
        }
        draft = PlantDraft(
            tag=cells["tag"],
            name=cells.get("name", ""),
            kind=cells.get("kind", ""),
            source=cells.get("source", ""),
            note=cells.get("note", ""),
        )
        kind = draft.kind or self._plants.guess_kind(draft.name)
        place_id = self._place(cells.get("place", ""))
        return replace(draft, kind=kind, place_id=place_id, **read)  # type: ignore[arg-type]

    def _place(self, name: str) -> int | None:
        """Give the place of a name, made where there is none yet."""
        if not name:
            return None
        folded = name.casefold()
        if folded not in self._place_ids:
            self._place_ids[folded] = self._places.add(PlaceDraft(name)).ids[0]
            self.new_places.append(name)
        return self._place_ids[folded]


def _check_header(header: tuple[str, ...]) -> None:
    for name in header:
        if name not in PLANT_COLUMNS:
            close = difflib.get_close_matches(name.casefold(), PLANT_COLUMNS, n=1)
            hint = (
                f"Did you mean {close[0]}?"
                if close
                else f"Take the column out, or use {', '.join(PLANT_COLUMNS)}."
            )
            raise InputError("row 1", name, "is not a field of a plant", hint)
        if header.count(name) > 1:
            raise InputError("row 1", name, "stands twice", "Take one column out.")
    if "tag" not in header:
        hint = "Add a column tag with the number on each label."
        raise InputError("row 1", ", ".join(header), "names no tag", hint)


def _read(path: Path) -> bytes:
    if not path.is_file():
        raise InputError("FILE", str(path), "is not there", "Check its name.")
    if path.stat().st_size > _MOST_BYTES:
        raise InputError("FILE", str(path), "is too large", "Split it.")
    try:
        return path.read_bytes()
    except OSError as error:
        hint = "Check whether you may read it."
        problem = f"cannot be read ({error.strerror})"
        raise InputError("FILE", str(path), problem, hint) from None
