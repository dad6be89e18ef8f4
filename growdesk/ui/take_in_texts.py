"""Words of taking a table in: what a file is, what would come of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import Lines, Phrases, mark, tr, trn
from growdesk.services.intake_fields import Sort

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.services.intake_values import BadRow, DryRun, Survey

SORTS: Mapping[Sort, str] = Phrases(
    {
        Sort.PLANTS: "plants",
        Sort.LOOKS: "looks",
        Sort.CARE: "care",
        Sort.BLOOMS: "blooms",
    }
)
_THINGS: Mapping[Sort, tuple[str, str]] = {
    Sort.PLANTS: ("plant", "plants"),
    Sort.LOOKS: ("look", "looks"),
    Sort.CARE: (mark("piece of care"), mark("pieces of care")),
    Sort.BLOOMS: ("bloom", "blooms"),
}
_SEPARATORS = Phrases({",": "commas", ";": "semicolons", "\t": "tabs"})
_ENCODINGS = Phrases({"utf-8": "UTF-8", "utf-16": "UTF-16", "cp1252": "Windows-1252"})
BAD_COLUMNS = Lines("Row", "Field", "In the file", "Why it cannot be taken", "Way out")
LEAVE_OUT = mark("leave out")


def counted(count: int, one: str, many: str) -> str:
    """Give a count with its noun."""
    return f"{count:,}".replace(",", "\u202f") + f" {trn(one, many, count)}"


def headline(survey: Survey) -> str:
    """Say which file it is, and how many rows it has."""
    return f"{survey.source}: {counted(survey.rows, 'row', 'rows')}"


def how_read(survey: Survey) -> str:
    """Say how the file is written."""
    parts = [
        _ENCODINGS.get(survey.encoding, survey.encoding),
        tr("parted by {get}").format(
            get=_SEPARATORS.get(survey.delimiter, survey.delimiter)
        ),
        tr("names in the first row")
        if survey.has_header
        else tr("no names in the first row"),
    ]
    decimals = {column.decimal for column in survey.columns if column.has_decimals}
    if "," in decimals:
        parts.append(
            tr("decimal commas") if "." not in decimals else tr("commas and points")
        )
    orders = {each.orders[0].order for each in survey.columns if len(each.orders) == 1}
    parts += [
        tr("dates as {dates}").format(dates=_DATES[order.value])
        for order in sorted(orders)
    ]
    return "; ".join(parts) + "."


_DATES = Phrases(
    {
        "ymd": "year, month, day",
        "dmy": "day, month, year",
        "mdy": "month, day, year",
    }
)


def outcome(found: DryRun) -> str:
    """Say what taking the table in would bring."""
    one, many = _THINGS[found.sort]
    parts = []
    if found.added:
        parts.append(
            tr("{counted} would come in").format(
                counted=counted(found.added, one, many)
            )
        )
    if found.changed_count:
        changed = counted(found.changed_count, "plant that is", "plants that are")
        parts.append(tr("{changed} there would change").format(changed=changed))
    if found.same:
        rows = counted(found.same, "row is", "rows are")
        parts.append(tr("{rows} on record already").format(rows=rows))
    said = "; ".join(parts) if parts else tr("Nothing would change")
    lines = [
        tr("{said}{said_2}. Nothing is written yet.").format(
            said=said[0].upper(), said_2=said[1:]
        )
    ]
    for names, noun in ((found.new_places, "place"), (found.new_benches, "bench")):
        if names:
            plural = {"place": "places", "bench": "benches"}[noun]
            shown = "; ".join(names[:8]) + ("…" if len(names) > 8 else "")
            lines.append(
                tr("New {noun}: {shown}.").format(
                    noun=noun if len(names) == 1 else plural, shown=shown
                )
            )
    return " ".join(lines)


def bad_head(found: DryRun, shown: int) -> str:
    """Say how many rows are bad, and that nothing is taken until they are mended."""
    count = len(found.bad)
    said = (
        tr("1 row is bad")
        if count == 1
        else tr("{count} rows are bad").format(count=count)
    )
    more = (
        tr(" The first {shown} are shown.").format(shown=shown) if count > shown else ""
    )
    return tr(
        "{said}, so nothing can be taken yet: mend the file, or "
        "leave a column out.{more}"
    ).format(said=said, more=more)


def bad_row(bad: BadRow, titles: Mapping[str, str]) -> tuple[str, ...]:
    """Give the cells that tell a bad row."""
    reason = f"{bad.reason[:1].upper()}{bad.reason[1:]}."
    return (
        str(bad.row),
        titles.get(bad.field, bad.field),
        bad.value,
        reason,
        bad.way_out,
    )


def take(found: DryRun | None) -> str:
    """Give the words of the button that takes the table in."""
    if found is None or not found.would_write:
        return tr("&Take them in")
    one, many = _THINGS[found.sort]
    parts = []
    if found.added:
        parts.append(counted(found.added, one, many))
    if found.changed_count:
        parts.append(counted(found.changed_count, "change", "changes"))
    return f"&Take {' and '.join(parts)} in"


def taken(found: DryRun) -> str:
    """Say what was taken in."""
    one, many = _THINGS[found.sort]
    said = counted(found.added, one, many)
    if found.changed_count:
        said += f" and {counted(found.changed_count, 'change', 'changes')}"
    return tr("Took in {said} from {source}").format(said=said, source=found.source)
