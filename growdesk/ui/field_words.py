"""Give a refusal in one plain line, its field called as people call it.

An ``InputError`` carries the field's key in the code; on the screen that key is a word
of the grower's, and a day reads as a day. Unknown keys lose their underscores.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Mapping

BUG_LINE = mark(
    "Something went wrong inside growdesk; it is written to the log. "
    "What was saved before is safe."
)
_FIELDS: Mapping[str, str] = Phrases(
    {
        "on": "Day",
        "plant": "Plant",
        "plant_id": "Plant",
        "plants": "Plants",
        "place": "Place",
        "place_id": "Place",
        "bench_id": "Bench",
        "parent_id": "Taken from",
        "parent_how": "As what",
        "held_as": "Together",
        "left_on": "Day it left",
        "left_why": "Why it left",
        "look": "Look",
        "look_id": "Look",
        "photo": "Photo",
        "photo_id": "Photo",
        "tin_id": "Tin",
        "water_id": "Water",
        "strength_ppm_n": "Strength",
        "mean_c": "Mean",
        "low_c": "Lowest",
        "high_c": "Highest",
        "FILE": "File",
        "day_order": "Dates",
        "light_mol_per_m2_d": "Light",
        "humidity_percent": "Humidity",
        "ec_ms_per_cm": "EC",
        "so4_mg_per_l": "SO4",
        "no3_mg_per_l": "NO3",
        "capacity_l": "Barrel or can",
        "first_id": "First water",
        "second_id": "Second water",
        "aim_value": "Wanted",
        "formula": "Single salt",
        "pack_amount": "Pack",
        "ec_per_100_ppm_n_ms_per_cm": "EC at 100 ppm N",
    }
)
_UNITS = ("_ppm_n", "_mm", "_mg_per_l", "_ms_per_cm", "_l", "_c", "_g_per_ml")
_BARE = frozenset({"on", "plants", "plant", "place", "look", "photo"})
"""Fields whose value is a name of ours, not something that was typed."""


def plain_line(error: Exception) -> str:
    """Give the one line a person reads of an error."""
    if not isinstance(error, GrowdeskError):
        return tr(BUG_LINE)
    if not isinstance(error, InputError):
        return error.line()
    said = f"{field(error.field)}: {_value(error)} {error.problem}."
    return " ".join(f"{said} {_with_days(error.hint)}".split())


def field(key: str) -> str:
    """Give a field's key as people call it."""
    known = _FIELDS.get(key)
    if known is not None:
        return known
    for unit in _UNITS:
        key = key.removesuffix(unit)
    said = key.replace("_", " ")
    return said[:1].upper() + said[1:]


def _value(error: InputError) -> str:
    if isinstance(error.value, date):
        return words.short_day(error.value)
    if not isinstance(error.value, str):
        return str(error.value)
    day = _day(error.value)
    if day is not None:
        return words.short_day(day)
    return error.value if error.field in _BARE else f"“{error.value}”"


def _with_days(hint: str) -> str:
    """Give a hint with days of the form 2026-11-25 as the screen writes them."""
    return " ".join(_readable(word) for word in hint.split())


def _readable(word: str) -> str:
    bare = word.rstrip(".,;")
    day = _day(bare)
    return word if day is None else words.short_day(day) + word[len(bare) :]


def _day(text: str) -> date | None:
    if len(text) != 10:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
