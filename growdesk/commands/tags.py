"""Makes tags to print as a PDF: sheets of labels, or a strip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, pdf_file, reading
from growdesk.domain.errors import InputError
from growdesk.domain.label_layouts import preset_for, read_layout

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.tags import TagFacts

_EXTRAS = ("parentage", "source", "where")


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the tags of the plants named, of a place, of those new, or of all."""
    layout = (
        preset_for("A4")
        if arguments.layout is None
        else read_layout(arguments.layout, "--layout")
    )
    extras = _extras(arguments.with_lines)
    path = pdf_file.to_write(arguments.pdf, "tags.pdf")
    plants = _plants(arguments, desk)
    from growdesk.ui.printing import tag_pages  # noqa: PLC0415 -- Qt is slow to load
    from growdesk.ui.printing.tag_labels import Shown  # noqa: PLC0415 -- ditto

    shown = Shown(code=not arguments.no_code, **dict.fromkeys(extras, True))
    wish = tag_pages.TagWish(
        layout,
        _whole("--copies", arguments.copies),
        _whole("--first", arguments.first),
        shown,
    )
    try:
        tag_pages.checked(wish)
    except InputError as error:
        raise InputError(
            f"--{error.field}", error.value, error.problem, error.hint
        ) from None
    tag_pages.write_tags(plants, wish, path)
    output.say(f"Wrote {tag_pages.told(plants, wish)}, to {path}.")
    for note in tag_pages.notes_of(plants, wish):
        output.say(note)


def _plants(arguments: Namespace, desk: Desk) -> tuple[TagFacts, ...]:
    from growdesk.services.tags import TagChoice  # noqa: PLC0415 -- the store is slow to load

    since = (
        None
        if arguments.since is None
        else reading.day("--since", arguments.since, desk.today)
    )
    choice = TagChoice(
        tags=tuple(arguments.tag) if arguments.tag else None,
        place=arguments.place,
        since=since,
    )
    with desk.reading(desk.today) as collection:
        try:
            plants = collection.tags.chosen(choice)
        except InputError as error:
            raise InputError(
                f"--{error.field}", error.value, error.problem, error.hint
            ) from None
    if not plants:
        hint = "Ask for other plants, or leave --since out."
        raise InputError("--pdf", arguments.pdf, "would hold no tag", hint)
    return plants


def _extras(text: str) -> tuple[str, ...]:
    found = tuple(each.strip() for each in text.split(",") if each.strip())
    for each in found:
        if each not in _EXTRAS:
            hint = f"Give any of: {', '.join(_EXTRAS)}."
            raise InputError("--with", each, "is no line of a tag", hint)
    return found


def _whole(option: str, text: str) -> int:
    if not text.strip().isascii() or not text.strip().isdigit():
        raise InputError(option, text, "is not a whole number", "Give 1 or more.")
    return int(text)
