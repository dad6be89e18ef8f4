"""Words for dated jobs: a title and whole sentences, made only here."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.day_words import day_text
from growdesk.domain.job_templates import TEMPLATES
from growdesk.domain.phrases import listed, number_word
from growdesk.domain.quantity_words import length_text, temperature_text
from growdesk.domain.speech import Phrases, tr, trn
from growdesk.domain.wording import days_text, number_text

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from growdesk.domain.jobs.job import Job

MOST_TAGS = 6
_MEDIA = Phrases(
    {
        "": "medium",
        "bark": "bark",
        "sphagnum": "sphagnum",
        "mineral": "mineral medium",
        "semi-hydro": "semi-hydro",
        "soil": "soil mix",
    },
    "due for a repot",
)
_WARMTHS = Phrases(
    {"cool": "cool", "intermediate": "intermediate", "warm": "warm"}, "grower"
)
_ONE = Phrases(
    {
        "plants": "the {warmth} grower {tags}",
        "plants_may": "The {warmth} grower {tags} may",
        "plants_stand": "The {warmth} grower {tags} stands",
        "plants_stood": "The {warmth} grower {tags} stood",
    }
)
_SOME = Phrases(
    {
        "plants": "the {warmth} growers {tags}",
        "plants_may": "The {warmth} growers {tags} may",
        "plants_stand": "The {warmth} growers {tags} stand",
        "plants_stood": "The {warmth} growers {tags} stood",
    }
)
_MANY = Phrases(
    {
        "plants": "the {warmth} growers, {count} plants from {first} to {last}",
        "plants_may": "The {warmth} growers, {count} plants from {first} to {last} may",
        "plants_stand": "The {warmth} growers, {count} plants from {first} to {last} "
        "stand",
        "plants_stood": "The {warmth} growers, {count} plants from {first} to {last} "
        "stood",
    }
)
_MONTH_DAYS = 30.44


def said(job: Job) -> str:
    """Give the key of what is said of a job, which may change while it stands."""
    return str(job.values.get("said", job.key))


def title(job: Job) -> str:
    """Give a job in a few words."""
    return tr(TEMPLATES[said(job)].title)


def sentence(job: Job, on: date) -> str:
    """Give why a job is there and what settles it, as said on a day."""
    return tr(TEMPLATES[said(job)].text).format_map(_Shown(job.values, on))


class _Shown(dict[str, str]):
    """Gives each value as text, only where a sentence asks for it."""

    def __init__(self, values: Mapping[str, object], on: date) -> None:
        super().__init__()
        self._values = values
        self._on = on

    def __missing__(self, name: str) -> str:
        if name in _MADE:
            return _MADE[name](self._values)
        return _text(name, self._values.get(name), self._on)


def _text(name: str, value: object, on: date) -> str:
    if isinstance(value, date):
        return day_text(value, on)
    if isinstance(value, (int, float)):
        return _measure(name, value)
    if value is None:
        return tr("a day not recorded")
    text = str(value)
    return (tr(text) if name == "moment" else text).rstrip(".")


def _measure(name: str, value: float) -> str:
    if name.endswith("_mm"):
        return length_text(value)
    if name.endswith("_c"):
        return temperature_text(value)
    if name in {"days", "spread"}:
        return days_text(int(value))
    return number_text(value)


def _count(values: Mapping[str, object], name: str) -> int:
    value = values.get(name)
    return value if isinstance(value, int) else 0


def _years(values: Mapping[str, object]) -> str:
    value = values.get("years")
    years = value if isinstance(value, (int, float)) else 0
    return trn("{years} year", "{years} years", years).format(years=number_text(years))


def _weeks(values: Mapping[str, object]) -> str:
    value = values.get("weeks")
    weeks = value if isinstance(value, (int, float)) else 0
    return trn("{weeks} week", "{weeks} weeks", weeks).format(weeks=number_text(weeks))


def _bloom_years(values: Mapping[str, object]) -> str:
    years = _count(values, "years")
    said = trn("{number_word} year", "{number_word} years", years)
    return said.format(number_word=number_word(years))


def _medium(values: Mapping[str, object]) -> str:
    return _MEDIA[str(values.get("medium") or "")]


def _keikis(values: Mapping[str, object]) -> str:
    count = _count(values, "count")
    said = trn("a keiki", "{number_word} keikis", count)
    return said.format(number_word=number_word(count))


def _pods(values: Mapping[str, object]) -> str:
    count = _count(values, "count")
    said = trn("a pod", "{number_word} pods", count)
    return said.format(number_word=number_word(count))


def _ago(values: Mapping[str, object]) -> str:
    days = _count(values, "days")
    if days == 0:
        return tr("first today")
    if days < 2 * _MONTH_DAYS:
        return trn("first {days} day ago", "first {days} days ago", days).format(
            days=days
        )
    months = int(days / _MONTH_DAYS)
    return trn("first {months} month ago", "first {months} months ago", months).format(
        months=months
    )


def _ripe(values: Mapping[str, object]) -> str:
    low, high = _count(values, "low_months"), _count(values, "high_months")
    if low == high:
        return trn("about {low} month", "about {low} months", low).format(low=low)
    return tr("{low} to {high} months").format(low=low, high=high)


def _tags(values: Mapping[str, object]) -> Sequence[str]:
    found = values.get("tags")
    return [str(tag) for tag in found] if isinstance(found, (tuple, list)) else []


def _plants(values: Mapping[str, object], said: str) -> str:
    tags = _tags(values)
    warmth = _WARMTHS[str(values.get("warmth"))]
    if len(tags) > MOST_TAGS:
        return _MANY[said].format(
            warmth=warmth, count=len(tags), first=tags[0], last=tags[-1]
        )
    some = _ONE if len(tags) == 1 else _SOME
    return some[said].format(warmth=warmth, tags=listed(tags))


def _named(values: Mapping[str, object]) -> str:
    tags = _tags(values)
    if len(tags) <= MOST_TAGS:
        return listed(tags)
    return tr("{list} and {count} more").format(
        list=", ".join(tags[:MOST_TAGS]), count=len(tags) - MOST_TAGS
    )


_MADE: Mapping[str, Callable[[Mapping[str, object]], str]] = {
    "years": _years,
    "weeks": _weeks,
    "bloom_years": _bloom_years,
    "medium": _medium,
    "keikis": _keikis,
    "pods": _pods,
    "ago": _ago,
    "ripe": _ripe,
    "named": _named,
    "plants": lambda values: _plants(values, "plants"),
    "plants_may": lambda values: _plants(values, "plants_may"),
    "plants_stand": lambda values: _plants(values, "plants_stand"),
    "plants_stood": lambda values: _plants(values, "plants_stood"),
}
