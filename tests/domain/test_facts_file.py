"""The facts file is read strictly, and every slip is told in one plain line."""

from __future__ import annotations

import copy
import json
import math
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.errors import InputError
from growdesk.domain.facts import (
    Bulbs,
    CareKind,
    Flowering,
    Health,
    House,
    Lamps,
    Leaves,
    Medium,
    NewLeaf,
    Overrule,
    Pot,
    RootTips,
    Size,
    Verdict,
    Water,
)
from growdesk.domain.facts_fields import Shown, words_joined
from growdesk.domain.facts_file import parse_json, read_facts
from growdesk.domain.facts_house import (
    FLAGS,
    MONTH_DAYS,
    NUMBERS,
    WEEKDAYS,
    WHOLE_NUMBERS,
    rule_names,
)
from growdesk.domain.facts_writing import facts_json

Facts = dict[str, object]

EXAMPLE = """
{"house": {"latitude": 48.2, "full_strength_ppm_n": 300, "strength_step_ppm_n": 10,
           "look_limit_days": 21, "least_interval_days": 6, "feeds_before_flush": 3,
           "jugs": 3},
 "plants": [{"tag": "A1", "name": "Cattleya hybrid", "kind": "cattleya", "hybrid": true,
   "place": {"kind": "windowsill", "controlled": false, "mean_temperature_c": null},
   "pot_volume_l": 1.5, "repotted_on": null, "full_strength_ppm_n": null,
   "ignores_rest": false,
   "looks": [{"on": "2026-01-20",
      "new_growths": {"emerging": 0, "extending": 1, "maturing": 0, "matured": 2},
      "root_tips": "running", "longest_new_root_mm": null, "lead_length_mm": null,
      "flowering": "open", "leaves": "firm", "health": []}],
   "care": [{"on": "2026-01-10", "what": "feed", "strength_ppm_n": 160}]}]}
"""

FULL_PLANT: Facts = {
    "tag": "B 7",
    "name": "Dendrobium nobile",
    "kind": "dendrobium-nobile",
    "hybrid": False,
    "place": {
        "name": "east sill",
        "kind": "windowsill",
        "controlled": False,
        "outdoors": True,
        "mean_temperature_c": 18.5,
        "lamps": {"hours": 12, "ppfd": 90},
        "readings": [{"on": "2026-03-01", "mean_c": 17, "low_c": 12, "high_c": 22.5}],
    },
    "pot_volume_l": 0.8,
    "volume_l": 0.25,
    "medium": "sphagnum",
    "mounted": False,
    "size": "near-blooming",
    "under_cover": True,
    "repotted_on": "2025-04-02",
    "slow_release_until": "2026-06-01",
    "full_strength_ppm_n": 200,
    "feed_ceiling_ppm_n": 120.5,
    "feed_interval_days": 7,
    "ignores_rest": True,
    "overrule": {
        "verdict": "clear-water",
        "reason": "it sulks",
        "until": "2026-05-01",
        "water": "sparing",
        "since": "2026-02-01",
    },
    "looks": [
        {
            "on": "2026-02-28",
            "new_growths": {"emerging": 1, "stalled": 2},
            "root_tips": "starting",
            "longest_new_root_mm": 12.5,
            "lead_length_mm": 80,
            "new_leaf": "extending",
            "flowering": ["buds", "open"],
            "leaves": "yellowing",
            "bulbs": "wrinkled",
            "pot": "nearly-dry",
            "health": ["pests", "salt-burn"],
            "runoff_ec_ms_per_cm": 1.4,
        }
    ],
    "care": [
        {
            "on": "2026-02-20",
            "what": "clear-water",
            "ec_ms_per_cm": 0.3,
            "volume_l": 0.4,
        }
    ],
}


def refusal(facts: object) -> str:
    """Give the one line in which these facts are refused."""
    with pytest.raises(InputError) as caught:
        read_facts(facts)
    line = caught.value.line()
    assert "\n" not in line
    return line


def with_plant(**changes: object) -> Facts:
    return {"plants": [{"tag": "A1", **changes}]}


def with_look(**changes: object) -> Facts:
    return with_plant(looks=[{"on": "2026-01-20", **changes}])


def test_the_published_example_is_read_whole() -> None:
    house, (plant,) = read_facts(parse_json(EXAMPLE, "example"))
    assert house == House(latitude=48.2, full_strength_ppm_n=300.0)
    assert plant.tag == "A1"
    assert plant.hybrid
    assert plant.place.kind == "windowsill"
    assert plant.place.mean_temperature_c is None
    (look,) = plant.looks
    assert look.on == date(2026, 1, 20)
    assert look.new_growths is not None
    assert (look.new_growths.emerging, look.new_growths.extending) == (0, 1)
    assert look.new_growths.stalled is None
    assert look.root_tips is RootTips.RUNNING
    assert look.flowering == frozenset({Flowering.OPEN})
    assert look.health == frozenset()
    assert look.new_leaf is None
    (care,) = plant.care
    assert (care.what, care.strength_ppm_n) == (CareKind.FEED, 160.0)


def test_every_optional_field_is_read() -> None:
    _, (plant,) = read_facts({"plants": [FULL_PLANT]})
    assert plant.medium is Medium.SPHAGNUM
    assert plant.size is Size.NEAR_BLOOMING
    assert plant.repotted_on == date(2025, 4, 2)
    assert plant.slow_release_until == date(2026, 6, 1)
    assert plant.feed_ceiling_ppm_n == 120.5
    assert plant.feed_interval_days == 7
    assert plant.under_cover
    assert plant.ignores_rest
    assert plant.overrule == Overrule(
        verdict=Verdict.CLEAR_WATER,
        reason="it sulks",
        until=date(2026, 5, 1),
        water=Water.SPARING,
        since=date(2026, 2, 1),
    )
    place = plant.place
    assert (place.name, place.outdoors) == ("east sill", True)
    assert place.lamps == Lamps(hours=12.0, ppfd=90.0)
    assert [reading.day_mean_c for reading in place.readings] == [17.0]
    (look,) = plant.looks
    assert look.flowering == frozenset({Flowering.BUDS, Flowering.OPEN})
    assert look.health == frozenset({Health.PESTS, Health.SALT_BURN})
    assert (look.leaves, look.bulbs) == (Leaves.YELLOWING, Bulbs.WRINKLED)
    assert (look.pot, look.new_leaf) == (Pot.NEARLY_DRY, NewLeaf.EXTENDING)
    assert look.runoff_ec_ms_per_cm == 1.4
    assert look.new_growths is not None
    assert look.new_growths.extending is None
    assert plant.care[0].ec_ms_per_cm == 0.3
    assert plant.care[0].volume_l == 0.4


def test_null_and_missing_are_the_same_not_recorded() -> None:
    nulls = {name: None for name in FULL_PLANT if name != "tag"}
    assert read_facts({"plants": [{"tag": "B 7", **nulls}]}) == read_facts(
        {"plants": [{"tag": "B 7"}]}
    )
    _, (plant,) = read_facts({"house": None, "plants": [{"tag": "B 7"}]})
    assert plant.looks == ()
    assert plant.pot_volume_l is None


def test_no_plants_are_no_error() -> None:
    assert read_facts({"plants": []}) == (House(), ())


def test_every_house_rule_has_exactly_one_reader() -> None:
    readers = [*NUMBERS, *WHOLE_NUMBERS, *FLAGS, *MONTH_DAYS, *WEEKDAYS]
    assert sorted(readers) == sorted(rule_names())


def test_every_default_of_the_house_is_allowed() -> None:
    house, _ = read_facts(facts_json(House(resume_root_mm=80.0), ()))
    assert house == House(resume_root_mm=80.0)


def test_the_special_house_rules_are_read() -> None:
    rules = {
        "no_nitrogen_from": "09-01",
        "still_green_after": "02-29",
        "watering_weekdays": [5, 2, 5],
        "spike_draws_feed_always": True,
        "flush_by_estimate": True,
        "resume_root_mm": 100,
    }
    house, _ = read_facts({"house": rules, "plants": []})
    assert house.no_nitrogen_from == (9, 1)
    assert house.still_green_after == (2, 29)
    assert house.watering_weekdays == (2, 5)
    assert house.spike_draws_feed_always
    assert house.flush_by_estimate
    assert not House().flush_by_estimate
    assert house.resume_root_mm == 100.0


def test_writing_and_reading_back_gives_the_same_facts() -> None:
    facts = read_facts({"house": {"latitude": -33.9}, "plants": [FULL_PLANT]})
    written = json.loads(json.dumps(facts_json(*facts)))
    assert read_facts(written) == facts
    assert "tag" in written["plants"][0]
    assert set(House.__struct_fields__) - set(written["house"]) == {"resume_root_mm"}


NUMBER_FIELDS = [
    "pot_volume_l",
    "volume_l",
    "full_strength_ppm_n",
    "feed_ceiling_ppm_n",
    "feed_interval_days",
]
LOOK_NUMBERS = ["longest_new_root_mm", "lead_length_mm", "runoff_ec_ms_per_cm"]
NO_NUMBERS: list[object] = [
    True,
    False,
    "1.5",
    [1],
    {"l": 1},
    math.nan,
    math.inf,
    -math.inf,
    -1,
    10**400,
    1e300,
]


@pytest.mark.parametrize("name", NUMBER_FIELDS)
@pytest.mark.parametrize("value", NO_NUMBERS, ids=lambda value: str(value)[:12])
def test_a_number_of_a_plant_is_a_number_in_its_range(name: str, value: object) -> None:
    line = refusal(with_plant(**{name: value}))
    assert line.startswith(f"plant A1, {name}: ")
    assert len(line) < 300


@pytest.mark.parametrize("name", LOOK_NUMBERS)
@pytest.mark.parametrize("value", NO_NUMBERS, ids=lambda value: str(value)[:12])
def test_a_number_of_a_look_is_a_number_in_its_range(name: str, value: object) -> None:
    line = refusal(with_look(**{name: value}))
    assert line.startswith(f"plant A1, look of 2026-01-20, {name}: ")


@pytest.mark.parametrize("name", [*NUMBERS, *WHOLE_NUMBERS])
@pytest.mark.parametrize("value", [True, "5", math.nan, -1000, 1e9, []], ids=str)
def test_a_house_rule_is_held_to_its_range(name: str, value: object) -> None:
    line = refusal({"house": {name: value}, "plants": []})
    assert line.startswith(f"house, {name}: ")


CASES: list[tuple[object, tuple[str, ...]]] = [
    ([], ("facts", "not a facts file")),
    ("text", ("facts", "not a facts file")),
    (None, ("facts", "null")),
    ({}, ("plants", "cannot be left out")),
    ({"plants": {}}, ("plants", "not a list")),
    ({"plants": ["A1"]}, ("plant number 1", '"A1"')),
    ({"plants": [], "version": 1}, ("version", "not a field")),
    ({"plants": [], "Plants": []}, ("Plants", "Did you mean plants?")),
    ({"house": [], "plants": []}, ("house", "a list")),
    ({"house": {"lattitude": 48}, "plants": []}, ("Did you mean latitude?",)),
    ({"house": {"latitude": 91}, "plants": []}, ("91", "from -90 to 90")),
    ({"house": {"rooted_mm": 0}, "plants": []}, ("rooted_mm", "above 0")),
    ({"house": {"jugs": 2.5}, "plants": []}, ("jugs", "whole number")),
    ({"house": {"watering_weekdays": []}, "plants": []}, ("Monday",)),
    ({"house": {"watering_weekdays": [7]}, "plants": []}, ("7", "from 0 to 6")),
    ({"house": {"no_nitrogen_from": "02-30"}, "plants": []}, ("exists",)),
    ({"house": {"no_nitrogen_from": "9-15"}, "plants": []}, ("month-day",)),
    ({"house": {"spike_draws_feed_always": 1}, "plants": []}, ("true or false",)),
    ({"plants": [{}]}, ("plant number 1, tag", "cannot be left out")),
    ({"plants": [{"tag": None}]}, ("plant number 1, tag",)),
    ({"plants": [{"tag": 12}]}, ("tag", "12", "not a text")),
    ({"plants": [{"tag": "  "}]}, ("tag", "is no tag")),
    ({"plants": [{"tag": "A\n1"}]}, ("tag", "is no tag")),
    ({"plants": [{"tag": "A" * 41}]}, ("tag", "too long")),
    ({"plants": [{"tag": "A1"}, {"tag": " A1"}]}, ("plant number 2", "another")),
    (
        with_plant(colour="pink"),
        ("plant A1: 'colour' is not a field of a plant", "Take it out"),
    ),
    (with_plant(pot_volume=1), ("plant A1: 'pot_volume'", "pot_volume_l?")),
    (with_plant(pot_volume_l=501), ("501", "at most 500")),
    (with_plant(pot_volume_l=0), ("pot_volume_l", "above 0")),
    (with_plant(name=7), ("name", "not a text")),
    (with_plant(name="a\x00b"), ("name", "control character")),
    (with_plant(name="a\ud800"), ("name", "control character")),
    (with_plant(kind=["cattleya"]), ("kind", "not a text")),
    (with_plant(hybrid="yes"), ("hybrid", "true or false")),
    (with_plant(mounted=1), ("mounted", "1", "true or false")),
    (with_plant(ignores_rest=0), ("ignores_rest", "0")),
    (with_plant(medium="moss"), ("medium", "bark, sphagnum, mineral")),
    (with_plant(size="big"), ("size", "seedling, near-blooming or blooming")),
    (with_plant(repotted_on="2026-02-30"), ("2026-02-30", "day that exists")),
    (with_plant(repotted_on="20260228"), ("20260228", "year-month-day")),
    (with_plant(repotted_on="28.2.2026"), ("28.2.2026", "year-month-day")),
    (with_plant(repotted_on=20260228), ("repotted_on", "not a day")),
    (with_plant(repotted_on="0001-01-01"), ("0001-01-01", "cannot be meant")),
    (with_plant(slow_release_until="9999-12-31"), ("cannot be meant",)),
    (with_plant(feed_interval_days=6.5), ("6.5", "whole number")),
    (with_plant(feed_interval_days=0), ("0", "from 1 to 365")),
    (with_plant(place="sill"), ("plant A1, place", "not a place")),
    (with_plant(place={"lux": 9}), ("plant A1, place: 'lux'",)),
    (with_plant(place={"mean_temperature_c": -30.1}), ("-30.1", "-30 to 60")),
    (with_plant(place={"mean_temperature_c": 61}), ("61", "-30 to 60")),
    (with_plant(place={"controlled": "no"}), ("place, controlled",)),
    (with_plant(place={"lamps": {"hours": 12}}), ("lamps, ppfd", "left out")),
    (with_plant(place={"lamps": {"hours": 25, "ppfd": 1}}), ("hours", "0 to 24")),
    (with_plant(place={"lamps": True}), ("place, lamps", "true")),
    (with_plant(place={"readings": [{"mean_c": 5}]}), ("reading 1, on",)),
    (
        with_plant(place={"readings": [{"on": "2026-01-01", "low_c": 9, "high_c": 8}]}),
        ("reading of 2026-01-01, low_c", "above high_c"),
    ),
    (
        with_plant(place={"readings": [{"on": "2026-01-01", "mean_c": 70}]}),
        ("reading of 2026-01-01, mean_c", "70"),
    ),
    (with_plant(overrule="feed"), ("overrule", "not an overrule")),
    (with_plant(overrule={"verdict": "feed"}), ("overrule, until",)),
    (
        with_plant(overrule={"verdict": "feed", "until": "2026-05-01"}),
        ("overrule, reason", "gives no reason"),
    ),
    (
        with_plant(
            overrule={"verdict": "water", "until": "2026-05-01", "reason": "so"}
        ),
        ("overrule, verdict", "feed, clear-water, flush, keep-dry or look-first"),
    ),
    (with_plant(looks={}), ("plant A1, looks", "not a list")),
    (with_plant(looks=[{}]), ("plant A1, look 1, on", "cannot be left out")),
    (with_plant(looks=[{"on": "2026-13-01"}]), ("look of 2026-13-01, on", "exists")),
    (
        with_look(root_tip="none"),
        ("look of 2026-01-20: 'root_tip'", "Did you mean root_tips?"),
    ),
    (with_look(root_tips="green"), ("none, starting, running or hidden",)),
    (with_look(root_tips=["none"]), ("root_tips", "a list")),
    (with_look(new_leaf=True), ("new_leaf", "true")),
    (with_look(flowering="blooming"), ("flowering", "sheath")),
    (with_look(flowering=["open", 3]), ("flowering", "3")),
    (with_look(flowering=["none", "open"]), ("two things at once",)),
    (with_look(leaves="green"), ("leaves", "leafless")),
    (with_look(bulbs="fat"), ("bulbs", "shrivelled")),
    (with_look(pot="damp"), ("pot", "nearly-dry")),
    (with_look(health="rot"), ("health", "square brackets")),
    (with_look(health=["sad"]), ("health", '"sad"', "virus-suspect")),
    (with_look(new_growths=1), ("new_growths", "1")),
    (with_look(new_growths={"emerging": -1}), ("new_growths, emerging", "-1")),
    (with_look(new_growths={"emerging": 0.5}), ("whole number",)),
    (with_look(new_growths={"emerging": True}), ("emerging", "true")),
    (with_look(new_growths={"dormant": 1}), ("new_growths: 'dormant'",)),
    (with_look(longest_new_root_mm=9000), ("9000", "from 0 to")),
    (with_plant(care=[{"on": "2026-01-01"}]), ("care of 2026-01-01, what",)),
    (with_plant(care=[{"what": "feed"}]), ("care 1, on",)),
    (
        with_plant(care=[{"on": "2026-01-01", "what": "prune"}]),
        ("what", "feed, clear-water, flush"),
    ),
    (
        with_plant(care=[{"on": "2026-01-01", "what": "feed", "ppm": 3}]),
        ("care of 2026-01-01: 'ppm'",),
    ),
    (
        with_plant(care=[{"on": "2026-01-01", "what": "feed", "strength_ppm_n": -160}]),
        ("care of 2026-01-01, strength_ppm_n", "-160"),
    ),
    (
        with_plant(care=[{"on": "2026-01-01", "what": "flush", "volume_l": -2}]),
        ("care of 2026-01-01, volume_l", "-2"),
    ),
]


@pytest.mark.parametrize(
    ("facts", "told"), CASES, ids=[str(case[0])[:60] for case in CASES]
)
def test_a_slip_is_told_with_its_field_and_a_way_out(
    facts: object, told: tuple[str, ...]
) -> None:
    line = refusal(facts)
    for part in told:
        assert part in line


def test_the_facts_handed_in_are_not_changed() -> None:
    facts: Facts = {"plants": [copy.deepcopy(FULL_PLANT)]}
    read_facts(facts)
    assert facts == {"plants": [FULL_PLANT]}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "line 1, column 1"),
        ('{"plants": [', "line 1, column 13"),
        ('{\n  "plants": [],\n}', "column 1"),
        ('{"plants": NaN}', "NaN is no number"),
        ('{"plants": -Infinity}', "-Infinity is no number"),
        ('{"plants": [], "plants": []}', "'plants' stands twice"),
        ("[" * 100_000, "nested too deeply"),
        ("9" * 5_000, "a number that is too long"),
        ("{'plants': []}", "is not JSON"),
    ],
)
def test_what_is_not_json_is_told_in_one_line(text: str, told: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_json(text, "facts.json")
    line = caught.value.line()
    assert "'facts.json'" in line
    assert told in line
    assert "\n" not in line


def test_a_number_beyond_floats_is_refused_like_any_other() -> None:
    facts = parse_json('{"plants": [{"tag": "A1", "pot_volume_l": 1e999}]}', "x")
    assert "pot_volume_l" in refusal(facts)


@pytest.mark.parametrize(
    ("value", "shown"),
    [(True, "true"), (None, "null"), ({"a": 1}, "an object"), ("é", '"é"')],
)
def test_a_value_is_shown_as_it_stands_in_the_file(value: object, shown: str) -> None:
    assert str(Shown(value)) == shown


def test_a_long_value_is_cut() -> None:
    assert len(str(Shown("x" * 1000))) < 80


def test_words_are_joined_as_a_person_lists_them() -> None:
    assert words_joined(["a"]) == "a"
    assert words_joined(["a", "b", "c"]) == "a, b or c"


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner)
    ),
    max_leaves=5,
)


@given(name=st.sampled_from(sorted(FULL_PLANT)), value=anything)
def test_any_json_in_any_field_is_read_or_refused_in_one_line(
    name: str, value: object
) -> None:
    line = ""
    try:
        _, plants = read_facts({"plants": [{"tag": "B 7", name: value}]})
    except InputError as error:
        line = error.line()
        plants = ()
    assert "\n" not in line
    assert len(plants) == 1 or name.rstrip("s") in line
