"""What each field of a kind is called, what it means and what it may hold.

Declared once: the window's browser, the command line, the facts file and the checks of
a correction all go by these. Only what the grower may correct stands here; a kind's
key, its names and its sources are not the grower's to change.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts_fields import Range
from growdesk.domain.kind_choices import (
    FEEDERS,
    HABITS,
    RESTS,
    RESUMES,
    WARMTHS,
    WHOSE,
    YES_NO,
)
from growdesk.domain.kinds import Rest, Resume
from growdesk.domain.speech import mark

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.kinds import Kind


class Sort(StrEnum):
    """What sort of value a field holds."""

    CHOICE = "choice"
    NUMBER = "number"
    WHOLE = "whole"
    YES_NO = "yes-no"
    MONTHS = "months"
    TEXT = "text"


class KindField(Struct, frozen=True):
    """One field of a kind. Fields of one ``bond`` are checked against one another.

    ``optional`` fields may be empty; ``empty`` says what that means. Its texts are
    declared in English; ``tr`` says them where they are shown.
    """

    name: str
    title: str
    group: str
    sort: Sort
    meaning: str = ""
    unit: str = ""
    allowed: Range | None = None
    choices: Mapping[str, str] | None = None
    optional: bool = False
    bond: str = ""
    empty: str = mark("none")


NAME, HABIT, FEED = mark("Name"), mark("Habit and rest"), mark("Water and feed")
LIGHT, GROWTH = mark("Light and warmth"), mark("Growth and flowering")
SALTS, REPOT, ADVICE = mark("Salts"), mark("Repotting"), mark("Advice")
GROUPS = (NAME, HABIT, FEED, LIGHT, GROWTH, SALTS, REPOT, ADVICE)

_DEGREES = Range(0, 60)
_RATE = Range(0, 500, above=True)
_WEEKS = Range(0.5, 104)


def _choice(name: str, title: str, choices: Mapping[str, str], text: str) -> KindField:
    return KindField(name, title, FEED, Sort.CHOICE, text, choices=choices)


def _degrees(name: str, title: str, text: str, bond: str) -> KindField:
    return KindField(name, title, LIGHT, Sort.NUMBER, text, "°C", _DEGREES, bond=bond)


def _light(name: str, title: str, text: str) -> KindField:
    allowed = Range(10, 12_000)
    return KindField(
        name,
        title,
        LIGHT,
        Sort.NUMBER,
        text,
        mark("foot-candles"),
        allowed,
        bond="light",
    )


def _rate(name: str, title: str) -> KindField:
    text = mark(
        "What measured growth is held against until a plant has its own best season."
    )
    return KindField(
        name,
        title,
        GROWTH,
        Sort.NUMBER,
        text,
        mark("mm a week"),
        _RATE,
        optional=True,
        empty=mark("not known"),
    )


def _weeks(name: str, title: str, text: str) -> KindField:
    return KindField(name, title, GROWTH, Sort.NUMBER, text, mark("weeks"), _WEEKS)


def _yes_no(name: str, title: str, group: str, text: str) -> KindField:
    return KindField(name, title, group, Sort.YES_NO, text, choices=YES_NO)


DECLARED: tuple[KindField, ...] = (
    KindField(
        "title",
        mark("Title"),
        NAME,
        Sort.TEXT,
        mark("What the kind is called in lists."),
    ),
    KindField(
        "habit",
        mark("Habit"),
        HABIT,
        Sort.CHOICE,
        mark("A monopodial shows its growth as a new leaf, the others as new growths."),
        choices=HABITS,
    ),
    KindField(
        "rest",
        mark("Rest"),
        HABIT,
        Sort.CHOICE,
        mark("How it slows in its season. Any rest but none has months."),
        choices=RESTS,
        bond="rest",
    ),
    KindField(
        "rest_months",
        mark("Rest months"),
        HABIT,
        Sort.MONTHS,
        mark("As in the north; south of the equator they hold half a year later."),
        optional=True,
        bond="rest",
    ),
    KindField(
        "resume",
        mark("Rest ends with"),
        HABIT,
        Sort.CHOICE,
        mark("Only a leafless rest has this."),
        choices=RESUMES,
        optional=True,
        bond="rest",
    ),
    KindField(
        "resume_root_mm",
        mark("Roots that end it"),
        HABIT,
        Sort.NUMBER,
        mark(
            "The length of new roots that brings the water back; 0 where none is asked."
        ),
        "mm",
        Range(0, 1000),
        bond="rest",
    ),
    _choice(
        "feeder",
        mark("Feeder"),
        FEEDERS,
        mark("How much of full strength it takes; the shares are house rules."),
    ),
    KindField(
        "ceiling_ppm_n",
        mark("Ceiling"),
        FEED,
        Sort.NUMBER,
        mark("It is never fed stronger than this."),
        "ppm N",
        Range(1, 1000),
        optional=True,
    ),
    KindField(
        "ceiling_is_ours",
        mark("Whose ceiling"),
        FEED,
        Sort.YES_NO,
        mark("Whether the ceiling was published or is a careful one of ours."),
        choices=WHOSE,
    ),
    KindField(
        "idle_interval_days",
        mark("Fed while idle every"),
        FEED,
        Sort.WHOLE,
        mark(
            "Only kinds that never rest; where it is empty the house's interval holds."
        ),
        mark("days"),
        Range(1, 365),
        optional=True,
        empty=mark("as the house has it"),
    ),
    _yes_no(
        "spike_draws_feed",
        mark("Spike draws feed"),
        FEED,
        mark("Whether a spike or buds on the way count as growth."),
    ),
    _light(
        "light_low_fc",
        mark("Light from"),
        mark("The least midday light it does well in."),
    ),
    _light(
        "light_high_fc",
        mark("Light to"),
        mark("The most midday light it does well in."),
    ),
    KindField(
        "warmth",
        mark("Warmth"),
        LIGHT,
        Sort.CHOICE,
        mark("What sort of grower it is; the figures below are what is judged by."),
        choices=WARMTHS,
    ),
    _degrees(
        "base_c",
        mark("Growth begins at"),
        mark("At this mean or less no feed."),
        "growth",
    ),
    _degrees(
        "best_low_c",
        mark("Best from"),
        mark("Full strength from this mean on."),
        "growth",
    ),
    _degrees(
        "best_high_c", mark("Best to"), mark("Full strength up to this mean."), "growth"
    ),
    _degrees(
        "stop_c",
        mark("Growth stops at"),
        mark("At this mean or more no feed."),
        "growth",
    ),
    _degrees(
        "least_feed_c",
        mark("Too cold to feed at"),
        mark("Fed only where the week's mean is above this."),
        "feed",
    ),
    _degrees(
        "most_feed_c",
        mark("Too hot to feed above"),
        mark("Not fed where the week's mean is above this."),
        "feed",
    ),
    _degrees(
        "least_night_c",
        mark("Coldest night"),
        mark("Below this tonight it is taken from the glass, or indoors."),
        "nights",
    ),
    _degrees(
        "most_day_c",
        mark("Hottest day"),
        mark("Above this tomorrow it is taken from the glass, or shaded."),
        "nights",
    ),
    _rate("lead_rate_mm_per_week", mark("Lead grows")),
    _rate("root_rate_mm_per_week", mark("Roots grow")),
    _weeks(
        "growth_weeks",
        mark("Growth takes"),
        mark("From a new growth showing to its maturing."),
    ),
    _weeks(
        "spike_weeks",
        mark("Spike takes"),
        mark("From a spike showing to its first flower."),
    ),
    _weeks(
        "flower_weeks",
        mark("In flower"),
        mark("From the first flower to the last faded."),
    ),
    _yes_no(
        "blooms_from_unripe",
        mark("Blooms from unripe growth"),
        GROWTH,
        mark("Then a spike does not mean that the growth is over."),
    ),
    _yes_no(
        "old_spikes_branch",
        mark("Old spikes branch"),
        GROWTH,
        mark("Then a green spike is left on."),
    ),
    KindField(
        "pot_ec_limit_ms_per_cm",
        mark("Most salts in the pot"),
        SALTS,
        Sort.NUMBER,
        mark("The most that the water in the pot may hold, at 25 °C."),
        "mS/cm",
        Range(0.05, 10),
    ),
    KindField(
        "repot_years",
        mark("Repotted every"),
        REPOT,
        Sort.NUMBER,
        "",
        mark("years"),
        Range(0, 20, above=True),
        optional=True,
        empty=mark("not known"),
    ),
    KindField(
        "repot_moment",
        mark("Best moment"),
        REPOT,
        Sort.TEXT,
        mark("When it takes it best."),
    ),
    KindField(
        "advice",
        mark("Worth knowing"),
        ADVICE,
        Sort.TEXT,
        mark("Shown with every plant of the kind; it decides nothing."),
        optional=True,
    ),
)
FIELDS: Mapping[str, KindField] = {each.name: each for each in DECLARED}
CORRECTABLE = tuple(FIELDS)


def together(name: str) -> tuple[str, ...]:
    """Give the fields that one is checked against, itself among them."""
    bond = FIELDS[name].bond
    if not bond:
        return (name,)
    return tuple(each.name for each in DECLARED if each.bond == bond)


def bears(kind: Kind, name: str) -> bool:
    """Tell whether a field means anything for a kind as the others stand."""
    if name == "ceiling_is_ours":
        own = {*kind.corrected, *kind.corrected_here}
        return kind.ceiling_ppm_n is not None and "ceiling_ppm_n" not in own
    return {
        "rest_months": kind.rest is not Rest.NONE,
        "resume": kind.rest is Rest.LEAFLESS,
        "resume_root_mm": kind.resume is Resume.ROOT_LENGTH,
        "idle_interval_days": kind.rest is Rest.NONE,
    }.get(name, True)
