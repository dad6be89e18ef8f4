"""Words for the fields of a kind as people read them, and cells as the table has."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from growdesk.domain import templates
from growdesk.domain.day_words import MONTHS
from growdesk.domain.kind_fields import FIELDS, Sort
from growdesk.domain.phrases import inside
from growdesk.domain.quantity_words import amount_text, turns
from growdesk.domain.speech import tr, trn
from growdesk.domain.wording import number_text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.kinds import Kind

_FEW = 60


def cell(name: str, value: Any) -> str:
    """Give a value as a cell of the table has it."""
    sort = FIELDS[name].sort
    if value is None:
        return ""
    if sort is Sort.YES_NO:
        return "yes" if value else "no"
    if sort is Sort.MONTHS:
        return ";".join(str(month) for month in value)
    if sort in {Sort.NUMBER, Sort.WHOLE}:
        return f"{float(value):.6f}".rstrip("0").rstrip(".")
    return str(value)


def value_text(name: str, value: Any) -> str:
    """Give a value in words, with its unit."""
    declared = FIELDS[name]
    if value is None or value in ("", ()):
        return tr(declared.empty)
    if declared.sort is Sort.MONTHS:
        return months_text(value)
    if declared.choices is not None:
        return declared.choices[cell(name, value)]
    if declared.sort in {Sort.NUMBER, Sort.WHOLE}:
        if turns(declared.unit):
            return amount_text(float(value), tr(declared.unit))
        return _with_unit(float(value), declared.unit)
    return tr(str(value))


def _with_unit(value: float, unit: str) -> str:
    said = {
        "days": trn("{number} day", "{number} days", value),
        "weeks": trn("{number} week", "{number} weeks", value),
        "years": trn("{number} year", "{number} years", value),
    }.get(unit, "{number} {unit}" if unit else "{number}")
    return said.format(number=number_text(value, 3), unit=tr(unit))


def told(kind: Kind, name: str) -> str:
    """Give a field of a kind with its value inside a sentence: "feeder light"."""
    title = inside(tr(FIELDS[name].title))
    text = value_text(name, getattr(kind, name)).partition(":")[0]
    if len(text) > _FEW:
        return title
    return tr("{title} {value}").format(title=title, value=text)


def corrected_told(kind: Kind) -> tuple[str, ...]:
    """Say what the grower corrected of a kind, and what of it for one plant.

    What holds otherwise for the plant is not said of its kind too.
    """
    of_kind = [name for name in kind.corrected if name not in kind.corrected_here]
    found = (
        (tr(templates.KIND_CORRECTED), of_kind),
        (tr(templates.KIND_CORRECTED_HERE), kind.corrected_here),
    )
    return tuple(
        template.format(fields=", ".join(told(kind, name) for name in names))
        for template, names in found
        if names
    )


def months_text(months: Sequence[int]) -> str:
    """Give months by their names: runs as "November to February"."""
    return ", ".join(_run_text(run) for run in runs(months))


def _run_text(run: Sequence[int]) -> str:
    first, last = MONTHS[run[0] - 1], MONTHS[run[-1] - 1]
    if len(run) == 1:
        return first
    said = tr("{first} and {last}") if len(run) == 2 else tr("{first} to {last}")
    return said.format(first=first, last=last)


def runs(months: Sequence[int]) -> list[list[int]]:
    """Give months in runs that follow each other, over the turn of the year too."""
    found: list[list[int]] = []
    for month in sorted(months):
        if found and found[-1][-1] == month - 1:
            found[-1].append(month)
        else:
            found.append([month])
    if len(found) > 1 and found[0][0] == 1 and found[-1][-1] == 12:
        found[0] = found.pop() + found[0]
    return found
