"""Gives looks and care of a facts file as values, and refuses what cannot be meant.

What is missing or null stays *not recorded*; it is never read as absent.
"""

from __future__ import annotations

from growdesk.domain.errors import InputError
from growdesk.domain.facts import (
    Bulbs,
    Care,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Pot,
    RootTips,
)
from growdesk.domain.facts_fields import (
    Fields,
    Range,
    Shown,
    dated,
    read_day,
    read_word,
    words_joined,
)
from growdesk.domain.speech import tr

LOOK_FIELDS = (
    "on",
    "new_growths",
    "root_tips",
    "longest_new_root_mm",
    "lead_length_mm",
    "new_leaf",
    "flowering",
    "leaves",
    "bulbs",
    "pot",
    "health",
    "runoff_ec_ms_per_cm",
    "keikis",
    "keiki_root_mm",
    "pods",
    "spike_mm",
)
CARE_FIELDS = ("on", "what", "strength_ppm_n", "ec_ms_per_cm", "volume_l", "rain_mm")
STAGES = ("emerging", "extending", "maturing", "matured", "stalled")

ROOT_MM = Range(0, 3000)
LEAD_MM = Range(0, 5000)
COUNT = Range(0, 500)
EC_MS_PER_CM = Range(0, 20)
GIVEN_PPM_N = Range(0, 5000)
GIVEN_L = Range(0, 2000)
SPIKE_MM = Range(0, 5000)
RAIN_MM = Range(0, 2000)


def read_look(plant: str, place_in_list: int, value: object) -> Look:
    """Give one look of a plant; ``plant`` is what errors call the plant."""
    where = dated(plant, tr("look", "entry"), place_in_list, value)
    fields = Fields.of(where, value, tr("a look"), LOOK_FIELDS)
    on = read_day(
        fields.at("on"), fields.require("on", tr("Give the day of the look."))
    )
    return Look(
        on=on,
        new_growths=_new_growths(fields),
        root_tips=fields.word("root_tips", RootTips),
        longest_new_root_mm=fields.number("longest_new_root_mm", ROOT_MM),
        lead_length_mm=fields.number("lead_length_mm", LEAD_MM),
        new_leaf=fields.word("new_leaf", NewLeaf),
        flowering=_flowering(fields),
        leaves=fields.word("leaves", Leaves),
        bulbs=fields.word("bulbs", Bulbs),
        pot=fields.word("pot", Pot),
        health=fields.words("health", Health),
        runoff_ec_ms_per_cm=fields.number("runoff_ec_ms_per_cm", EC_MS_PER_CM),
        keikis=fields.whole("keikis", COUNT),
        keiki_root_mm=fields.number("keiki_root_mm", ROOT_MM),
        pods=fields.whole("pods", COUNT),
        spike_mm=fields.number("spike_mm", SPIKE_MM),
    )


def read_care(plant: str, place_in_list: int, value: object) -> Care:
    """Give one piece of care of a plant."""
    where = dated(plant, tr("care", "entry"), place_in_list, value)
    fields = Fields.of(where, value, tr("care"), CARE_FIELDS)
    on = read_day(
        fields.at("on"), fields.require("on", tr("Give the day it was done."))
    )
    words = words_joined([what.value for what in CareKind])
    what = fields.require("what", tr("Say what was done: {words}.").format(words=words))
    return Care(
        on=on,
        what=read_word(fields.at("what"), what, CareKind, needed=True),
        strength_ppm_n=fields.number("strength_ppm_n", GIVEN_PPM_N),
        ec_ms_per_cm=fields.number("ec_ms_per_cm", EC_MS_PER_CM),
        volume_l=fields.number("volume_l", GIVEN_L),
        rain_mm=fields.number("rain_mm", RAIN_MM),
    )


def _new_growths(fields: Fields) -> NewGrowths | None:
    if not fields.given("new_growths"):
        return None
    where = fields.at("new_growths")
    counts = Fields.of(where, fields.items["new_growths"], "new_growths", STAGES)
    return NewGrowths(
        emerging=counts.whole("emerging", COUNT),
        extending=counts.whole("extending", COUNT),
        maturing=counts.whole("maturing", COUNT),
        matured=counts.whole("matured", COUNT),
        stalled=counts.whole("stalled", COUNT),
    )


def _flowering(fields: Fields) -> frozenset[Flowering] | None:
    value = fields.items.get("flowering")
    if value is None:
        return None
    if not isinstance(value, list):
        return frozenset({read_word(fields.at("flowering"), value, Flowering)})
    stages = frozenset(
        read_word(fields.at("flowering"), entry, Flowering) for entry in value
    )
    if Flowering.NONE in stages and len(stages) > 1:
        raise InputError(
            fields.at("flowering"),
            Shown(", ".join(sorted(stages))),
            tr("says two things at once"),
            tr("Leave out none where there is a flowering stage."),
        )
    return stages
