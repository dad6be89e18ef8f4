"""Words for dated jobs: a title and whole sentences, made only here."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.day_words import day_text
from growdesk.domain.job_templates import TEMPLATES
from growdesk.domain.phrases import listed, number_word
from growdesk.domain.quantity_words import length_text, temperature_text
from growdesk.domain.speech import Phrases, tr
from growdesk.domain.wording import days_text, number_text

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from growdesk.domain.jobs.job import Job

MOST_TAGS = 6
_MEDIA = Phrases(
    {"semi-hydro": "semi-hydro", "soil": "soil mix", "mineral": "mineral medium"}
)
_MONTH_DAYS = 30.44


def said(job: Job) -> str:
    """Give the key of what is said of a job, which may change while it stands."""
    return str(job.values.get("said", job.key))


def title(job: Job) -> str:
    """Give a job in a few words."""
    return TEMPLATES[said(job)].title


def sentence(job: Job, on: date) -> str:
    """Give why a job is there and what settles it, as said on a day."""
    return TEMPLATES[said(job)].text.format_map(_Shown(job.values, on))


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
    return str(value).rstrip(".")


def _measure(name: str, value: float) -> str:
    if name.endswith("_mm"):
        return length_text(value)
    if name.endswith("_c"):
        return temperature_text(value)
    if name in {"days", "spread"}:
        return days_text(int(value))
    return number_text(value)


def _counted(value: float, one: str, many: str) -> str:
    return f"{number_text(value)} {one if value == 1 else many}"


def _count(values: Mapping[str, object], name: str) -> int:
    value = values.get(name)
    return value if isinstance(value, int) else 0


def _years(values: Mapping[str, object]) -> str:
    value = values.get("years")
    return _counted(value if isinstance(value, (int, float)) else 0, "year", "years")


def _weeks(values: Mapping[str, object]) -> str:
    value = values.get("weeks")
    return _counted(value if isinstance(value, (int, float)) else 0, "week", "weeks")


def _bloom_years(values: Mapping[str, object]) -> str:
    return f"{number_word(_count(values, 'years'))} years"


def _medium(values: Mapping[str, object]) -> str:
    medium = values.get("medium")
    return "medium" if medium is None else _MEDIA.get(str(medium), str(medium))


def _keikis(values: Mapping[str, object]) -> str:
    count = _count(values, "count")
    return (
        "a keiki"
        if count == 1
        else tr("{number_word} keikis").format(number_word=number_word(count))
    )


def _pods(values: Mapping[str, object]) -> str:
    count = _count(values, "count")
    return (
        "a pod"
        if count == 1
        else tr("{number_word} pods").format(number_word=number_word(count))
    )


def _ago(values: Mapping[str, object]) -> str:
    days = _count(values, "days")
    if days == 0:
        return tr("first today")
    if days < 2 * _MONTH_DAYS:
        return tr("first {days} ago").format(days=days_text(days))
    return tr("first {days} months ago").format(days=int(days / _MONTH_DAYS))


def _ripe(values: Mapping[str, object]) -> str:
    low, high = _count(values, "low_months"), _count(values, "high_months")
    return (
        tr("about {low} months").format(low=low)
        if low == high
        else tr("{low} to {high} months").format(low=low, high=high)
    )


def _tags(values: Mapping[str, object]) -> Sequence[str]:
    found = values.get("tags")
    return [str(tag) for tag in found] if isinstance(found, (tuple, list)) else []


def _plants(values: Mapping[str, object]) -> str:
    tags = _tags(values)
    grown = f"the {values.get('warmth')} grower{'' if len(tags) == 1 else 's'}"
    if len(tags) > MOST_TAGS:
        return tr("{grown}, {count} plants from {tags} to {tags_2}").format(
            grown=grown, count=len(tags), tags=tags[0], tags_2=tags[-1]
        )
    return f"{grown} {listed(tags)}"


def _named(values: Mapping[str, object]) -> str:
    tags = _tags(values)
    if len(tags) <= MOST_TAGS:
        return listed(tags)
    return tr("{list} and {count} more").format(
        list=", ".join(tags[:MOST_TAGS]), count=len(tags) - MOST_TAGS
    )


def _capital(values: Mapping[str, object], one: str, many: str) -> str:
    text = _plants(values)
    verb = one if len(_tags(values)) == 1 else many
    return f"{text[0].upper()}{text[1:]} {verb}"


_MADE: Mapping[str, Callable[[Mapping[str, object]], str]] = {
    "years": _years,
    "weeks": _weeks,
    "bloom_years": _bloom_years,
    "medium": _medium,
    "keikis": _keikis,
    "pods": _pods,
    "ago": _ago,
    "ripe": _ripe,
    "plants": _plants,
    "named": _named,
    "plants_may": lambda values: _capital(values, "may", "may"),
    "plants_stand": lambda values: _capital(values, "stands", "stand"),
    "plants_stood": lambda values: _capital(values, "stood", "stood"),
}
