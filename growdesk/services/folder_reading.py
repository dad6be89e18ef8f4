"""Reads the folder of an export as rows of every table; no collection is needed.

Each slip names file, row, field and value. Rows get the numbers that they will have in
an empty collection, so that what one row says of another can be resolved at once.
"""

from __future__ import annotations

import hashlib
from functools import partial
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.errors import ForeignError, InputError, TooNewError
from growdesk.domain.json_text import decoded
from growdesk.domain.speech import mark, tr
from growdesk.services import csv_form, files_in, table_cells
from growdesk.services.collection_export import MANIFEST
from growdesk.services.exported_photos import NAME
from growdesk.services.exported_views import by_number
from growdesk.services.long_work import quietly
from growdesk.services.soundness import value_problems
from growdesk.services.table_forms import FORMS, NAMED, Names, scope_of
from growdesk.store.migrations import SCHEMA
from growdesk.store.photos import PHOTOS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.services.table_forms import Cell, Form, Row

_MOST_MANIFEST, _MOST_TABLE = 1_000_000, 200_000_000
"""Bytes of the list of files, and of one table: a million cares are about 60 MB."""
_AGAIN = mark("Export the collection again, or bring the whole folder back.")


class FolderRead(Struct, frozen=True):
    """What a folder holds: the rows of each table, and what is worth knowing of it."""

    folder: Path
    rows: dict[str, list[Row]]
    notices: tuple[str, ...]


def read_folder(folder: Path, step: Step = quietly) -> FolderRead:
    """Give all rows of an exported folder, or say what is wrong with it."""
    manifest = _manifest(folder)
    reading = _Reading()
    notices: list[str] = []
    for number, form in enumerate(FORMS):
        step(number, len(FORMS))
        said = _said(manifest, form)
        path = folder / form.file
        if not path.is_file():
            raise ForeignError(
                tr("{folder}: {file} is missing.").format(
                    folder=folder, file=form.file
                ),
                tr(_AGAIN),
            )
        raw = files_in.read_bytes(path, _MOST_TABLE)
        table = csv_form.read_table(raw, form.file, trimmed=False)
        if len(table.rows) < said["rows"]:
            raise ForeignError(
                tr(
                    "{folder}: {file} has {there} rows, and {written} were written:"
                    " the rest is cut off."
                ).format(
                    folder=folder,
                    file=form.file,
                    there=len(table.rows),
                    written=said["rows"],
                ),
                tr(_AGAIN),
            )
        if hashlib.sha256(raw).hexdigest() != said["sha256"]:
            notices.append(
                tr("{file} was changed since it was exported.").format(file=form.file)
            )
        reading.take(form, table)
    _check_photos(folder, reading.rows["photo"], step)
    return FolderRead(folder, reading.rows, tuple(notices))


def _manifest(folder: Path) -> dict[str, Any]:
    path = folder / MANIFEST
    if not path.is_file():
        raise ForeignError(
            tr(
                "{folder} is no whole export of a collection: {manifest} is missing."
            ).format(folder=folder, manifest=MANIFEST),
            tr("Choose the folder that growdesk export wrote."),
        )
    try:
        found = decoded(files_in.read_bytes(path, _MOST_MANIFEST))
        version, schema, files = (
            found["growdesk_export"],
            int(found["schema"]),
            dict(found["files"]),
        )
    except (ValueError, KeyError, TypeError, OverflowError) as error:
        raise ForeignError(
            tr("{path} cannot be read.").format(path=path), tr(_AGAIN)
        ) from error
    if version != 1 or schema > SCHEMA:
        raise TooNewError(
            tr("{folder} was exported by a newer growdesk.").format(folder=folder),
            tr("Take that one to read it."),
        )
    return files


def _said(manifest: dict[str, Any], form: Form) -> dict[str, Any]:
    try:
        said = manifest[form.file]
        return {"rows": int(said["rows"]), "sha256": str(said["sha256"])}
    except (ValueError, KeyError, TypeError, OverflowError) as error:
        raise ForeignError(
            tr("{manifest} says nothing of {file}.").format(
                manifest=MANIFEST, file=form.file
            ),
            tr(_AGAIN),
        ) from error


class _Reading:
    """The rows read so far, and what they are called."""

    def __init__(self) -> None:
        self.rows: dict[str, list[Row]] = {}
        self._names = Names()

    def take(self, form: Form, table: csv_form.Table) -> None:
        """Read one table; those it refers to have been read before."""
        places = _places(form, table.header)
        rows: list[Row] = []
        later: list[tuple[Row, Cell, str, str]] = []
        for number, cells in table.rows:
            spot = _spot(form.file, number)
            row: Row = {"id": len(rows) + 1}
            given = _given(places, cells, spot)
            for cell in form.cells:
                field = f"{spot}, {cell.head}"
                if cell.refers_to == form.name:
                    row[cell.name] = None
                    if given[cell.head]:
                        later.append((row, cell, field, given[cell.head]))
                else:
                    row |= self._values(cell, row, given, spot)
            rows.append(row)
        self._keep(form, rows)
        for row, cell, field, text in later:
            row[cell.name] = self._find(form.name, row, field, text)
        if form.name == "saved_view":
            self._place_views(rows)
        for row, (number, _) in zip(rows, table.rows, strict=True):
            _check(form, row, _spot(form.file, number))

    def _place_views(self, rows: list[Row]) -> None:
        """Give views the numbers of the places that they name."""
        for row in rows:
            spot = f"{_spot('saved_views.csv', row['id'] + 1)}, what"
            find = partial(self._find, "place", {}, spot)
            row["what"] = by_number(row["what"], find)

    def _keep(self, form: Form, rows: list[Row]) -> None:
        self.rows[form.name] = rows
        if form.name in NAMED:
            twice = self._names.add(form.name, rows)
            if twice is not None:
                name = twice.get("tag") or twice.get("name")
                spot = _spot(form.file, twice["id"] + 1)
                raise InputError(
                    spot, name, tr("stands twice"), tr("Take one row out.")
                )

    def _values(self, cell: Cell, row: Row, given: dict[str, str], spot: str) -> Row:
        """Give the values of one column, as far as the rows before tell it."""
        field = f"{spot}, {cell.head}"
        if cell.name == "ext":
            return {}
        if cell.name == "sha256":
            found = NAME.fullmatch(given["file"])
            if found is None:
                hint = tr("Name a file of the folder photos.")
                raise InputError(field, given["file"], tr("is no photo's file"), hint)
            return {"sha256": found[1], "ext": found[2]}
        if cell.refers_to == "care":
            return {"care_id": self._care(given, spot)}
        if not cell.refers_to:
            return {cell.name: table_cells.read(cell.column, field, given[cell.head])}
        if not given[cell.head] and cell.column.nullable:
            return {cell.name: None}
        return {cell.name: self._find(cell.refers_to, row, field, given[cell.head])}

    def _care(self, given: dict[str, str], spot: str) -> int:
        plant = self._find("plant", {}, f"{spot}, tag", given["tag"])
        care = next(form for form in FORMS if form.name == "care")
        day = table_cells.read(care.table.c.day, f"{spot}, on", given["on"])
        owner = {"plant_id": plant, "day": day}
        return self._find("care", owner, f"{spot}, care", given["care"])

    def _find(self, target: str, row: Row, field: str, text: str) -> int:
        found = self._names.find(target, scope_of(target, row), text)
        if found is None:
            file = next(form.file for form in FORMS if form.name == target)
            hint = tr("Name one that is there, or leave the cell empty.")
            raise InputError(
                field, text, tr("is not in {file}").format(file=file), hint
            )
        return found


def _spot(file: str, number: int) -> str:
    return tr("{file}, row {number}").format(file=file, number=number)


def _places(form: Form, header: tuple[str, ...]) -> dict[str, int]:
    for head in form.heads:
        if head not in header:
            problem = tr("has no column {head}").format(head=head)
            raise InputError("FILE", form.file, problem, tr(_AGAIN))
    for head in header:
        if head not in form.heads or header.count(head) > 1:
            problem = (
                tr("is no column of it")
                if head not in form.heads
                else tr("stands twice")
            )
            raise InputError(form.file, head, problem, tr("Take the column out."))
    return {head: at for at, head in enumerate(header)}


def _given(places: dict[str, int], cells: tuple[str, ...], spot: str) -> dict[str, str]:
    if len(cells) > len(places):
        hint = tr("Put a text with a separator in it into quotes.")
        raise InputError(spot, cells[-1], tr("stands beyond the last field"), hint)
    return {head: cells[at] if at < len(cells) else "" for head, at in places.items()}


def _check(form: Form, row: Row, spot: str) -> None:
    """Refuse a row that no command could read back."""
    for problem in _problems(form, row):
        hint = tr("Mend the cell, or export the collection again.")
        raise ForeignError(f"{spot}, {problem}", hint)


def _problems(form: Form, row: Row) -> Iterator[str]:
    name = {"plant": "tag", "place": "name", "bench": "name"}.get(form.name)
    if name and not str(row[name]).strip():
        yield tr("{name} is empty.").format(name=name)
    yield from value_problems(form.name, row)


def _check_photos(folder: Path, rows: list[Row], step: Step) -> None:
    there: set[tuple[int, str]] = set()
    checked: set[str] = set()
    for number, row in enumerate(rows):
        step(number, len(rows))
        name = f"{row['sha256']}.{row['ext']}"
        if (row["plant_id"], row["sha256"]) in there:
            raise InputError(_spot("photos.csv", number + 2), name, tr("stands twice"))
        there.add((row["plant_id"], row["sha256"]))
        if name in checked:
            continue
        path = folder / PHOTOS / name
        if not path.is_file():
            raise ForeignError(
                tr("{folder}: the photo {name} is missing.").format(
                    folder=folder, name=name
                ),
                tr(_AGAIN),
            )
        if hashlib.sha256(path.read_bytes()).hexdigest() != row["sha256"]:
            raise ForeignError(
                tr("{folder}: the photo {name} is damaged.").format(
                    folder=folder, name=name
                ),
                tr(_AGAIN),
            )
        checked.add(name)
