"""Rows of the collection as domain facts, and facts as the values of a row.

Only forms change here, nothing is judged. A word in the file that no enumeration knows
is damage, and is said so.
"""

from __future__ import annotations

from enum import StrEnum
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, TypeVar

from growdesk.domain.errors import DamagedError
from growdesk.domain.facts import (
    Bulbs,
    Care,
    CareKind,
    Facing,
    Flowering,
    Glass,
    Health,
    Lamps,
    Leaves,
    Look,
    Medium,
    NewGrowths,
    NewLeaf,
    Overrule,
    Place,
    Plant,
    Pot,
    Reading,
    RootTips,
    Size,
    Verdict,
    Water,
)
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

Word = TypeVar("Word", bound=StrEnum)
Made = TypeVar("Made")
Values = dict[str, Any]

STAGES = ("emerging", "extending", "maturing", "matured", "stalled")
WORDS: dict[str, type[StrEnum]] = {
    "medium": Medium,
    "size": Size,
    "overrule_verdict": Verdict,
    "overrule_water": Water,
    "root_tips": RootTips,
    "new_leaf": NewLeaf,
    "leaves": Leaves,
    "bulbs": Bulbs,
    "pot": Pot,
    "what": CareKind,
    "facing": Facing,
    "glass": Glass,
    "better": Verdict,
    "status": Status,
    "held_as": HeldAs,
    "parent_how": Descent,
}
"""The columns that hold one word, whatever their table."""
WORD_SETS: dict[str, type[StrEnum]] = {"flowering": Flowering, "health": Health}
"""The columns that hold words joined by commas."""
_WORDED = {**WORDS, **WORD_SETS}


class UnknownWordError(DamagedError):
    """A row holds a word that no enumeration knows."""

    reference = "store-unknown-word"


@cache
def _members(words: type[StrEnum]) -> dict[str, Any]:
    """Give an enumeration's members by their text, for tens of thousands of rows."""
    return {member.value: member for member in words}


def word(words: type[Word], text: str) -> Word:
    """Give the word of an enumeration that a row holds."""
    found: Word | None = _members(words).get(text)
    if found is None:
        raise UnknownWordError(
            tr("The collection holds {text!r} where one of {list} belongs.").format(
                text=text, list=", ".join(words)
            ),
            tr("Bring back a backup with: growdesk restore FILE."),
        )
    return found


def wrong_words(row: Any) -> list[tuple[str, str, type[StrEnum]]]:
    """Give the columns of a row whose words are not known: name, text, the known."""
    found = []
    for field, words in _WORDED.items():
        text = getattr(row, field, None)
        if text is None or (field in WORD_SETS and not text):
            continue
        parts = text.split(",") if field in WORD_SETS else [text]
        if any(part not in _members(words) for part in parts):
            found.append((field, text, words))
    return found


def called(row: Any) -> str:
    """Give what a person calls a row: a plant by its tag, what is dated by its day."""
    tag = getattr(row, "tag", None)
    if tag is not None:
        return tr("plant {tag}").format(tag=tag)
    day = getattr(row, "day", None)
    if day is None:
        return tr("row {number}").format(number=row.id)
    return tr("the entry of {day}").format(day=day.isoformat())


def _naming(read: Callable[[Any], Made]) -> Callable[[Any], Made]:
    """Let an unknown word be told with the plant or day and the field it stands in."""

    def reading(row: Any) -> Made:
        try:
            return read(row)
        except UnknownWordError as error:
            field, text, words = wrong_words(row)[0]
            message = tr(
                "The collection holds {text!r} in {field} of {row}, where one of {list}"
                " belongs."
            ).format(text=text, field=field, row=called(row), list=", ".join(words))
            raise DamagedError(message, error.hint) from None

    reading.__doc__ = read.__doc__
    return reading


def _word(words: type[Word], text: str | None) -> Word | None:
    return None if text is None else word(words, text)


def _words(words: type[Word], text: str | None) -> frozenset[Word] | None:
    """Give a set; an empty text is an empty set, none is not recorded."""
    return None if text is None else _set(words, text)


@lru_cache(maxsize=1024)
def _set(words: type[StrEnum], text: str) -> frozenset[Any]:
    return frozenset(word(words, part) for part in text.split(",") if part)


@lru_cache(maxsize=1024)
def _growths(*counts: int | None) -> NewGrowths | None:
    """Give the counts in the order of the stages, or nothing where none is recorded."""
    found = NewGrowths(*counts)
    return None if found == NewGrowths() else found


def _text(words: Iterable[StrEnum] | None) -> str | None:
    return None if words is None else ",".join(sorted(words))


@_naming
def look_of(row: Any) -> Look:
    """Give the look a row holds, its note apart."""
    return Look(
        on=row.day,
        new_growths=_growths(
            row.emerging, row.extending, row.maturing, row.matured, row.stalled
        ),
        root_tips=_word(RootTips, row.root_tips),
        longest_new_root_mm=row.longest_new_root_mm,
        lead_length_mm=row.lead_length_mm,
        new_leaf=_word(NewLeaf, row.new_leaf),
        flowering=_words(Flowering, row.flowering),
        leaves=_word(Leaves, row.leaves),
        bulbs=_word(Bulbs, row.bulbs),
        pot=_word(Pot, row.pot),
        health=_words(Health, row.health),
        runoff_ec_ms_per_cm=row.runoff_ec_ms_per_cm,
        keikis=row.keikis,
        keiki_root_mm=row.keiki_root_mm,
        pods=row.pods,
        spike_mm=row.spike_mm,
    )


def look_values(look: Look, note: str) -> Values:
    """Give the values of a look's row, its plant apart."""
    counts = look.new_growths or NewGrowths()
    return {
        "day": look.on,
        **{stage: getattr(counts, stage) for stage in STAGES},
        "root_tips": look.root_tips,
        "longest_new_root_mm": look.longest_new_root_mm,
        "lead_length_mm": look.lead_length_mm,
        "new_leaf": look.new_leaf,
        "flowering": _text(look.flowering),
        "leaves": look.leaves,
        "bulbs": look.bulbs,
        "pot": look.pot,
        "health": _text(look.health),
        "runoff_ec_ms_per_cm": look.runoff_ec_ms_per_cm,
        "keikis": look.keikis,
        "keiki_root_mm": look.keiki_root_mm,
        "pods": look.pods,
        "spike_mm": look.spike_mm,
        "note": note,
    }


@_naming
def care_of(row: Any) -> Care:
    """Give the care a row holds; its note stays in the row."""
    return Care(
        on=row.day,
        what=word(CareKind, row.what),
        strength_ppm_n=row.strength_ppm_n,
        ec_ms_per_cm=row.ec_ms_per_cm,
        volume_l=row.volume_l,
        rain_mm=row.rain_mm,
    )


def reading_of(row: Any) -> Reading:
    """Give one day's readings."""
    return Reading(
        on=row.day,
        mean_c=row.mean_c,
        low_c=row.low_c,
        high_c=row.high_c,
        light_mol_per_m2_d=row.light_mol_per_m2_d,
        humidity_percent=row.humidity_percent,
    )


def place_of(row: Any, readings: Sequence[Reading]) -> Place:
    """Give a place with its readings."""
    lamps = None
    if row.lamps_hours is not None and row.lamps_ppfd is not None:
        lamps = Lamps(hours=row.lamps_hours, ppfd=row.lamps_ppfd)
    return Place(
        name=row.name,
        kind=row.kind,
        controlled=row.controlled,
        outdoors=row.outdoors,
        lamps=lamps,
        facing=facing_of(row),
        glass=glass_of(row),
        shaded=row.shaded,
        readings=tuple(readings),
    )


@_naming
def overrule_of(row: Any) -> Overrule | None:
    """Give the grower's own word for a plant, if there is one."""
    if row.overrule_verdict is None or row.overrule_until is None:
        return None
    return Overrule(
        verdict=word(Verdict, row.overrule_verdict),
        reason=row.overrule_reason or "",
        until=row.overrule_until,
        water=_word(Water, row.overrule_water),
        since=row.overrule_since,
    )


def overrule_values(overrule: Overrule | None) -> Values:
    """Give the columns of a plant's row that hold the grower's own word."""
    return {
        "overrule_verdict": overrule.verdict if overrule else None,
        "overrule_reason": overrule.reason if overrule else None,
        "overrule_until": overrule.until if overrule else None,
        "overrule_water": overrule.water if overrule else None,
        "overrule_since": overrule.since if overrule else None,
    }


@_naming
def facing_of(row: Any) -> Facing | None:
    """Give the way a place looks out."""
    return _word(Facing, row.facing)


@_naming
def glass_of(row: Any) -> Glass | None:
    """Give what a place's light comes through."""
    return _word(Glass, row.glass)


@_naming
def medium_of(row: Any) -> Medium | None:
    """Give what the plant is potted in."""
    return _word(Medium, row.medium)


@_naming
def size_of(row: Any) -> Size | None:
    """Give how far the plant is from flowering."""
    return _word(Size, row.size)


@_naming
def status_of(row: Any) -> Status:
    """Give whether a plant is still in the collection."""
    return word(Status, row.status)


@_naming
def held_as_of(row: Any) -> HeldAs | None:
    """Give how several plants share one tag."""
    return _word(HeldAs, row.held_as)


@_naming
def descent_of(row: Any) -> Descent | None:
    """Give how a plant came from another one."""
    return _word(Descent, row.parent_how)


def plant_of(
    row: Any, place: Place, looks: Sequence[Look], care: Sequence[Care]
) -> Plant:
    """Give a plant with all that is known of it."""
    return Plant(
        tag=row.tag,
        name=row.name,
        kind=row.kind,
        hybrid=row.hybrid,
        place=place,
        pot_volume_l=row.pot_volume_l,
        volume_l=row.volume_l,
        medium=medium_of(row),
        mounted=row.mounted,
        size=size_of(row),
        under_cover=row.under_cover,
        repotted_on=row.repotted_on,
        slow_release_until=row.slow_release_until,
        full_strength_ppm_n=row.full_strength_ppm_n,
        feed_ceiling_ppm_n=row.feed_ceiling_ppm_n,
        feed_interval_days=row.feed_interval_days,
        ignores_rest=row.ignores_rest,
        overrule=overrule_of(row),
        quarantine_until=row.quarantine_until,
        looks=tuple(looks),
        care=tuple(care),
    )
