"""Takes a table in for the command line, whose header says what its columns are.

The file is surveyed before a collection is opened, so that a file that is no table
touches none. A column that is no field is refused, never passed over in silence.
"""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import words_joined
from growdesk.domain.speech import Phrases, tr
from growdesk.services import intake_survey
from growdesk.services.intake_fields import FIELDS, Sort
from growdesk.services.intake_reading import asks_order, check
from growdesk.services.intake_values import Choices

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.intake_values import Survey
    from growdesk.services.logger_times import DayOrder

LEAVE_OUT = "-"


def choose(
    survey: Survey,
    *,
    sort: str | None = None,
    columns: str | None = None,
    day_order: DayOrder | None = None,
    changes: bool = False,
) -> Choices:
    """Give how a file is read, by its header or as said; refuse what is open."""
    kind = survey.sort if sort is None else Sort(sort)
    keys = survey.matched[kind]
    if columns is not None:
        keys = _said(survey, kind, columns)
    elif survey.has_header:
        _refuse_unknown(survey, kind)
    choices = Choices(kind, keys, day_order, changes=changes)
    check(survey, choices)
    asked = asks_order(survey, choices)
    if asked:
        column = next(c for c in survey.columns if c.name == asked[0])
        ways = [each.order.value for each in column.orders]
        hint = tr("Say how they are meant with --dates {first} ({ways}).").format(
            first=ways[0], ways=words_joined(ways)
        )
        problem = tr("holds dates that can be read in two ways ({samples})").format(
            samples=column.samples[0]
        )
        raise InputError("--dates", asked[0], problem, hint)
    return choices


def survey_of(path: Path) -> Survey:
    """Survey a file."""
    return intake_survey.survey(path)


def _said(survey: Survey, sort: Sort, columns: str) -> tuple[str, ...]:
    names = [name.strip() for name in columns.split(",")]
    if len(names) != len(survey.columns):
        hint = tr("Name {count}, with - for each to leave out.").format(
            count=len(survey.columns)
        )
        problem = tr("names {named} columns of {there}").format(
            named=len(names), there=len(survey.columns)
        )
        raise InputError("--columns", columns, problem, hint)
    for name in names:
        if name not in {LEAVE_OUT, *FIELDS[sort]}:
            raise InputError("--columns", name, _NO_FIELD[sort], _instead(name, sort))
    return tuple("" if name == LEAVE_OUT else name for name in names)


def _refuse_unknown(survey: Survey, sort: Sort) -> None:
    for column, key in zip(survey.columns, survey.matched[sort], strict=True):
        if key:
            continue
        names = [each.name for each in survey.columns]
        if names.count(column.name) > 1:
            raise InputError(
                tr("row 1"), column.name, tr("stands twice"), tr("Take one column out.")
            )
        raise InputError(
            tr("row 1"), column.name, _NO_FIELD[sort], _instead(column.name, sort)
        )


_NO_FIELD = Phrases(
    {
        Sort.PLANTS: "is not a field of a plant",
        Sort.LOOKS: "is not a field of a look",
        Sort.CARE: "is not a field of care",
        Sort.BLOOMS: "is not a field of a bloom",
    }
)


def _instead(name: str, sort: Sort) -> str:
    fields = tuple(FIELDS[sort])
    close = difflib.get_close_matches(name.casefold(), fields, n=1)
    if close:
        return tr("Did you mean {close}?").format(close=close[0])
    return tr("Take the column out, name all with --columns, or use {list}.").format(
        list=", ".join(fields)
    )
