"""Frozen values of taking a table in: what it seems to hold, what would come of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from growdesk.services.csv_form import Table
    from growdesk.services.intake_fields import Sort
    from growdesk.services.logger_times import DatesRead, DayOrder
    from growdesk.services.values import Written


class Column(Struct, frozen=True):
    """A column of a file: its name, its first cells, and how it may be read.

    ``orders`` are those its dates allow; several have to be asked for. ``decimal`` is
    the sign of its decimals, empty where its only sign may be that or part thousands.
    """

    name: str
    samples: tuple[str, ...]
    filled: int
    unit: str = ""
    orders: tuple[DatesRead, ...] = ()
    decimal: str = "."
    has_decimals: bool = False


@dataclass(frozen=True, slots=True)
class Survey:
    """What a file seems to be. ``table`` are its rows, kept so as to be read once.

    ``matched`` gives the field of each column for every sort, empty to leave it out.
    """

    source: str
    encoding: str
    delimiter: str
    has_header: bool
    sort: Sort
    columns: tuple[Column, ...]
    matched: dict[Sort, tuple[str, ...]]
    notices: tuple[str, ...]
    table: Table = field(repr=False, compare=False)

    @property
    def rows(self) -> int:
        """Give the number of rows."""
        return len(self.table.rows)

    @property
    def choices(self) -> Choices:
        """Give the choices as the file suggests them."""
        return Choices(self.sort, self.matched[self.sort])


class Choices(Struct, frozen=True):
    """How to read a file: what its rows are, and the field of each column.

    ``day_order`` and ``decimal`` are for columns that can be read in two ways.
    ``changes`` lets rows change plants that are there; an empty cell changes nothing.
    """

    sort: Sort
    keys: tuple[str, ...]
    day_order: DayOrder | None = None
    decimal: str = ""
    changes: bool = False


class BadRow(Struct, frozen=True):
    """A row that cannot be taken: where, what stands there, why, and the way out."""

    row: int
    field: str
    value: str
    reason: str
    way_out: str

    def line(self) -> str:
        """Give it as one line."""
        form = (
            tr("Row {row}, {field}: {value!r} {reason}. {way_out}")
            if self.value
            else tr("Row {row}, {field} {reason}. {way_out}")
        )
        said = form.format(
            row=self.row,
            field=self.field,
            value=self.value,
            reason=self.reason,
            way_out=self.way_out,
        )
        return " ".join(said.split())


class DryRun(Struct, frozen=True):
    """What a table would bring. With any bad row nothing is taken.

    ``tags`` are of the new plants, ``changed`` tells the first changes of plants that
    are there, ``same`` counts rows that are on record already.
    """

    source: str
    sort: Sort
    rows: int
    added: int
    changed_count: int
    same: int
    bad: tuple[BadRow, ...]
    tags: tuple[str, ...]
    new_places: tuple[str, ...]
    new_benches: tuple[str, ...]
    changed: tuple[str, ...]
    notices: tuple[str, ...]
    written: Written | None = None

    @property
    def would_write(self) -> bool:
        """Tell whether taking it in would change anything."""
        return not self.bad and bool(self.added or self.changed_count)
