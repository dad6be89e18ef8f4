"""Every line in which a facts file can be refused, as a person reads it."""

from __future__ import annotations

import math

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts_file import read_facts

Facts = dict[str, object]


def plant(**changes: object) -> Facts:
    return {"plants": [{"tag": "A1", **changes}]}


def place(**changes: object) -> Facts:
    return plant(place=changes)


def reading(**changes: object) -> Facts:
    return place(readings=[{"on": "2026-03-01", **changes}])


def look(**changes: object) -> Facts:
    return plant(looks=[{"on": "2026-01-20", **changes}])


def care(**changes: object) -> Facts:
    return plant(care=[{"on": "2026-01-10", "what": "feed", **changes}])


def overrule(**changes: object) -> Facts:
    given = {"verdict": "feed", "until": "2026-05-01", "reason": "so"}
    return plant(overrule={**given, **changes})


def house(**changes: object) -> Facts:
    return {"house": changes, "plants": []}


CASES: list[tuple[object, str]] = [
    (
        [],
        (
            "facts: a list is not a facts file. Write it in braces, as in the "
            "example of the README."
        ),
    ),
    (
        {},
        (
            "facts, plants: null cannot be left out. Give a list of plants, in "
            "square brackets."
        ),
    ),
    (
        {"plants": {}},
        (
            "facts, plants: an object is not a list. Write it in square "
            "brackets, also where there is only one."
        ),
    ),
    (
        {"plants": [], "version": 1},
        (
            "facts: 'version' is not a field of a facts file. Take it out, or "
            "use house, kinds or plants."
        ),
    ),
    (
        {"plants": [], "Plants": []},
        "facts: 'Plants' is not a field of a facts file. Did you mean plants?",
    ),
    (
        {"plants": ["A1"]},
        (
            'plant number 1: "A1" is not a plant. Write it in braces, as in the'
            " example of the README."
        ),
    ),
    (
        {"plants": [{"tag": "A1"}, 7]},
        (
            "plant number 2: 7 is not a plant. Write it in braces, as in the "
            "example of the README."
        ),
    ),
    (
        {"plants": [{}]},
        (
            "plant number 1, tag: null cannot be left out. Give every plant the"
            " number on its label, in quotes."
        ),
    ),
    (
        {"plants": [{"tag": 12}]},
        "plant number 1, tag: 12 is not a text. Write it in quotes.",
    ),
    (
        {"plants": [{"tag": "  "}]},
        (
            'plant number 1, tag: " " is no tag. Give every plant the number on'
            " its label, in quotes."
        ),
    ),
    (
        {"plants": [{"tag": "A" * 41}]},
        (
            "plant AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA, tag: "
            '"AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA" is too long. Give at '
            "most 40 characters."
        ),
    ),
    (
        {"plants": [{"tag": "A1"}, {"tag": " A1"}]},
        (
            'plant number 2, tag: "A1" is already the tag of another plant. '
            "Give every plant a tag of its own."
        ),
    ),
    (
        {"house": [], "plants": []},
        (
            "house: a list is not a house. Write it in braces, as in the "
            "example of the README."
        ),
    ),
    (
        house(lattitude=48),
        "house: 'lattitude' is not a field of a house. Did you mean latitude?",
    ),
    (
        house(latitude=91),
        "house, latitude: 91 cannot be meant. Give a number from -90 to 90.",
    ),
    (
        house(strength_step_ppm_n=0),
        (
            "house, strength_step_ppm_n: 0 cannot be meant. Give a number above"
            " 0 and at most 100."
        ),
    ),
    (
        house(jugs=2.5),
        ("house, jugs: 2.5 is not a whole number. Give a whole number from 1 to 26."),
    ),
    (
        house(jugs="two"),
        (
            'house, jugs: "two" is not a number. Write a plain number without '
            "quotes or a unit, or null."
        ),
    ),
    (
        house(watering_weekdays=[]),
        (
            "house, watering_weekdays: a list is not a list of weekdays. Give a"
            " list of weekdays, 0 for Monday to 6 for Sunday, at least one."
        ),
    ),
    (
        house(watering_weekdays=5),
        (
            "house, watering_weekdays: 5 is not a list of weekdays. Give a list"
            " of weekdays, 0 for Monday to 6 for Sunday, at least one."
        ),
    ),
    (
        house(watering_weekdays=[0, 7]),
        "house, watering_weekdays: 7 cannot be meant. Give a number from 0 to 6.",
    ),
    (
        house(no_nitrogen_from="02-30"),
        (
            'house, no_nitrogen_from: "02-30" is not a day of the year that '
            "exists. Write month-day in quotes, for example 09-15."
        ),
    ),
    (
        house(no_nitrogen_from="9-15"),
        (
            'house, no_nitrogen_from: "9-15" is not a day of the year. Write '
            "month-day in quotes, for example 09-15."
        ),
    ),
    (
        house(no_nitrogen_from=915),
        (
            "house, no_nitrogen_from: 915 is not a day of the year. Write "
            "month-day in quotes, for example 09-15."
        ),
    ),
    (
        house(spike_draws_feed_always=1),
        (
            "house, spike_draws_feed_always: 1 is neither true nor false. Write"
            " true or false without quotes."
        ),
    ),
    (
        plant(colour="pink"),
        (
            "plant A1: 'colour' is not a field of a plant. Take it out, or use "
            "tag, name, kind, hybrid, place, pot_volume_l, volume_l, medium, "
            "mounted, size, under_cover, repotted_on, slow_release_until, "
            "full_strength_ppm_n, feed_ceiling_ppm_n, feed_interval_days, "
            "ignores_rest, overrule, quarantine_until, kind_fields, looks or care."
        ),
    ),
    (plant(name=7), "plant A1, name: 7 is not a text. Write it in quotes."),
    (
        plant(name="a\x00b"),
        (
            'plant A1, name: "a\\u0000b" holds a control character. Take the '
            "invisible signs out."
        ),
    ),
    (
        plant(name="a\ud800"),
        (
            'plant A1, name: "a\ud800" holds a control character. Take the invisible'
            " signs out."
        ),
    ),
    (
        plant(name="a" * 301),
        (
            "plant A1, name: "
            '"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa… is '
            "too long. Give at most 300 characters."
        ),
    ),
    (
        plant(kind=["cattleya"]),
        "plant A1, kind: a list is not a text. Write it in quotes.",
    ),
    (
        plant(kind="a" * 301),
        (
            "plant A1, kind: "
            '"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa… is '
            "too long. Give at most 300 characters."
        ),
    ),
    (
        plant(hybrid="yes"),
        (
            'plant A1, hybrid: "yes" is neither true nor false. Write true or '
            "false without quotes."
        ),
    ),
    (
        plant(mounted=1),
        (
            "plant A1, mounted: 1 is neither true nor false. Write true or "
            "false without quotes."
        ),
    ),
    (
        plant(under_cover="no"),
        (
            'plant A1, under_cover: "no" is neither true nor false. Write true '
            "or false without quotes."
        ),
    ),
    (
        plant(ignores_rest=0),
        (
            "plant A1, ignores_rest: 0 is neither true nor false. Write true or"
            " false without quotes."
        ),
    ),
    (
        plant(pot_volume_l=0),
        (
            "plant A1, pot_volume_l: 0 cannot be meant. Give a number above 0 "
            "and at most 500."
        ),
    ),
    (
        plant(pot_volume_l=True),
        (
            "plant A1, pot_volume_l: true is not a number. Write a plain number"
            " without quotes or a unit, or null."
        ),
    ),
    (
        plant(pot_volume_l=math.inf),
        (
            "plant A1, pot_volume_l: Infinity is not a number. Give a number "
            "above 0 and at most 500."
        ),
    ),
    (
        plant(volume_l=101),
        (
            "plant A1, volume_l: 101 cannot be meant. Give a number above 0 and"
            " at most 100."
        ),
    ),
    (
        plant(medium="moss"),
        (
            'plant A1, medium: "moss" is not a word known here. Use bark, '
            "sphagnum, mineral, semi-hydro, soil or none, or leave it out."
        ),
    ),
    (
        plant(size="big"),
        (
            'plant A1, size: "big" is not a word known here. Use seedling, '
            "near-blooming or blooming, or leave it out."
        ),
    ),
    (
        plant(repotted_on="2026-02-30"),
        (
            'plant A1, repotted_on: "2026-02-30" is not a day that exists. Give'
            " a day of the calendar as year-month-day."
        ),
    ),
    (
        plant(repotted_on="28.2.2026"),
        (
            'plant A1, repotted_on: "28.2.2026" is not a day. Write a day as '
            "year-month-day in quotes, for example 2026-01-20."
        ),
    ),
    (
        plant(repotted_on="1899-12-31"),
        (
            'plant A1, repotted_on: "1899-12-31" cannot be meant. Give a day '
            "between the years 1900 and 2200."
        ),
    ),
    (
        plant(slow_release_until="2201-01-01"),
        (
            'plant A1, slow_release_until: "2201-01-01" cannot be meant. Give a'
            " day between the years 1900 and 2200."
        ),
    ),
    (
        plant(full_strength_ppm_n=0.5),
        (
            "plant A1, full_strength_ppm_n: 0.5 cannot be meant. Give a number "
            "from 1 to 1000."
        ),
    ),
    (
        plant(feed_ceiling_ppm_n=1001),
        (
            "plant A1, feed_ceiling_ppm_n: 1001 cannot be meant. Give a number "
            "from 1 to 1000."
        ),
    ),
    (
        plant(feed_interval_days=6.5),
        (
            "plant A1, feed_interval_days: 6.5 is not a whole number. Give a "
            "whole number from 1 to 365."
        ),
    ),
    (
        plant(feed_interval_days=366),
        (
            "plant A1, feed_interval_days: 366 cannot be meant. Give a number "
            "from 1 to 365."
        ),
    ),
    (
        plant(looks={}),
        (
            "plant A1, looks: an object is not a list. Write it in square "
            "brackets, also where there is only one."
        ),
    ),
    (
        plant(care="feed"),
        (
            'plant A1, care: "feed" is not a list. Write it in square brackets,'
            " also where there is only one."
        ),
    ),
    (
        plant(place="sill"),
        (
            'plant A1, place: "sill" is not a place. Write it in braces, as in '
            "the example of the README."
        ),
    ),
    (
        place(lux=9),
        (
            "plant A1, place: 'lux' is not a field of a place. Take it out, or "
            "use name, kind, controlled, outdoors, mean_temperature_c, lamps, "
            "facing, glass, shaded or readings."
        ),
    ),
    (place(name=5), "plant A1, place, name: 5 is not a text. Write it in quotes."),
    (
        place(name="a" * 301),
        (
            "plant A1, place, name: "
            '"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa… is '
            "too long. Give at most 300 characters."
        ),
    ),
    (
        place(kind=True),
        "plant A1, place, kind: true is not a text. Write it in quotes.",
    ),
    (
        place(kind="a" * 301),
        (
            "plant A1, place, kind: "
            '"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa… is '
            "too long. Give at most 300 characters."
        ),
    ),
    (
        place(controlled="no"),
        (
            'plant A1, place, controlled: "no" is neither true nor false. Write'
            " true or false without quotes."
        ),
    ),
    (
        place(outdoors=1),
        (
            "plant A1, place, outdoors: 1 is neither true nor false. Write true"
            " or false without quotes."
        ),
    ),
    (
        place(mean_temperature_c=-30.1),
        (
            "plant A1, place, mean_temperature_c: -30.1 cannot be meant. Give a"
            " number from -30 to 60."
        ),
    ),
    (
        place(facing="up"),
        (
            'plant A1, place, facing: "up" is not a word known here. Use north,'
            " north-east, east, south-east, south, south-west, west, north-west"
            " or overhead, or leave it out."
        ),
    ),
    (
        place(glass="mirror"),
        (
            'plant A1, place, glass: "mirror" is not a word known here. Use '
            "none, single, double, triple or plastic, or leave it out."
        ),
    ),
    (
        place(shaded=0.96),
        (
            "plant A1, place, shaded: 0.96 cannot be meant. Give a number from "
            "0 to 0.95."
        ),
    ),
    (
        place(lamps=True),
        (
            "plant A1, place, lamps: true is not lamps. Write it in braces, as "
            "in the example of the README."
        ),
    ),
    (
        place(lamps={"watts": 9}),
        (
            "plant A1, place, lamps: 'watts' is not a field of lamps. Take it "
            "out, or use hours or ppfd."
        ),
    ),
    (
        place(lamps={"ppfd": 90}),
        (
            "plant A1, place, lamps, hours: null cannot be left out. Say how "
            "many hours a day the lamps are on."
        ),
    ),
    (
        place(lamps={"hours": 12}),
        (
            "plant A1, place, lamps, ppfd: null cannot be left out. Give the "
            "PPFD at the leaf in µmol m-2 s-1."
        ),
    ),
    (
        place(lamps={"hours": 25, "ppfd": 90}),
        (
            "plant A1, place, lamps, hours: 25 cannot be meant. Give a number "
            "from 0 to 24."
        ),
    ),
    (
        place(lamps={"hours": 12, "ppfd": 2501}),
        (
            "plant A1, place, lamps, ppfd: 2501 cannot be meant. Give a number "
            "from 0 to 2500."
        ),
    ),
    (
        place(readings=7),
        (
            "plant A1, place, readings: 7 is not a list. Write it in square "
            "brackets, also where there is only one."
        ),
    ),
    (
        place(readings=[7]),
        (
            "plant A1, place, reading 1: 7 is not a reading. Write it in "
            "braces, as in the example of the README."
        ),
    ),
    (
        place(readings=[{"mean_c": 5}]),
        (
            "plant A1, place, reading 1, on: null cannot be left out. Give the "
            "day it was read."
        ),
    ),
    (
        place(readings=[{"on": "2026-01-01"}, {"on": 3}]),
        (
            "plant A1, place, reading 2, on: 3 is not a day. Write a day as "
            "year-month-day in quotes, for example 2026-01-20."
        ),
    ),
    (
        reading(lux=1),
        (
            "plant A1, place, reading of 2026-03-01: 'lux' is not a field of a "
            "reading. Take it out, or use on, mean_c, low_c, high_c, "
            "light_mol_per_m2_d or humidity_percent."
        ),
    ),
    (
        reading(mean_c=61),
        (
            "plant A1, place, reading of 2026-03-01, mean_c: 61 cannot be "
            "meant. Give a number from -30 to 60."
        ),
    ),
    (
        reading(low_c="cold"),
        (
            'plant A1, place, reading of 2026-03-01, low_c: "cold" is not a '
            "number. Write a plain number without quotes or a unit, or null."
        ),
    ),
    (
        reading(high_c=-31),
        (
            "plant A1, place, reading of 2026-03-01, high_c: -31 cannot be "
            "meant. Give a number from -30 to 60."
        ),
    ),
    (
        reading(low_c=9, high_c=8.5),
        (
            "plant A1, place, reading of 2026-03-01, low_c: 9.0 is above "
            "high_c. Give a low that is at most the high of 8.5 °C."
        ),
    ),
    (
        reading(light_mol_per_m2_d=81),
        (
            "plant A1, place, reading of 2026-03-01, light_mol_per_m2_d: 81 "
            "cannot be meant. Give a number from 0 to 80."
        ),
    ),
    (
        reading(humidity_percent=101),
        (
            "plant A1, place, reading of 2026-03-01, humidity_percent: 101 "
            "cannot be meant. Give a number from 0 to 100."
        ),
    ),
    (
        plant(overrule="feed"),
        (
            'plant A1, overrule: "feed" is not an overrule. Write it in braces,'
            " as in the example of the README."
        ),
    ),
    (
        plant(overrule={"until": "2026-05-01"}),
        (
            "plant A1, overrule, verdict: null cannot be left out. Give the "
            "verdict that shall hold."
        ),
    ),
    (
        plant(overrule={"verdict": "feed"}),
        (
            "plant A1, overrule, until: null cannot be left out. Give the last "
            "day on which it holds."
        ),
    ),
    (
        overrule(reason=None),
        (
            "plant A1, overrule, reason: null gives no reason. Say in a few "
            "words why, so that it is understood later."
        ),
    ),
    (
        overrule(reason=5),
        "plant A1, overrule, reason: 5 is not a text. Write it in quotes.",
    ),
    (
        overrule(verdict="water"),
        (
            'plant A1, overrule, verdict: "water" is not a word known here. Use'
            " feed, clear-water, flush, keep-dry or look-first."
        ),
    ),
    (
        overrule(until="May"),
        (
            'plant A1, overrule, until: "May" is not a day. Write a day as '
            "year-month-day in quotes, for example 2026-01-20."
        ),
    ),
    (
        overrule(water="lots"),
        (
            'plant A1, overrule, water: "lots" is not a word known here. Use '
            "none, sparing, if-dry or through, or leave it out."
        ),
    ),
    (
        overrule(since=2026),
        (
            "plant A1, overrule, since: 2026 is not a day. Write a day as year-"
            "month-day in quotes, for example 2026-01-20."
        ),
    ),
    (
        overrule(who="me"),
        (
            "plant A1, overrule: 'who' is not a field of an overrule. Take it "
            "out, or use verdict, reason, until, water or since."
        ),
    ),
    (
        plant(looks=["2026-01-20"]),
        (
            'plant A1, look 1: "2026-01-20" is not a look. Write it in braces, '
            "as in the example of the README."
        ),
    ),
    (
        plant(looks=[{}]),
        "plant A1, look 1, on: null cannot be left out. Give the day of the look.",
    ),
    (
        plant(looks=[{"on": "2026-13-01"}]),
        (
            'plant A1, look of 2026-13-01, on: "2026-13-01" is not a day that '
            "exists. Give a day of the calendar as year-month-day."
        ),
    ),
    (
        plant(looks=[{"on": "2026-01-20"}, {"on": "2026-01-20"}]),
        (
            'plant A1, looks: "2026-01-20" is the day of two looks. Put what '
            "was seen that day into one look."
        ),
    ),
    (
        look(root_tip="none"),
        (
            "plant A1, look of 2026-01-20: 'root_tip' is not a field of a look."
            " Did you mean root_tips?"
        ),
    ),
    (
        look(root_tips="green"),
        (
            'plant A1, look of 2026-01-20, root_tips: "green" is not a word '
            "known here. Use none, starting, running or hidden, or leave it "
            "out."
        ),
    ),
    (
        look(longest_new_root_mm=3001),
        (
            "plant A1, look of 2026-01-20, longest_new_root_mm: 3001 cannot be "
            "meant. Give a number from 0 to 3000."
        ),
    ),
    (
        look(lead_length_mm=-1),
        (
            "plant A1, look of 2026-01-20, lead_length_mm: -1 cannot be meant. "
            "Give a number from 0 to 5000."
        ),
    ),
    (
        look(new_leaf=True),
        (
            "plant A1, look of 2026-01-20, new_leaf: true is not a word known "
            "here. Use none, starting, extending or full, or leave it out."
        ),
    ),
    (
        look(flowering="blooming"),
        (
            'plant A1, look of 2026-01-20, flowering: "blooming" is not a word '
            "known here. Use none, sheath, spike, buds, open, fading or spent, "
            "or leave it out."
        ),
    ),
    (
        look(flowering=["open", 3]),
        (
            "plant A1, look of 2026-01-20, flowering: 3 is not a word known "
            "here. Use none, sheath, spike, buds, open, fading or spent, or "
            "leave it out."
        ),
    ),
    (
        look(flowering=["open", "none"]),
        (
            'plant A1, look of 2026-01-20, flowering: "none, open" says two '
            "things at once. Leave out none where there is a flowering stage."
        ),
    ),
    (
        look(leaves="green"),
        (
            'plant A1, look of 2026-01-20, leaves: "green" is not a word known '
            "here. Use firm, yellowing, dropping, leafless or shrivelled, or "
            "leave it out."
        ),
    ),
    (
        look(bulbs="fat"),
        (
            'plant A1, look of 2026-01-20, bulbs: "fat" is not a word known '
            "here. Use firm, wrinkled or shrivelled, or leave it out."
        ),
    ),
    (
        look(pot="damp"),
        (
            'plant A1, look of 2026-01-20, pot: "damp" is not a word known '
            "here. Use wet, moist, nearly-dry or dry, or leave it out."
        ),
    ),
    (
        look(health="pests"),
        (
            'plant A1, look of 2026-01-20, health: "pests" is not a list. Write'
            " it in square brackets, also where there is only one."
        ),
    ),
    (
        look(health=["sad"]),
        (
            'plant A1, look of 2026-01-20, health: "sad" is not a word known '
            "here. Use rot, no-roots, pests, salt-burn or virus-suspect, or "
            "leave it out."
        ),
    ),
    (
        look(runoff_ec_ms_per_cm=20.5),
        (
            "plant A1, look of 2026-01-20, runoff_ec_ms_per_cm: 20.5 cannot be "
            "meant. Give a number from 0 to 20."
        ),
    ),
    (
        look(new_growths=1),
        (
            "plant A1, look of 2026-01-20, new_growths: 1 is not new_growths. "
            "Write it in braces, as in the example of the README."
        ),
    ),
    (
        look(new_growths={"dormant": 1}),
        (
            "plant A1, look of 2026-01-20, new_growths: 'dormant' is not a "
            "field of new_growths. Take it out, or use emerging, extending, "
            "maturing, matured or stalled."
        ),
    ),
    (
        look(new_growths={"emerging": -1}),
        (
            "plant A1, look of 2026-01-20, new_growths, emerging: -1 cannot be "
            "meant. Give a number from 0 to 500."
        ),
    ),
    (
        look(new_growths={"extending": 0.5}),
        (
            "plant A1, look of 2026-01-20, new_growths, extending: 0.5 is not a"
            " whole number. Give a whole number from 0 to 500."
        ),
    ),
    (
        look(new_growths={"maturing": True}),
        (
            "plant A1, look of 2026-01-20, new_growths, maturing: true is not a"
            " number. Write a plain number without quotes or a unit, or null."
        ),
    ),
    (
        look(new_growths={"matured": 501}),
        (
            "plant A1, look of 2026-01-20, new_growths, matured: 501 cannot be "
            "meant. Give a number from 0 to 500."
        ),
    ),
    (
        look(new_growths={"stalled": "two"}),
        (
            'plant A1, look of 2026-01-20, new_growths, stalled: "two" is not a'
            " number. Write a plain number without quotes or a unit, or null."
        ),
    ),
    (
        plant(care=[7]),
        (
            "plant A1, care 1: 7 is not care. Write it in braces, as in the "
            "example of the README."
        ),
    ),
    (
        plant(care=[{"what": "feed"}]),
        "plant A1, care 1, on: null cannot be left out. Give the day it was done.",
    ),
    (
        plant(care=[{"on": "2026-01-10"}]),
        (
            "plant A1, care of 2026-01-10, what: null cannot be left out. Say "
            "what was done: feed, clear-water, flush, repot, divide, move, "
            "treat or rain."
        ),
    ),
    (
        care(what="prune"),
        (
            'plant A1, care of 2026-01-10, what: "prune" is not a word known '
            "here. Use feed, clear-water, flush, repot, divide, move, treat or "
            "rain."
        ),
    ),
    (
        care(ppm=3),
        (
            "plant A1, care of 2026-01-10: 'ppm' is not a field of care. Take "
            "it out, or use on, what, strength_ppm_n, ec_ms_per_cm, volume_l or "
            "rain_mm."
        ),
    ),
    (
        care(strength_ppm_n=5001),
        (
            "plant A1, care of 2026-01-10, strength_ppm_n: 5001 cannot be "
            "meant. Give a number from 0 to 5000."
        ),
    ),
    (
        care(ec_ms_per_cm=21),
        (
            "plant A1, care of 2026-01-10, ec_ms_per_cm: 21 cannot be meant. "
            "Give a number from 0 to 20."
        ),
    ),
    (
        care(volume_l=-2),
        (
            "plant A1, care of 2026-01-10, volume_l: -2 cannot be meant. Give a"
            " number from 0 to 2000."
        ),
    ),
    (
        plant(kind_fields=7),
        (
            "plant A1, kind_fields: 7 is not a kind that can be corrected. "
            "Write it in braces, as in the example of the README."
        ),
    ),
    (
        plant(kind_fields={"resume": 5}),
        "plant A1, kind_fields, resume: 5 is not a text. Write it in quotes.",
    ),
]


@pytest.mark.parametrize(("facts", "line"), CASES, ids=[line[:60] for _, line in CASES])
def test_a_facts_file_is_refused_in_these_words(facts: object, line: str) -> None:
    with pytest.raises(InputError) as refused:
        read_facts(facts)
    assert refused.value.line() == line
