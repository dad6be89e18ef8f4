"""Words of taking a table in: what a file is, what would come of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.phrases import listed
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
_SEPARATORS = Phrases({",": "commas", ";": "semicolons", "\t": "tabs"})
_ENCODINGS = Phrases({"utf-8": "UTF-8", "utf-16": "UTF-16", "cp1252": "Windows-1252"})
BAD_COLUMNS = Lines("Row", "Field", "In the file", "Why it cannot be taken", "Way out")
LEAVE_OUT = mark("leave out")


def counted(count: int, one: str, many: str) -> str:
    """Give a count with its noun."""
    return f"{_grouped(count)} {trn(one, many, count)}"


def _grouped(count: int) -> str:
    return f"{count:,}".replace(",", "\u202f")


def _things(sort: Sort, count: int) -> str:
    """Give a count of what a table of a sort holds."""
    if sort is Sort.PLANTS:
        return counted(count, "plant", "plants")
    if sort is Sort.LOOKS:
        return counted(count, "look", "looks")
    if sort is Sort.CARE:
        return counted(count, "piece of care", "pieces of care")
    return counted(count, "bloom", "blooms")


def headline(survey: Survey) -> str:
    """Say which file it is, and how many rows it has."""
    return f"{survey.source}: {counted(survey.rows, 'row', 'rows')}"


def how_read(survey: Survey) -> str:
    """Say how the file is written."""
    parts = [
        _ENCODINGS.get(survey.encoding, survey.encoding),
        tr("parted by {sign}").format(
            sign=_SEPARATORS.get(survey.delimiter, survey.delimiter)
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
    parts = []
    if found.added:
        things = _things(found.sort, found.added)
        parts.append(tr("{counted} would come in").format(counted=things))
    if found.changed_count:
        changed = trn(
            "{count} plant that is there would change",
            "{count} plants that are there would change",
            found.changed_count,
        )
        parts.append(changed.format(count=_grouped(found.changed_count)))
    if found.same:
        rows = trn(
            "{count} row is on record already",
            "{count} rows are on record already",
            found.same,
        )
        parts.append(rows.format(count=_grouped(found.same)))
    lines = [tr("Nothing would change. Nothing is written yet.")]
    if parts:
        said = tr("{changes}. Nothing is written yet.")
        lines = [said.format(changes="; ".join(parts))]
    new = (
        (
            found.new_places,
            trn("New place: {shown}.", "New places: {shown}.", len(found.new_places)),
        ),
        (
            found.new_benches,
            trn("New bench: {shown}.", "New benches: {shown}.", len(found.new_benches)),
        ),
    )
    for names, told in new:
        if names:
            shown = "; ".join(names[:8]) + ("…" if len(names) > 8 else "")
            lines.append(told.format(shown=shown))
    return " ".join(lines)


def bad_head(found: DryRun, shown: int) -> str:
    """Say how many rows are bad, and that nothing is taken until they are mended."""
    count = len(found.bad)
    said = trn(
        "{count} row is bad, so nothing can be taken yet: mend the file, or leave a "
        "column out.",
        "{count} rows are bad, so nothing can be taken yet: mend the file, or leave a "
        "column out.",
        count,
    ).format(count=count)
    if count <= shown:
        return said
    return f"{said} {tr('The first {shown} are shown.').format(shown=shown)}"


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
    return tr("&Take {counted} in").format(counted=_all_taken(found))


def taken(found: DryRun) -> str:
    """Say what was taken in."""
    return tr("Took in {counted} from {source}").format(
        counted=_all_taken(found), source=found.source
    )


def _all_taken(found: DryRun) -> str:
    """Count what comes in and what changes."""
    parts = []
    if found.added or not found.changed_count:
        parts.append(_things(found.sort, found.added))
    if found.changed_count:
        parts.append(counted(found.changed_count, "change", "changes"))
    return listed(parts)
