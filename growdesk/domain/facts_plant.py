"""Gives the plants of a facts file with their places, and refuses what cannot be meant.

A slip is told with the plant's tag, or with its place in the list where the tag is
what is wrong. It does not know the kinds: an unknown kind is judged as a general one.
"""

from __future__ import annotations

from growdesk.domain.errors import InputError
from growdesk.domain.facts import (
    Facing,
    Glass,
    Lamps,
    Medium,
    Overrule,
    Place,
    Plant,
    Reading,
    Size,
    Verdict,
    Water,
)
from growdesk.domain.facts_fields import (
    Fields,
    Range,
    Shown,
    dated,
    read_day,
    read_number,
    read_text,
    read_word,
)
from growdesk.domain.facts_kinds import KindFields, read_kind_fields
from growdesk.domain.facts_look import read_care, read_look
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import tr

PLANT_FIELDS = (
    "tag",
    "name",
    "kind",
    "hybrid",
    "place",
    "pot_volume_l",
    "volume_l",
    "medium",
    "mounted",
    "size",
    "under_cover",
    "repotted_on",
    "slow_release_until",
    "full_strength_ppm_n",
    "feed_ceiling_ppm_n",
    "feed_interval_days",
    "ignores_rest",
    "overrule",
    "quarantine_until",
    "kind_fields",
    "looks",
    "care",
)
PLACE_FIELDS = (
    "name",
    "kind",
    "controlled",
    "outdoors",
    "mean_temperature_c",
    "lamps",
    "facing",
    "glass",
    "shaded",
    "readings",
)
OVERRULE_FIELDS = ("verdict", "reason", "until", "water", "since")
READING_FIELDS = (
    "on",
    "mean_c",
    "low_c",
    "high_c",
    "light_mol_per_m2_d",
    "humidity_percent",
)
LAMPS_FIELDS = ("hours", "ppfd")

POT_L = Range(0, 500, above=True)
ROUND_L = Range(0, 100, above=True)
STRENGTH_PPM_N = Range(1, 1000)
INTERVAL_DAYS = Range(1, 365)
TEMPERATURE_C = Range(-30, 60)
LAMP_HOURS = Range(0, 24)
LAMP_PPFD = Range(0, 2500)
SHADED = Range(0, 0.95)
LIGHT_MOL_PER_M2_D = Range(0, 80)
HUMIDITY_PERCENT = Range(0, 100)
TAG_CHARACTERS = 40
NAME_CHARACTERS = 300


def read_plant(place_in_list: int, value: object) -> Plant:
    """Give one plant; ``place_in_list`` counts from 1."""
    plant = _called(place_in_list, value)
    fields = Fields.of(plant, value, tr("a plant"), PLANT_FIELDS)
    looks = enumerate(fields.entries("looks"), start=1)
    care = enumerate(fields.entries("care"), start=1)
    return Plant(
        tag=_tag(fields),
        name=fields.text("name", NAME_CHARACTERS),
        kind=fields.text("kind", NAME_CHARACTERS),
        hybrid=fields.flag("hybrid"),
        place=_place(fields),
        pot_volume_l=fields.number("pot_volume_l", POT_L),
        volume_l=fields.number("volume_l", ROUND_L),
        medium=fields.word("medium", Medium),
        mounted=fields.flag("mounted"),
        size=fields.word("size", Size),
        under_cover=fields.flag("under_cover"),
        repotted_on=fields.day("repotted_on"),
        slow_release_until=fields.day("slow_release_until"),
        full_strength_ppm_n=fields.number("full_strength_ppm_n", STRENGTH_PPM_N),
        feed_ceiling_ppm_n=fields.number("feed_ceiling_ppm_n", STRENGTH_PPM_N),
        feed_interval_days=fields.whole("feed_interval_days", INTERVAL_DAYS),
        ignores_rest=fields.flag("ignores_rest"),
        overrule=_overrule(fields),
        quarantine_until=fields.day("quarantine_until"),
        kind_fields=_kind_fields(fields),
        looks=tuple(read_look(plant, number, look) for number, look in looks),
        care=tuple(read_care(plant, number, done) for number, done in care),
    )


def _called(place_in_list: int, value: object) -> str:
    tag = value.get("tag") if isinstance(value, dict) else None
    if isinstance(tag, str) and tag.strip() and tag.isprintable():
        return tr("plant {tag}").format(tag=tag.strip()[:TAG_CHARACTERS])
    return tr("plant number {place_in_list}").format(place_in_list=place_in_list)


def _tag(fields: Fields) -> str:
    at = fields.at("tag")
    hint = tr("Give every plant the number on its label, in quotes.")
    tag = read_text(at, fields.require("tag", hint), TAG_CHARACTERS)
    if not tag or not tag.isprintable():
        raise InputError(at, Shown(fields.items["tag"]), tr("is no tag"), hint)
    return tag


def _place(fields: Fields) -> Place:
    if not fields.given("place"):
        return Place()
    place = Fields.of(
        fields.at("place"), fields.items["place"], tr("a place"), PLACE_FIELDS
    )
    readings = enumerate(place.entries("readings"), start=1)
    return Place(
        name=place.text("name", NAME_CHARACTERS),
        kind=place.text("kind", NAME_CHARACTERS) or None,
        controlled=place.flag("controlled"),
        outdoors=place.flag("outdoors"),
        mean_temperature_c=place.number("mean_temperature_c", TEMPERATURE_C),
        lamps=_lamps(place),
        facing=place.word("facing", Facing),
        glass=place.word("glass", Glass),
        shaded=place.number("shaded", SHADED),
        readings=tuple(_reading(place.where, at, value) for at, value in readings),
    )


def _lamps(place: Fields) -> Lamps | None:
    if not place.given("lamps"):
        return None
    lamps = Fields.of(
        place.at("lamps"), place.items["lamps"], tr("lamps"), LAMPS_FIELDS
    )
    hours = lamps.require("hours", tr("Say how many hours a day the lamps are on."))
    ppfd = lamps.require("ppfd", tr("Give the PPFD at the leaf in µmol m-2 s-1."))
    return Lamps(
        hours=read_number(lamps.at("hours"), hours, LAMP_HOURS),
        ppfd=read_number(lamps.at("ppfd"), ppfd, LAMP_PPFD),
    )


def _reading(place: str, place_in_list: int, value: object) -> Reading:
    where = dated(place, tr("reading"), place_in_list, value)
    fields = Fields.of(where, value, tr("a reading"), READING_FIELDS)
    on = read_day(
        fields.at("on"), fields.require("on", tr("Give the day it was read."))
    )
    reading = Reading(
        on=on,
        mean_c=fields.number("mean_c", TEMPERATURE_C),
        low_c=fields.number("low_c", TEMPERATURE_C),
        high_c=fields.number("high_c", TEMPERATURE_C),
        light_mol_per_m2_d=fields.number("light_mol_per_m2_d", LIGHT_MOL_PER_M2_D),
        humidity_percent=fields.number("humidity_percent", HUMIDITY_PERCENT),
    )
    low_c, high_c = reading.low_c, reading.high_c
    if low_c is not None and high_c is not None and low_c > high_c:
        hint = tr("Give a low that is at most the high of {high}.").format(
            high=temperature_text(high_c)
        )
        raise InputError(fields.at("low_c"), low_c, tr("is above high_c"), hint)
    return reading


def _kind_fields(fields: Fields) -> KindFields:
    if not fields.given("kind_fields"):
        return ()
    return read_kind_fields(fields.at("kind_fields"), fields.items["kind_fields"])


def _overrule(fields: Fields) -> Overrule | None:
    if not fields.given("overrule"):
        return None
    own = Fields.of(
        fields.at("overrule"),
        fields.items["overrule"],
        tr("an overrule"),
        OVERRULE_FIELDS,
    )
    verdict = own.require("verdict", tr("Give the verdict that shall hold."))
    until = own.require("until", tr("Give the last day on which it holds."))
    reason = own.text("reason")
    if not reason:
        hint = tr("Say in a few words why, so that it is understood later.")
        raise InputError(
            own.at("reason"),
            Shown(own.items.get("reason")),
            tr("gives no reason"),
            hint,
        )
    return Overrule(
        verdict=read_word(own.at("verdict"), verdict, Verdict, needed=True),
        reason=reason,
        until=read_day(own.at("until"), until),
        water=own.word("water", Water),
        since=own.day("since"),
    )
