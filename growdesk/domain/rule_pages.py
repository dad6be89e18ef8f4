"""What can be read of a rule: a page of plain text with the numbers of the house.

Pages stand beside their rules as data; limits in them are named fields. A field is a
house rule by its name in ``House``, or a day or month of the year as it falls in the
house's hemisphere.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from string import Formatter
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import seasons
from growdesk.domain.day_words import MONTHS, month_day_text
from growdesk.domain.facts import House
from growdesk.domain.quantity_words import length_text, small_text
from growdesk.domain.speech import mark, tr, trn
from growdesk.domain.wording import days_text, number_text

if TYPE_CHECKING:
    from collections.abc import Iterator

SPELT = ("asks", "why", "silent", "example", "source")
HOUSE_RULES = tuple(
    rule for rule in House.__struct_fields__ if rule != "watering_weekdays"
)
UNITS = (
    ("_ms_per_cm", mark("{number} mS/cm")),
    ("_ppm_n", mark("{number} ppm N")),
    ("_ratio", mark("{number} times")),
    ("_raise", mark("{number} times")),
    ("_mj_per_m2_d", mark("{number} MJ/m² a day")),
    ("_fc", mark("{number} foot-candles")),
    ("_deg", mark("{number}°")),
)
PARTS = ("band_low", "band_high", "performance_least")
FLAGS = {
    "spike_draws_feed_always": (
        mark("the kinds known to draw on it"),
        mark("every kind"),
    ),
    "flush_by_estimate": (mark("is told and does not decide"), mark("decides too")),
}
"""What a switch says in a page, off and on."""


class RulePage(Struct, frozen=True):
    """One rule in words: what it asks, why, when it is silent, an example, a source."""

    rule: str
    title: str
    asks: str
    why: str
    silent: str
    example: str
    source: str

    def texts(self) -> tuple[str, ...]:
        """Give the five parts in their order."""
        return tuple(getattr(self, part) for part in SPELT)

    def house_rules(self) -> tuple[str, ...]:
        """Give the names of the house rules that the page speaks of, each once."""
        named = (name for text in self.texts() for name in _named(text))
        return tuple(dict.fromkeys(name for name in named if name in HOUSE_RULES))

    def filled(self, house: House) -> RulePage:
        """Give the page with the numbers of a house in it."""
        known = house_numbers(house)
        spelt = {part: tr(getattr(self, part)).format_map(known) for part in SPELT}
        return replace(self, title=tr(self.title), **spelt)


Pages = Mapping[Callable[..., object], RulePage]
"""The pages of a module by the gate that each tells of."""


def house_numbers(house: House) -> dict[str, str]:
    """Give the house rules with their units, and the days and months of the year."""
    found = {
        name: _house_text(name, getattr(house, name), house) for name in HOUSE_RULES
    }
    for number, month in enumerate(MONTHS.texts, start=1):
        turned, _ = seasons.turned((number, 1), house.latitude)
        found[month.lower()] = MONTHS[turned - 1]
    found["midsummer"] = day_of_year(seasons.midsummer(house.latitude))
    found["spring_equinox"] = day_of_year(seasons.spring_equinox(house.latitude))
    return found


def day_of_year(month_day: tuple[int, int]) -> str:
    """Give a day of the year in words."""
    return month_day_text(*month_day)


def _named(text: str) -> Iterator[str]:
    for _, name, _, _ in Formatter().parse(text):
        if name:
            yield name


def _house_text(name: str, value: object, house: House) -> str:
    if name == "latitude":
        is_north = seasons.northern(house.latitude)
        side = tr("{degrees}° north") if is_north else tr("{degrees}° south")
        return side.format(degrees=number_text(abs(house.latitude)))
    if value is None:
        return tr("the length that its kind asks (8 cm for catasetums)")
    if isinstance(value, bool):
        return tr(FLAGS[name][value])
    if isinstance(value, tuple):
        month, day = value
        return day_of_year(seasons.turned((month, day), house.latitude))
    return _text(name, value)


def _text(name: str, value: object) -> str:
    """Give a number with the unit that its name tells."""
    if not isinstance(value, (int, float)):
        return str(value)
    if name.endswith("_days"):
        return days_text(int(value))
    if name.endswith("_mm"):
        is_rain = name.startswith("rain_")
        return small_text(value, 2) if is_rain else length_text(value)
    if name.startswith("feeds_"):
        said = trn("{number} feed", "{number} feeds", value)
        return said.format(number=number_text(value))
    if name in PARTS or name.endswith(("_share", "_share_winter")):
        return f"{number_text(value * 100)} %"
    said = next((unit for ending, unit in UNITS if name.endswith(ending)), "{number}")
    return tr(said).format(number=number_text(value, 2))
