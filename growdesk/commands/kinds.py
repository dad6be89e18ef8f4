"""Tells the kinds: all of them in a list, or one field by field with its sources.

No collection is needed; one that is named lays its corrections over.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.domain.facts_kinds import kind_fields_json
from growdesk.domain.kind_fields import GROUPS
from growdesk.services import kinds
from growdesk.services.kind_views import matching, shipped_views

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence

    from growdesk.commands.desk import Desk
    from growdesk.services.kind_values import FieldView, KindView

_MOST_NAMED = 6


def run(arguments: Namespace, desk: Desk) -> None:
    """Print the kinds, or the one that a key or a plant's name leads to."""
    views, problems = _read(desk)
    asked: str | None = arguments.kind
    if asked is not None:
        found = _one(views, asked)
        if arguments.json:
            output.say_json(_report(found))
        else:
            _say(_of_kind(found))
    elif arguments.json:
        output.say_json(
            {"kinds": [_report(each) for each in views], "problems": list(problems)}
        )
    else:
        _say(_listed(views, problems))


def _read(desk: Desk) -> tuple[tuple[KindView, ...], tuple[str, ...]]:
    if desk.folder_given is None and not desk.demo:
        return shipped_views(), ()
    with desk.reading(desk.today) as collection:
        lines = tuple(each.line for each in collection.kinds.problems())
        return collection.kinds.all(), lines


def _one(views: Sequence[KindView], asked: str) -> KindView:
    """Give the kind that is meant, or say which ones may be."""
    found = matching(views, asked)
    if not asked.strip() or not found:
        hint = "growdesk kinds lists all; a key, a genus or a plant's name will do."
        raise InputError("kind", asked, "leads to no kind", hint)
    led = kinds.table().find(asked)
    if led is None and len(found) > 1:
        named = ", ".join(each.key for each in found[:_MOST_NAMED])
        more = " and others" if len(found) > _MOST_NAMED else ""
        raise InputError(
            "kind", asked, "leads to several kinds", f"Choose one of {named}{more}."
        )
    return found[0]


def _say(lines: Sequence[str]) -> None:
    for line in lines:
        output.say(line)


def _listed(views: Sequence[KindView], problems: Sequence[str]) -> list[str]:
    rows = [
        (
            each.key,
            each.title,
            f"rest {each.field('rest').text}",
            f"{each.field('feeder').text} feeder",
            output.counted(each.corrected, "correction") if each.corrected else "",
        )
        for each in views
    ]
    return [output.counted(len(views), "kind"), *output.columns(rows), *problems]


def _of_kind(shown: KindView) -> list[str]:
    lines = [f"{shown.title} ({shown.key})", f"Names: {', '.join(shown.names)}"]
    if not shown.names:
        lines.pop()
    if shown.short:
        lines.append(f"Abbreviations: {', '.join(shown.short)}")
    for group in GROUPS[1:]:
        rows = [
            (field.title, field.text, _remark(field))
            for field in shown.fields
            if field.group == group and (field.bears or field.corrected)
        ]
        lines += ["", group, *output.columns(rows)]
    return [*lines, "", "Source", *(f"  {line}" for line in shown.source.split("; "))]


def _remark(field: FieldView) -> str:
    if field.corrected:
        note = f", {field.note}" if field.note else ""
        return f"(yours{note}; shipped: {field.below_text})"
    return "(from memory)" if field.from_memory else ""


def _report(shown: KindView) -> dict[str, object]:
    """Give a kind under the keys of ``growdesk kinds --json``."""
    corrected = [field for field in shown.fields if field.corrected]
    return {
        "key": shown.key,
        "title": shown.title,
        "names": list(shown.names),
        "abbreviations": list(shown.short),
        "fields": kind_fields_json((f.name, f.cell) for f in shown.fields),
        "shipped": kind_fields_json((f.name, f.below_cell) for f in corrected),
        "memory": [field.name for field in shown.fields if field.from_memory],
        "source": shown.source,
    }
