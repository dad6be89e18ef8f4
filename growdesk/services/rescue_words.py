"""Says in whole sentences what a rescue found that is not as it stood."""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from typing import TYPE_CHECKING, Any

from growdesk.domain.day_words import short_dated_text
from growdesk.domain.speech import Phrases, tr, trn
from growdesk.services.entry_words import ENTRIES, field_word, value_text
from growdesk.services.rescue_rows import Became

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from growdesk.services.entry_words import Owners
    from growdesk.services.rescue_rows import Note

_OF_VALUES = Phrases(
    {
        Became.SET_BACK: (
            "{entry}, {field}: {now} as the history has it; {stood} stood there."
        ),
        Became.NOT_RECORDED: (
            "{entry}, {field}: not recorded any more; {stood} stood there."
        ),
        Became.IN_PART: "{entry}, {field}: only a part could be read: {stood}.",
        Became.RENAMED: "{entry}, {field}: {now} now, since {stood} was there twice.",
        Became.CUT_LOOSE: (
            "{entry}, {field}: not recorded any more, since it could not be read."
        ),
        Became.DOUBTFUL: (
            "{entry}, {field}: {stood} is kept as it stood; the history, which is not"
            " whole, has {now}. Look which is right."
        ),
    }
)


def lines(notes: Sequence[Note], owners: Owners) -> Iterator[str]:
    """Give the sentences: what is lost first, then plant by plant what is changed."""
    lost = [note for note in notes if note.became is Became.LOST]
    yield from _together(lost, owners, _lost)
    back = [note for note in notes if note.became is Became.BROUGHT_BACK]
    yield from _together(back, owners, _back)
    for note in notes:
        if note.became is Became.STAND_IN:
            yield tr(
                "{entry}: its own entry could not be read; what belongs to it is kept"
                " under this name."
            ).format(entry=owners.whose(note.table, note.row))
        elif note.became in _OF_VALUES:
            yield _OF_VALUES[note.became].format(
                entry=owners.called(note.table, note.row),
                field=field_word(note.column),
                stood=value_text(note.table, note.column, note.stood),
                now=value_text(note.table, note.column, note.now),
            )


def unknown(table: str, count: int) -> str:
    """Say that entries are lost of which nothing is known."""
    return trn(
        "{entry}: at least {count} more could not be read; whose it was is not known.",
        "{entry}: at least {count} more could not be read; whose they were is not"
        " known.",
        count,
    ).format(entry=_large(ENTRIES[table]), count=count)


def _together(
    notes: Iterable[Note], owners: Owners, form: Callable[[int, list[date]], str]
) -> Iterator[str]:
    """Tell entries of one owner and sort together, from the first day to the last."""
    groups: dict[tuple[str, str], list[Note]] = defaultdict(list)
    for note in notes:
        whose = owners.owner(note.table, note.row) or tr("The collection")
        groups[whose, note.table].append(note)
    for (whose, table), same in groups.items():
        days = sorted(day for note in same if (day := _day(note.row)) is not None)
        count = len(same)
        yield form(count, days).format(
            whose=whose,
            entry=ENTRIES[table],
            count=count,
            first=short_dated_text(days[0]) if days else "",
            last=short_dated_text(days[-1]) if days else "",
        )


def _lost(count: int, days: list[date]) -> str:
    if not days:
        return trn(
            "{whose}, {entry}: {count} could not be read.",
            "{whose}, {entry}: {count} could not be read.",
            count,
        )
    if days[0] == days[-1]:
        return trn(
            "{whose}, {entry}: {count} of {first} could not be read.",
            "{whose}, {entry}: {count} of {first} could not be read.",
            count,
        )
    return tr("{whose}, {entry}: {count} between {first} and {last} could not be read.")


def _back(count: int, days: list[date]) -> str:
    if not days:
        return trn(
            "{whose}, {entry}: {count} brought back from the history.",
            "{whose}, {entry}: {count} brought back from the history.",
            count,
        )
    if days[0] == days[-1]:
        return trn(
            "{whose}, {entry}: {count} of {first} brought back from the history.",
            "{whose}, {entry}: {count} of {first} brought back from the history.",
            count,
        )
    return tr(
        "{whose}, {entry}: {count} between {first} and {last} brought back from the"
        " history."
    )


def _day(row: Any) -> date | None:
    try:
        return date.fromisoformat(row.get("day"))
    except (TypeError, ValueError):
        return None


def _large(text: str) -> str:
    return text[:1].upper() + text[1:]
