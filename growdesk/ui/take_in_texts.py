"""Words of taking a table in: what a file is, what would come of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.intake_fields import Sort

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.services.intake_values import BadRow, DryRun, Survey

SORTS: Mapping[Sort, str] = {
    Sort.PLANTS: "plants",
    Sort.LOOKS: "looks",
    Sort.CARE: "care",
    Sort.BLOOMS: "blooms",
}
_THINGS: Mapping[Sort, tuple[str, str]] = {
    Sort.PLANTS: ("plant", "plants"),
    Sort.LOOKS: ("look", "looks"),
    Sort.CARE: ("piece of care", "pieces of care"),
    Sort.BLOOMS: ("bloom", "blooms"),
}
_SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}
_ENCODINGS = {"utf-8": "UTF-8", "utf-16": "UTF-16", "cp1252": "Windows-1252"}
BAD_COLUMNS = ("Row", "Field", "In the file", "Why it cannot be taken", "Way out")
LEAVE_OUT = "leave out"


def counted(count: int, one: str, many: str) -> str:
    """Give a count with its noun."""
    return f"{count:,}".replace(",", "\u202f") + f" {one if count == 1 else many}"


def headline(survey: Survey) -> str:
    """Say which file it is, and how many rows it has."""
    return f"{survey.source}: {counted(survey.rows, 'row', 'rows')}"


def how_read(survey: Survey) -> str:
    """Say how the file is written."""
    parts = [
        _ENCODINGS.get(survey.encoding, survey.encoding),
        f"parted by {_SEPARATORS.get(survey.delimiter, survey.delimiter)}",
        "names in the first row" if survey.has_header else "no names in the first row",
    ]
    decimals = {column.decimal for column in survey.columns if column.has_decimals}
    if "," in decimals:
        parts.append("decimal commas" if "." not in decimals else "commas and points")
    orders = {each.orders[0].order for each in survey.columns if len(each.orders) == 1}
    parts += [f"dates as {_DATES[order.value]}" for order in sorted(orders)]
    return "; ".join(parts) + "."


_DATES = {
    "ymd": "year, month, day",
    "dmy": "day, month, year",
    "mdy": "month, day, year",
}


def outcome(found: DryRun) -> str:
    """Say what taking the table in would bring."""
    one, many = _THINGS[found.sort]
    parts = []
    if found.added:
        parts.append(f"{counted(found.added, one, many)} would come in")
    if found.changed_count:
        changed = counted(found.changed_count, "plant that is", "plants that are")
        parts.append(f"{changed} there would change")
    if found.same:
        rows = counted(found.same, "row is", "rows are")
        parts.append(f"{rows} on record already")
    said = "; ".join(parts) if parts else "Nothing would change"
    lines = [f"{said[0].upper()}{said[1:]}. Nothing is written yet."]
    for names, noun in ((found.new_places, "place"), (found.new_benches, "bench")):
        if names:
            plural = {"place": "places", "bench": "benches"}[noun]
            shown = "; ".join(names[:8]) + ("…" if len(names) > 8 else "")
            lines.append(f"New {noun if len(names) == 1 else plural}: {shown}.")
    return " ".join(lines)


def bad_head(found: DryRun, shown: int) -> str:
    """Say how many rows are bad, and that nothing is taken until they are mended."""
    count = len(found.bad)
    said = "1 row is bad" if count == 1 else f"{count} rows are bad"
    more = f" The first {shown} are shown." if count > shown else ""
    return (
        f"{said}, so nothing can be taken yet: mend the file, or leave a column out."
        f"{more}"
    )


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
        return "&Take them in"
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
    return f"Took in {said} from {found.source}"
