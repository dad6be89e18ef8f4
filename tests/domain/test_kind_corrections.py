"""Corrections of kinds: what is refused, what is laid over, what the words claim."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import House, Plant
from growdesk.domain.judging import judge
from growdesk.domain.kind_corrections import (
    Unused,
    as_kept,
    corrected,
    corrected_table,
    fitting,
    in_use,
    read_field,
)
from growdesk.domain.kind_fields import (
    CORRECTABLE,
    DECLARED,
    FIELDS,
    GROUPS,
    bears,
    together,
)
from growdesk.domain.kind_words import cell, corrected_told, months_text, value_text
from growdesk.domain.kinds import COLUMNS, Feeder, Kind, Rest, Resume, parse_table
from tests.domain.builders import HOUSE, day, moving, plant, said

RESOURCES = Path(__file__).parents[2] / "resources"
TABLE = parse_table(
    (RESOURCES / "kinds.csv").read_text(encoding="utf-8"),
    (RESOURCES / "genera.csv").read_text(encoding="utf-8"),
)
CATTLEYA = TABLE.kinds["cattleya"]
MILTONIOPSIS = TABLE.kinds["miltoniopsis"]
WHEN = day("2026-05-20")


def test_all_fields_but_keys_names_and_sources_may_be_corrected() -> None:
    apart = {"key", "genera", "source", "memory"}
    assert set(CORRECTABLE) == set(COLUMNS) - apart
    assert set(Kind.__struct_fields__) - set(COLUMNS) == {
        "corrected",
        "corrected_here",
    }
    assert {each.group for each in DECLARED} == set(GROUPS)


@pytest.mark.parametrize("key", sorted(TABLE.kinds))
def test_every_shipped_cell_is_one_that_a_grower_may_give(key: str) -> None:
    kind = TABLE.kinds[key]
    cells = {name: cell(name, getattr(kind, name)) for name in CORRECTABLE}
    made = corrected(kind, cells)
    assert replace(made, corrected=(), memory=kind.memory) == kind
    assert as_kept(kind, cells) == cells
    assert all(value_text(name, getattr(kind, name)) for name in CORRECTABLE)


def test_a_correction_is_marked_and_is_no_longer_from_memory() -> None:
    made = corrected(CATTLEYA, {"feeder": "light", "ceiling_ppm_n": "90"})
    assert made.feeder is Feeder.LIGHT
    assert made.ceiling_ppm_n == 90
    assert made.corrected == ("feeder", "ceiling_ppm_n")
    assert "feeder" in CATTLEYA.memory
    assert "feeder" not in made.memory
    here = corrected(made, {"feeder": "heavy"}, here=True)
    assert here.feeder is Feeder.HEAVY
    assert (here.corrected, here.corrected_here) == (made.corrected, ("feeder",))


@pytest.mark.parametrize(
    ("field", "text", "problem", "way_out"),
    [
        ("feeder", "huge", "is none of light, medium, heavy", "light, medium or heavy"),
        ("feeder", "", "is empty", "light, medium or heavy"),
        ("ceiling_ppm_n", "0", "cannot be meant", "from 1 to 1000 ppm N, or leave it"),
        ("ceiling_ppm_n", "-5", "is no number of 0 or more", "from 1 to 1000 ppm N"),
        ("ceiling_ppm_n", "inf", "is no number of 0 or more", "from 1 to 1000 ppm N"),
        ("light_low_fc", "1e9", "cannot be meant", "from 10 to 12000 foot-candles."),
        ("light_low_fc", "", "is empty", "foot-candles."),
        ("base_c", "61", "cannot be meant", "from 0 to 60 °C."),
        ("idle_interval_days", "2.5", "is no whole number", "whole number"),
        ("idle_interval_days", "-3", "cannot be meant", "from 1 to 365 days"),
        ("growth_weeks", "0", "cannot be meant", "from 0.5 to 104 weeks."),
        ("rest_months", "1;5;6", "more than one run", "follow one another"),
        ("rest_months", "11;13", "is no list of months", "as 11;12;1, or leave it"),
        ("spike_draws_feed", "maybe", "is neither yes nor no", "Use yes or no."),
        ("title", " ", "is empty", "Write a few words."),
        ("title", "a\x00b", "holds a control character", "Take"),
        ("advice", "a" * 1001, "is too long", "at most 1000"),
        (
            "source",
            "me",
            "is not a field of a kind that can be corrected",
            "Use one of",
        ),
        ("key", "x", "is not a field of a kind that can be corrected", "title"),
    ],
)
def test_a_slip_names_field_value_and_way_out(
    field: str, text: str, problem: str, way_out: str
) -> None:
    with pytest.raises(InputError) as slip:
        corrected(CATTLEYA, {field: text})
    assert slip.value.field == field
    assert problem in slip.value.problem
    assert way_out in slip.value.hint


@pytest.mark.parametrize(
    ("cells", "field", "goes_with"),
    [
        ({"rest": "none"}, "rest", "rest months November to February"),
        ({"rest_months": ""}, "rest_months", "rest reduced"),
        ({"resume": "root-length"}, "resume", "rest reduced"),
        ({"resume_root_mm": "50"}, "resume_root_mm", "rest ends with none"),
        ({"light_low_fc": "6000"}, "light_low_fc", "light to 5000 foot-candles"),
        ({"light_high_fc": "2000"}, "light_high_fc", "light from 3000 foot-candles"),
        ({"base_c": "18"}, "base_c", "best from 17 °C"),
        ({"stop_c": "26"}, "stop_c", "best to 26 °C"),
        ({"most_feed_c": "13"}, "most_feed_c", "too cold to feed at 13 °C"),
    ],
)
def test_a_cell_that_does_not_go_with_the_others_is_refused_by_its_own_name(
    cells: dict[str, str], field: str, goes_with: str
) -> None:
    with pytest.raises(InputError) as slip:
        corrected(CATTLEYA, cells)
    assert slip.value.field == field
    assert slip.value.value == cells[field]
    assert f"does not go with {goes_with}" in slip.value.problem or (
        goes_with in slip.value.problem
    )
    assert "together" in slip.value.hint


def test_fields_that_go_together_are_corrected_together() -> None:
    made = corrected(CATTLEYA, {"rest": "none", "rest_months": ""})
    assert (made.rest, made.rest_months) == (Rest.NONE, ())
    leafless = {
        "rest": "leafless-dry",
        "resume": "root-length",
        "resume_root_mm": "80",
        "rest_months": "2; 1;12",
    }
    made = corrected(CATTLEYA, leafless)
    assert made.resume is Resume.ROOT_LENGTH
    assert made.rest_months == (12, 1, 2)
    assert together("resume") == ("rest", "rest_months", "resume", "resume_root_mm")
    assert together("feeder") == ("feeder",)


def test_what_no_longer_fits_is_left_out_and_named() -> None:
    cells = {
        "feeder": "light",
        "rest": "none",
        "warmth": "hot",
        "colour": "red",
        "repot_years": "",
    }
    made, unused = fitting(CATTLEYA, cells)
    assert made.feeder is Feeder.LIGHT
    assert made.rest is CATTLEYA.rest
    assert made.corrected == ("feeder", "repot_years")
    assert {(odd.field, odd.value) for odd in unused} == {
        ("warmth", "hot"),
        ("colour", "red"),
        ("rest", "none"),
    }
    assert all(odd.kind == "cattleya" and odd.problem for odd in unused)


def test_a_bond_that_no_longer_fits_goes_whole() -> None:
    """The shipped low rose above the corrected high: neither of the pair is kept."""
    later = replace(CATTLEYA, light_low_fc=5500, light_high_fc=7000)
    made, unused = fitting(later, {"light_high_fc": "5200", "feeder": "heavy"})
    assert (made.light_low_fc, made.light_high_fc) == (5500, 7000)
    assert made.feeder is Feeder.HEAVY
    assert [odd.field for odd in unused] == ["light_high_fc"]


def test_a_table_keeps_its_names_and_tells_of_a_kind_that_is_gone() -> None:
    table, unused = corrected_table(
        TABLE, {"cattleya": {"feeder": "heavy"}, "gone": {"feeder": "light"}}
    )
    found = table.find("Rlc. Memoria")
    assert found is not None
    assert found.key == "cattleya"
    assert found.feeder is Feeder.HEAVY
    assert table.kinds["laelia"] is TABLE.kinds["laelia"]
    (odd,) = unused
    assert odd == Unused(
        "gone", "feeder", "light", "belongs to a kind that is not in the table"
    )
    assert in_use(found) == {"feeder": "heavy"}
    assert in_use(found, here=True) == {}


plants = st.sampled_from(
    [
        plant("cattleya", moving("2026-05-10")),
        plant("miltoniopsis", moving("2026-05-10")),
        plant("catasetum", moving("2026-05-10", longest_new_root_mm=30.0)),
        plant("phalaenopsis"),
        plant("dendrobium-nobile", moving("2026-05-01")),
    ]
)


@given(plants, st.sampled_from(CORRECTABLE), st.integers(0, 365), st.booleans())
def test_correcting_a_field_to_its_shipped_cell_changes_no_verdict(
    one: Plant, name: str, days: int, here: bool
) -> None:
    kind = TABLE.kinds[one.kind]
    made = corrected(kind, {name: cell(name, getattr(kind, name))}, here=here)
    on = day("2026-05-20").replace(day=1)
    on = type(on).fromordinal(on.toordinal() + days)
    before = judge(one, kind, House(), on)
    after = judge(one, made, House(), on)
    assert (before.verdict, before.water, before.rule) == (
        after.verdict,
        after.water,
        after.rule,
    )
    assert before.strength_ppm_n == after.strength_ppm_n
    assert [r.key for r in before.reasons] == [r.key for r in after.reasons]


@given(st.sampled_from(CORRECTABLE), st.text(max_size=20))
def test_any_text_reads_or_is_one_plain_slip(name: str, text: str) -> None:
    slip, value = None, None
    try:
        value = read_field(name, text)
    except InputError as error:
        slip = error
    if slip is None:
        assert read_field(name, cell(name, value)) == value
    else:
        assert slip.field == name
        assert slip.hint


def strongly(kind: Kind) -> str:
    """Give all that is said of a plant of a kind fed at the house's strongest."""
    one = plant(kind.key, moving("2026-05-10"), full_strength_ppm_n=900.0)
    return said(judge(one, kind, HOUSE, WHEN))


def test_the_ceiling_is_told_as_whose_it_is() -> None:
    ours = strongly(MILTONIOPSIS)
    assert "our careful ceiling for its kind holds it at 100 ppm N" in ours
    published = strongly(replace(MILTONIOPSIS, ceiling_is_ours=False))
    assert "the ceiling published for its kind holds it at 100 ppm N" in published
    yours = strongly(corrected(MILTONIOPSIS, {"ceiling_ppm_n": "80"}))
    assert "the ceiling you gave its kind holds it at 80 ppm N" in yours
    assert "published" not in yours
    here = strongly(corrected(MILTONIOPSIS, {"ceiling_ppm_n": "70"}, here=True))
    assert "its own ceiling holds it at 70 ppm N" in here


def test_a_plants_own_ceiling_goes_before_every_kinds() -> None:
    kind = corrected(MILTONIOPSIS, {"ceiling_ppm_n": "80"}, here=True)
    one = plant(
        kind.key,
        moving("2026-05-10"),
        full_strength_ppm_n=900.0,
        feed_ceiling_ppm_n=60.0,
    )
    assert judge(one, kind, HOUSE, WHEN).strength_ppm_n == 60


def test_what_was_corrected_is_said_once_for_the_kind_and_once_for_the_plant() -> None:
    assert corrected_told(CATTLEYA) == ()
    made = corrected(CATTLEYA, {"rest": "none", "rest_months": "", "feeder": "light"})
    made = corrected(made, {"ceiling_ppm_n": "100", "habit": "tuberous"}, here=True)
    assert corrected_told(made) == (
        "You corrected its kind: rest none, rest months none, feeder light.",
        "You corrected its kind for this plant: habit tuberous, ceiling 100 ppm N.",
    )


def test_a_long_text_is_only_named() -> None:
    made = corrected(CATTLEYA, {"advice": "x " * 60})
    assert corrected_told(made) == ("You corrected its kind: worth knowing.",)


@pytest.mark.parametrize(
    ("months", "words"),
    [
        ((), ""),
        ((3,), "March"),
        ((3, 4), "March and April"),
        ((11, 12, 1, 2), "November to February"),
        ((1, 12), "December and January"),
        ((1, 5, 6, 7), "January, May to July"),
        (tuple(range(1, 13)), "January to December"),
    ],
)
def test_months_are_told_by_name_in_runs(months: tuple[int, ...], words: str) -> None:
    assert months_text(months) == words


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("ceiling_ppm_n", None, "none"),
        ("ceiling_ppm_n", 100.0, "100 ppm N"),
        ("rest", Rest.UNFED, "cooler, drier, unfed"),
        ("ceiling_is_ours", True, "growdesk's own, careful"),
        ("old_spikes_branch", False, "no"),
        ("pot_ec_limit_ms_per_cm", 0.8, "0.8 mS/cm"),
        ("base_c", 6.2, "6.2 °C"),
        ("lead_rate_mm_per_week", None, "not known"),
        ("idle_interval_days", None, "as the house has it"),
        ("repot_years", 1.0, "1 year"),
        ("pot_ec_limit_ms_per_cm", 1.0, "1 mS/cm"),
        ("repot_moment", "", "none"),
    ],
)
def test_values_are_told_with_their_unit(field: str, value: object, words: str) -> None:
    assert value_text(field, value) == words


def test_a_field_without_a_meaning_is_known_as_such() -> None:
    silent = {
        key: {name for name in CORRECTABLE if not bears(TABLE.kinds[key], name)}
        for key in ("cattleya", "phalaenopsis", "catasetum", "lycaste", "miltoniopsis")
    }
    ours, idle = "ceiling_is_ours", "idle_interval_days"
    assert silent["cattleya"] == {ours, idle, "resume", "resume_root_mm"}
    assert silent["phalaenopsis"] == {ours, "rest_months", "resume", "resume_root_mm"}
    assert silent["catasetum"] == {ours, idle}
    assert silent["lycaste"] >= {ours, idle, "resume_root_mm"}
    assert ours not in silent["miltoniopsis"]
    assert not bears(corrected(MILTONIOPSIS, {"ceiling_ppm_n": "90"}), ours)


def test_every_choice_of_a_field_has_its_word() -> None:
    for name, declared in FIELDS.items():
        for choice in declared.choices or ():
            read = read_field(name, choice)
            assert value_text(name, read) == (declared.choices or {})[choice]
