"""The kinds of orchid: habit, rest, light, warmth and salts, one row each.

The tables themselves are shipped files; this module turns their text into values and
leads a plant's name to its kind. It knows nothing of where the files lie.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping
from enum import StrEnum
from math import isfinite
from typing import Any

from msgspec import Struct, field

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr


class Habit(StrEnum):
    """How the plant grows."""

    SYMPODIAL = "sympodial"
    MONOPODIAL = "monopodial"
    TUBEROUS = "tuberous"


class Rest(StrEnum):
    """The season in which a kind slows."""

    NONE = "none"
    REDUCED = "reduced"
    UNFED = "cool-dry-unfed"
    NO_NITROGEN = "no-nitrogen"
    LEAFLESS = "leafless-dry"


class Resume(StrEnum):
    """What ends a leafless rest."""

    ROOT_LENGTH = "root-length"
    GROWTH_OR_ROOTS = "growth-or-roots"


class Feeder(StrEnum):
    """How hungry a kind is."""

    LIGHT = "light"
    MEDIUM = "medium"
    HEAVY = "heavy"


class Warmth(StrEnum):
    """The temperatures a kind wants."""

    WARM = "warm"
    INTERMEDIATE = "intermediate"
    COOL = "cool"


class Kind(Struct, frozen=True):
    """One row of the kind table.

    Temperatures in °C, strengths in mg N per litre, light in foot-candles, lengths in
    mm, months 1 to 12 for the northern hemisphere, whole and inclusive.
    ``growth_weeks`` run from a new growth (or leaf) showing to its maturing,
    ``spike_weeks`` from a spike showing to its first flower, ``flower_weeks`` from
    that to the last faded. ``least_night_c`` is the coldest night, ``most_day_c`` the
    hottest day that it is left standing in. ``pot_ec_limit_ms_per_cm`` is the most
    that the water in the pot may hold, at 25 °C.
    ``resume_root_mm`` is 0 where no length of root is asked for. ``memory`` names the
    fields that no source was read for: they are from memory, or our own reading.
    ``corrected`` names the fields that the grower has otherwise for the kind,
    ``corrected_here`` those that hold otherwise for one plant.
    """

    key: str
    title: str
    genera: tuple[str, ...]
    habit: Habit
    rest: Rest
    rest_months: tuple[int, ...]
    resume: Resume | None
    resume_root_mm: float
    feeder: Feeder
    ceiling_ppm_n: float | None
    ceiling_is_ours: bool
    light_low_fc: float
    light_high_fc: float
    warmth: Warmth
    base_c: float
    best_low_c: float
    best_high_c: float
    stop_c: float
    least_feed_c: float
    most_feed_c: float
    least_night_c: float
    most_day_c: float
    spike_draws_feed: bool
    blooms_from_unripe: bool
    old_spikes_branch: bool
    idle_interval_days: int | None
    lead_rate_mm_per_week: float | None
    root_rate_mm_per_week: float | None
    repot_years: float | None
    repot_moment: str
    growth_weeks: float
    spike_weeks: float
    flower_weeks: float
    pot_ec_limit_ms_per_cm: float
    advice: str
    source: str
    memory: tuple[str, ...] = ()
    corrected: tuple[str, ...] = ()
    corrected_here: tuple[str, ...] = ()

    @property
    def light_mid_fc(self) -> float:
        """Give the middle of the light range in foot-candles."""
        return (self.light_low_fc + self.light_high_fc) / 2


GENERAL_KEY = "general"
_FILLERS = frozenset(
    ("x", "sect", "section", "ser", "series", "type", "cf", "aff", "sp", "spp")
)
_MARKS = "()[]{},;:'\"\u2018\u2019\u201c\u201d"


def _fold(text: str) -> str:
    return " ".join(text.casefold().split())


def _words(text: str) -> list[str]:
    """Give the words of a name, without the hybrid sign, full stops and quotes."""
    split = _fold(text.replace("\u00d7", " ")).split()
    words = [word.strip(_MARKS).rstrip(".") for word in split]
    return [word for word in words if word and word not in _FILLERS]


class KindTable(Struct, frozen=True):
    """All kinds by key, and the way from a name to its kind.

    ``by_genus`` leads a genus, a hybrid genus, a species ("genus epithet") or another
    name of a kind to its key; ``abbreviations`` leads "rlc" to the genus in full.
    """

    kinds: dict[str, Kind]
    by_genus: dict[str, str]
    abbreviations: dict[str, str] = field(default_factory=dict)

    @property
    def general(self) -> Kind:
        """Give the careful kind that stands in for an unknown one."""
        return self.kinds[GENERAL_KEY]

    def find(self, text: str) -> Kind | None:
        """Give the kind for a key, a genus, a hybrid genus or a plant's full name.

        Only the first two words of a name are read: parents named further on do not
        decide. ``None`` where the name leads nowhere.
        """
        for name in self._candidates(text):
            if name in self.kinds:
                return self.kinds[name]
            if name in self.by_genus:
                return self.kinds[self.by_genus[name]]
        return None

    def _candidates(self, text: str) -> Iterator[str]:
        yield _fold(text)
        words = _words(text)
        if not words:
            return
        genus = self.abbreviations.get(words[0], words[0])
        if len(words) > 1:
            yield f"{genus} {words[1]}"
            yield f"{genus}-{words[1]}"
        yield genus


Read = Callable[[str], Any]


def _number(text: str) -> float:
    value = float(text)
    if not isfinite(value) or value < 0:
        raise ValueError(text)
    return value


def _yes(text: str) -> bool:
    if text not in {"yes", "no"}:
        raise ValueError(text)
    return text == "yes"


def _required(text: str) -> str:
    if not text:
        raise ValueError(text)
    return text


def _listed(text: str) -> tuple[str, ...]:
    return tuple(item.strip() for item in text.split(";") if item.strip())


def _months(text: str) -> tuple[int, ...]:
    months = tuple(int(item) for item in _listed(text))
    if len(set(months)) != len(months) or not set(months) <= set(range(1, 13)):
        raise ValueError(text)
    return months


def _or_none(read: Read) -> Read:
    return lambda text: read(text) if text else None


_NONE_OF = mark("is none of {words}")
_READS: Mapping[str, tuple[Read, str]] = {
    "key": (_required, mark("is missing")),
    "title": (_required, mark("is missing")),
    "source": (_required, mark("is missing")),
    "genera": (_listed, ""),
    "memory": (_listed, ""),
    "habit": (Habit, _NONE_OF),
    "rest": (Rest, _NONE_OF),
    "rest_months": (_months, mark("is no list of months from 1 to 12")),
    "resume": (_or_none(Resume), _NONE_OF),
    "feeder": (Feeder, _NONE_OF),
    "warmth": (Warmth, _NONE_OF),
    "idle_interval_days": (_or_none(int), mark("is no whole number")),
    **dict.fromkeys(
        (
            "ceiling_ppm_n",
            "lead_rate_mm_per_week",
            "root_rate_mm_per_week",
            "repot_years",
        ),
        (_or_none(_number), mark("is no number of 0 or more")),
    ),
    **dict.fromkeys(
        (
            "ceiling_is_ours",
            "spike_draws_feed",
            "blooms_from_unripe",
            "old_spikes_branch",
        ),
        (_yes, mark("is neither yes nor no")),
    ),
    **dict.fromkeys(("repot_moment", "advice"), (str, "")),
}
_WORDS: Mapping[str, type[StrEnum]] = {
    "habit": Habit,
    "rest": Rest,
    "resume": Resume,
    "feeder": Feeder,
    "warmth": Warmth,
}
_NUMBER = (_number, mark("is no number of 0 or more"))
_NOT_SHIPPED = ("corrected", "corrected_here")
COLUMNS = tuple(c for c in Kind.__struct_fields__ if c not in _NOT_SHIPPED)
_NAME_COLUMNS = ("name", "abbreviations", "kind", "source")


def _rows(
    text: str, table: str, columns: tuple[str, ...]
) -> Iterator[tuple[str, dict[str, str]]]:
    """Give each row with its place in the file, once the header is as it should be."""
    reader = csv.reader(io.StringIO(text))
    header = tuple(next(reader, ()))
    if sorted(header) != sorted(columns):
        odd = sorted(set(header) ^ set(columns)) or sorted(header)
        raise InputError(
            tr("{table}, header").format(table=table),
            ", ".join(odd),
            tr("does not fit"),
        )
    for number, cells in enumerate(reader, start=2):
        place = tr("{table}, row {number}").format(table=table, number=number)
        if len(cells) != len(header):
            message = tr("is not the number of cells ({count})").format(
                count=len(header)
            )
            raise InputError(place, len(cells), message)
        stripped = (cell.strip() for cell in cells)
        yield place, dict(zip(header, stripped, strict=True))


def read_cell(place: str, column: str, text: str) -> Any:
    """Give the value of a cell, or say what is wrong with it."""
    read, problem = _READS.get(column, _NUMBER)
    try:
        return read(text)
    except ValueError:
        said = tr(problem).format(words=", ".join(_WORDS.get(column, ())))
        raise InputError(f"{place}, {column}", text, said) from None


def faults(kind: Kind) -> Iterator[tuple[str, object, str]]:
    """Give each column that does not go with another one."""
    if (kind.rest is Rest.NONE) is bool(kind.rest_months):
        yield (
            "rest_months",
            kind.rest_months,
            tr("does not go with rest {rest}").format(rest=kind.rest),
        )
    if (kind.rest is Rest.LEAFLESS) is (kind.resume is None):
        yield (
            "resume",
            kind.resume,
            tr("does not go with rest {rest}").format(rest=kind.rest),
        )
    if (kind.resume is Resume.ROOT_LENGTH) is not (kind.resume_root_mm > 0):
        yield "resume_root_mm", kind.resume_root_mm, tr("does not go with resume")
    yield from _disorder(kind)
    if odd := set(kind.memory) - set(COLUMNS):
        yield "memory", ", ".join(sorted(odd)), tr("names no column")


def _disorder(kind: Kind) -> Iterator[tuple[str, object, str]]:
    """Give each number that does not lie where the others say it should."""
    if kind.light_low_fc > kind.light_high_fc:
        yield "light_low_fc", kind.light_low_fc, tr("is above light_high_fc")
    if not kind.base_c < kind.best_low_c <= kind.best_high_c < kind.stop_c:
        yield "base_c", kind.base_c, tr("is not in order with best and stop")
    if kind.least_feed_c >= kind.most_feed_c:
        yield "least_feed_c", kind.least_feed_c, tr("is not below most_feed_c")
    if kind.least_night_c >= kind.most_day_c:
        yield "least_night_c", kind.least_night_c, tr("is not below most_day_c")


def _kind(place: str, row: dict[str, str]) -> Kind:
    kind = Kind(**{name: read_cell(place, name, text) for name, text in row.items()})
    for column, value, problem in faults(kind):
        raise InputError(f"{place}, {column}", value, problem)
    return kind


def _add(names: dict[str, str], place: str, name: str, goal: str) -> None:
    """Note where a name leads, and refuse one that leads two ways."""
    if names.setdefault(_fold(name), goal) != goal:
        already = names[_fold(name)]
        raise InputError(
            place,
            name,
            tr("leads to {already} already, not to {goal}").format(
                already=already, goal=goal
            ),
        )


def _read_names(
    text: str, kinds: Mapping[str, Kind], by_genus: dict[str, str]
) -> dict[str, str]:
    """Read the table of names into ``by_genus`` and give the abbreviations.

    A name without a kind is a genus that is known by name alone.
    """
    abbreviations: dict[str, str] = {}
    for place, row in _rows(text, "genera.csv", _NAME_COLUMNS):
        for column in ("name", "source"):
            if not row[column]:
                raise InputError(f"{place}, {column}", "", tr("is missing"))
        if row["kind"] and row["kind"] not in kinds:
            raise InputError(f"{place}, kind", row["kind"], tr("is not a kind"))
        if row["kind"]:
            _add(
                by_genus,
                f"{place}, name",
                row["name"],
                row["kind"],
            )
        for short in _listed(row["abbreviations"]):
            place_of_short = f"{place}, abbreviations"
            _add(abbreviations, place_of_short, short.rstrip("."), _fold(row["name"]))
    return abbreviations


def _keyed(placed: Iterable[tuple[str, Kind]]) -> dict[str, Kind]:
    kinds: dict[str, Kind] = {}
    for place, kind in placed:
        if kind.key in kinds:
            raise InputError(f"{place}, key", kind.key, tr("is given twice"))
        kinds[kind.key] = kind
    if GENERAL_KEY not in kinds:
        raise InputError("kinds.csv, key", GENERAL_KEY, tr("is missing"))
    return kinds


def parse_table(text: str, names: str | None = None) -> KindTable:
    """Give the table from the text of ``kinds.csv`` and, if given, of ``genera.csv``.

    A bad cell is an ``InputError`` that names the row, the column and the value.
    """
    rows = _rows(text, "kinds.csv", COLUMNS)
    placed = [(place, _kind(place, row)) for place, row in rows]
    kinds = _keyed(placed)
    by_genus: dict[str, str] = {}
    for place, kind in placed:
        for genus in kind.genera:
            _add(by_genus, f"{place}, genera", genus, kind.key)
    abbreviations = {} if names is None else _read_names(names, kinds, by_genus)
    return KindTable(kinds, by_genus, abbreviations)
