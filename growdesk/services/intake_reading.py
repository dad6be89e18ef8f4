"""The rows of a table as values of its fields, by what was chosen for each column."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from growdesk.domain.errors import InputError, shortened
from growdesk.domain.speech import Phrases, plain, tr
from growdesk.services import intake_cells
from growdesk.services.intake_fields import FIELDS, NEEDED
from growdesk.services.intake_values import BadRow

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from growdesk.services.intake_values import Choices, Survey

Given = dict[str, Any]
WRONG = "⚠"
_KNOWN = 20_000
"""Texts of a column that are remembered at once."""


class _Known(dict[str, object]):
    """The values of a column by their texts, each read once: most cells repeat.

    Of one that cannot be read it is the error.
    """

    def __init__(self, read: Callable[[str], object]) -> None:
        super().__init__()
        self._read = read

    def __missing__(self, text: str) -> object:
        """Read a text that was not met yet."""
        if len(self) == _KNOWN:
            self.clear()
        try:
            found = self._read(text)
        except InputError as error:
            found = error
        self[text] = found
        return found


class Rows:
    """Reads the rows of a table as chosen; bad ones are kept, with their reason."""

    def __init__(self, survey: Survey, choices: Choices) -> None:
        self._survey = survey
        self.bad: list[BadRow] = []
        self._columns: list[tuple[int, str, _Known]] = []
        fields = FIELDS[choices.sort]
        pairs = zip(survey.columns, choices.keys, strict=True)
        for at, (column, key) in enumerate(pairs):
            if key:
                read = intake_cells.reader(column, fields[key], choices)
                self._columns.append((at, fields[key].key, _Known(read)))

    def read(self) -> Iterator[tuple[int, Given]]:
        """Give the values of each row that can be read; an empty cell gives none."""
        width = len(self._survey.columns)
        for number, cells in self._survey.table.rows:
            if len(cells) > width and any(cells[width:]):
                hint = tr("Put a text with a separator in it into quotes.")
                problem = tr("stands beyond the last field")
                self.refuse(number, InputError("row", cells[-1], problem, hint))
                continue
            given = self._row(number, cells)
            if given is not None:
                yield number, given

    def _row(self, number: int, cells: Sequence[str]) -> Given | None:
        given: Given = {}
        for at, key, known in self._columns:
            text = cells[at] if at < len(cells) else ""
            if not text:
                continue
            value = known[text]
            if isinstance(value, InputError):
                self.refuse(number, value)
                return None
            given[key] = value
        return given

    def refuse(self, number: int, error: InputError) -> None:
        """Keep a row as bad."""
        value = str(error.value)
        told = shortened(value)
        self.bad.append(BadRow(number, error.field, told, error.problem, error.hint))


def understood(
    survey: Survey, choices: Choices, most: int
) -> list[tuple[int, tuple[str, ...]]]:
    """Give the first rows as they are read, a cell for each column of the file.

    What is left out is empty; what cannot be read has a mark.
    """
    fields = FIELDS[choices.sort]
    readers = [
        intake_cells.reader(column, fields[key], choices) if key else None
        for column, key in zip(survey.columns, choices.keys, strict=True)
    ]
    found = []
    for number, cells in survey.table.rows[:most]:
        texts = (cells[at] if at < len(cells) else "" for at in range(len(readers)))
        row = [_as_read(read, text) for read, text in zip(readers, texts, strict=True)]
        found.append((number, tuple(row)))
    return found


def _as_read(read: Callable[[str], object] | None, text: str) -> str:
    if read is None or not text:
        return ""
    try:
        return told(read(text))
    except InputError:
        return f"{WRONG} {text}"


def check(survey: Survey, choices: Choices) -> None:
    """Refuse choices that leave out what is needed, or give a field twice."""
    keys = [key for key in choices.keys if key]
    for key in keys:
        if keys.count(key) > 1:
            title = FIELDS[choices.sort][key].title
            hint = tr("Leave one of the columns out.")
            raise InputError(tr("row 1"), title, tr("stands twice"), hint)
    for needed in NEEDED[choices.sort]:
        if needed not in keys:
            hint = _HINTS[needed]
            shown = ", ".join(column.name for column in survey.columns)
            raise InputError(tr("row 1"), shown, _NOT_NAMED[needed], hint)


_NOT_NAMED = Phrases(
    {"tag": "names no tag", "on": "names no day", "what": "names no care"}
)
_HINTS = Phrases(
    {
        "tag": "Add a column tag with the number on each label.",
        "on": "Say which column holds the day.",
        "what": "Say which column tells what was done.",
    }
)


def asks_order(survey: Survey, choices: Choices) -> list[str]:
    """Give the columns whose dates can be read in several ways, as chosen so far."""
    fields = FIELDS[choices.sort]
    found = []
    for column, key in zip(survey.columns, choices.keys, strict=True):
        is_day = key and fields[key].column.type.python_type is date
        if is_day and intake_cells.order_of(column, choices) is None:
            found.append(column.name)
    return found


def told(value: object) -> str:
    """Give a value as it was understood."""
    if value is True or value is False:
        return tr("yes") if value else tr("no")
    if isinstance(value, float):
        return plain(value)
    return str(value)
