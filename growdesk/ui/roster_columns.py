"""Declare the columns of the table of all plants, once for heading, table and file.

A column gives its text for people, its value for a file, and what it is sorted by;
what sorts by nothing stands last, whichever way the table is sorted.
"""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.facts import Flowering
from growdesk.domain.holding import Status
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.domain.volume_words import volume_text
from growdesk.services.plants import tag_order
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from datetime import date

    from growdesk.domain.facts import Verdict
    from growdesk.services.roster_values import RosterLine

FLOWERING: Mapping[Flowering, str] = Phrases(
    {
        Flowering.OPEN: "in flower",
        Flowering.FADING: "fading",
        Flowering.BUDS: "in bud",
        Flowering.SPIKE: "in spike",
        Flowering.SHEATH: "sheath",
    }
)
STATUS: Mapping[Status, str] = Phrases(
    {
        Status.GROWING: "growing",
        Status.GIVEN_AWAY: "given away",
        Status.SOLD: "sold",
        Status.LOST: "lost",
    }
)
_BY_STAGE = tuple(FLOWERING)


class Entry(Struct, frozen=True):
    """A plant of the table with its verdict on the day shown, if it is judged."""

    line: RosterLine
    verdict: Verdict | None


class Column(Struct, frozen=True):
    """One column. ``signs`` is how many letters it has room for at first.

    A ``wide`` one takes what room is left; a ``usual`` one is shown until the grower
    chooses others. ``unit`` is what the number of a ``cell`` is in.
    """

    key: str
    declared: str
    signs: int
    text: Callable[[Entry], str]
    order: Callable[[Entry], Any]
    cell: Callable[[Entry], object]
    is_number: bool = False
    wide: bool = False
    usual: bool = False
    unit: str = ""

    @property
    def title(self) -> str:
        """Give the heading."""
        return tr(self.declared)


def _words(
    key: str, title: str, signs: int, text: Callable[[Entry], str], **more: Any
) -> Column:
    """Give a column of words, sorted as words are."""

    def order(entry: Entry) -> str | None:
        return text(entry).casefold() or None

    return Column(key, title, signs, text, more.pop("order", order), text, **more)


def _day(key: str, title: str, field: str, **more: Any) -> Column:
    """Give a column of days."""
    of = attrgetter(f"line.{field}")

    def text(entry: Entry) -> str:
        day: date | None = of(entry)
        return "" if day is None else words.short_day(day)

    return Column(key, title, 10, text, of, of, **more)


def _plain(key: str, title: str, signs: int, field: str, **more: Any) -> Column:
    """Give a column of what was typed, on one line."""
    of = attrgetter(f"line.{field}")
    return _words(key, title, signs, lambda entry: " ".join(of(entry).split()), **more)


def _verdict(entry: Entry) -> str:
    """Give the verdict, or what became of a plant that is judged no more."""
    if entry.line.status is not Status.GROWING:
        return STATUS[entry.line.status]
    return "" if entry.verdict is None else words.VERDICT[entry.verdict]


def _verdict_order(entry: Entry) -> int | None:
    if entry.verdict is None:
        return None
    return words.VERDICT_ORDER.index(entry.verdict)


def _bench(entry: Entry) -> str:
    line = entry.line
    number = "" if line.bench is None else str(line.bench)
    return ", ".join(part for part in (line.bench_name, number) if part)


def _flowering(entry: Entry) -> str:
    stage = entry.line.flowering
    return "" if stage is None else FLOWERING[stage]


def _flowering_order(entry: Entry) -> int | None:
    stage = entry.line.flowering
    return None if stage is None else _BY_STAGE.index(stage)


def _medium(entry: Entry) -> str:
    line = entry.line
    if line.mounted:
        return tr("mounted")
    return "" if line.medium is None else words.sign(line.medium)


def _pot(entry: Entry) -> str:
    held = entry.line.pot_volume_l
    return "" if held is None else volume_text(held)


def _size(entry: Entry) -> str:
    return "" if entry.line.size is None else words.sign(entry.line.size)


def _parent(entry: Entry) -> str:
    line = entry.line
    how = "" if line.parent_how is None else words.sign(line.parent_how)
    return ", ".join(part for part in (line.parent_tag, how) if part)


def _held_as(entry: Entry) -> str:
    line = entry.line
    held = "" if line.held_as is None else words.sign(line.held_as)
    return (
        tr("{held} of {how_many}").format(held=held, how_many=line.how_many)
        if held and line.how_many
        else held
    )


def _photos(entry: Entry) -> str:
    return str(entry.line.photos) if entry.line.photos else ""


COLUMNS: tuple[Column, ...] = (
    _words(
        "tag",
        mark("Tag"),
        6,
        lambda entry: entry.line.tag,
        order=lambda entry: tag_order(entry.line.tag),
        usual=True,
    ),
    _plain(
        "name",
        mark("Name"),
        26,
        "name",
        usual=True,
        order=attrgetter("line.name_order"),
    ),
    _plain("kind", mark("Kind"), 22, "kind_title"),
    _words(
        "place",
        mark("Place"),
        16,
        lambda entry: entry.line.place,
        order=lambda entry: entry.line.walk,
        usual=True,
    ),
    _words("bench", mark("Bench"), 10, _bench, order=lambda entry: entry.line.walk),
    _words("verdict", mark("Verdict"), 16, _verdict, order=_verdict_order, usual=True),
    _day("looked", mark("Last look"), "looked_on", usual=True),
    _plain("signs", mark("Signs"), 26, "signs", wide=True, usual=True),
    _words("flowering", mark("In flower"), 10, _flowering, order=_flowering_order),
    _day("bloomed", mark("Last bloom"), "last_bloom"),
    _day("fed", mark("Last fed"), "fed_on"),
    _day("watered", mark("Last watered"), "watered_on"),
    _day("treated", mark("Last treated"), "treated_on"),
    _day("repotted", mark("Repotted"), "repotted_on"),
    _words("medium", mark("Medium"), 12, _medium),
    Column(
        "pot",
        mark("Pot"),
        8,
        _pot,
        lambda entry: entry.line.pot_volume_l,
        lambda entry: entry.line.pot_volume_l,
        is_number=True,
        unit="L",
    ),
    _words("size", mark("Size"), 15, _size),
    _day("acquired", mark("Acquired"), "acquired_on"),
    _plain("source", mark("Source"), 18, "source", wide=True),
    _plain("parentage", mark("Parentage"), 22, "parentage", wide=True),
    _words("parent", mark("Taken from"), 14, _parent),
    _plain("papers", mark("Papers"), 14, "papers"),
    _words("held-as", mark("Held as"), 12, _held_as),
    _day("quarantine", mark("Quarantine to"), "quarantine_until"),
    Column(
        "photos",
        mark("Photos"),
        7,
        _photos,
        lambda entry: entry.line.photos or None,
        lambda entry: entry.line.photos,
        is_number=True,
    ),
    _words("status", mark("Where it is"), 11, lambda entry: STATUS[entry.line.status]),
    _day("left", mark("Left on"), "left_on"),
    _plain("left-why", mark("Why it left"), 22, "left_why", wide=True),
    _plain("note", mark("Note"), 26, "note", wide=True),
)
BY_KEY: dict[str, Column] = {column.key: column for column in COLUMNS}
USUAL: tuple[str, ...] = tuple(column.key for column in COLUMNS if column.usual)
USUAL_ORDER = "place"


def chosen(keys: Iterable[str]) -> tuple[Column, ...]:
    """Give the columns of some keys, each once; what nobody knows is left out."""
    return tuple(BY_KEY[key] for key in dict.fromkeys(keys) if key in BY_KEY)


class Orders:
    """The order of some entries by each column; what a column sorts by is read once.

    The entries come as they are walked.
    """

    def __init__(self, entries: Sequence[Entry]) -> None:
        self._entries = entries
        self._values: dict[str, list[Any]] = {}

    def by(self, key: str, among: Sequence[int], *, downwards: bool) -> list[int]:
        """Give positions by a column; those without a value last, ties as walked."""
        values = self._values_of(key)
        unknown = [at for at in among if values[at] is None]
        known = [at for at in among if values[at] is not None] if unknown else among
        return sorted(known, key=values.__getitem__, reverse=downwards) + unknown

    def _values_of(self, key: str) -> list[Any]:
        column = BY_KEY.get(key, BY_KEY[USUAL_ORDER])
        if column.key not in self._values:
            self._values[column.key] = list(map(column.order, self._entries))
        return self._values[column.key]


def walked(entries: Iterable[Entry]) -> list[Entry]:
    """Give entries as they are walked."""
    return sorted(entries, key=lambda entry: entry.line.walk)
