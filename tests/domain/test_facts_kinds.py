"""Corrected kinds in a facts file: JSON's own types, strict, and back again."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts import House, Plant
from growdesk.domain.facts_file import read_facts
from growdesk.domain.facts_kinds import (
    fitted,
    kind_fields_json,
    read_kind_fields,
    read_kind_table,
)
from growdesk.domain.facts_writing import facts_json
from growdesk.domain.kind_fields import CORRECTABLE
from growdesk.domain.kind_words import cell
from tests.domain.test_kind_corrections import TABLE

if TYPE_CHECKING:
    from collections.abc import Mapping

GIVEN: Mapping[str, Any] = {
    "feeder": "light",
    "rest": "leafless-dry",
    "rest_months": [12, 1, 2],
    "resume": "root-length",
    "resume_root_mm": 60,
    "ceiling_ppm_n": 87.5,
    "spike_draws_feed": True,
    "idle_interval_days": 20,
    "advice": "Mind the roots.",
    "repot_years": "",
    "stop_c": None,
}


def test_natural_types_read_and_come_back() -> None:
    cells = dict(read_kind_fields("kinds, cattleya", GIVEN))
    assert cells["rest_months"] == "12;1;2"
    assert cells["ceiling_ppm_n"] == "87.5"
    assert cells["spike_draws_feed"] == "yes"
    assert cells["repot_years"] == ""
    assert "stop_c" not in cells
    back = kind_fields_json(cells.items())
    assert back == {name: v for name, v in GIVEN.items() if v is not None}


@pytest.mark.parametrize("key", sorted(TABLE.kinds))
def test_every_shipped_kind_survives_the_way_through_json(key: str) -> None:
    kind = TABLE.kinds[key]
    cells = {name: cell(name, getattr(kind, name)) for name in CORRECTABLE}
    plain = json.loads(json.dumps(kind_fields_json(cells.items())))
    assert dict(read_kind_fields("x", plain)) == cells


def test_a_file_with_kinds_and_a_plants_own_fields() -> None:
    facts = {
        "house": {},
        "kinds": {"cattleya": {"feeder": "light"}, "vanda": {}},
        "plants": [
            {"tag": "A1", "kind": "cattleya", "kind_fields": {"feeder": "heavy"}},
            {"tag": "A2", "kind": "cattleya", "kind_fields": None},
        ],
    }
    house, plants = read_facts(facts)
    assert [p.kind_fields for p in plants] == [(("feeder", "heavy"),), ()]
    table = read_kind_table(facts, TABLE)
    assert table.kinds["cattleya"].corrected == ("feeder",)
    assert table.kinds["vanda"] == TABLE.kinds["vanda"]
    assert read_kind_table({"plants": []}, TABLE) is TABLE
    written = facts_json(house, plants, {"cattleya": {"feeder": "light"}})
    assert written["kinds"] == {"cattleya": {"feeder": "light"}}
    assert read_facts(json.loads(json.dumps(written))) == (house, plants)
    assert "kinds" not in facts_json(House(), (Plant("A1"),))
    assert "kind_fields" not in json.dumps(facts_json(House(), (Plant("A1"),)))


@pytest.mark.parametrize(
    ("kinds", "names", "problem", "way_out"),
    [
        ([], "kinds", "is no object of kinds", "braces"),
        ({"catleya": {}}, "kinds", "is not a kind", "Did you mean cattleya?"),
        ({"zzz": {}}, "kinds", "is not a kind", "growdesk kinds lists all keys"),
        ({"cattleya": []}, "kinds, cattleya", "is not a kind that can", "braces"),
        (
            {"cattleya": {"feder": "light"}},
            "kinds, cattleya",
            "is not a field",
            "Did you mean feeder?",
        ),
        (
            {"cattleya": {"source": "me"}},
            "kinds, cattleya",
            "is not a field",
            "",
        ),
        (
            {"cattleya": {"feeder": 3}},
            "kinds, cattleya, feeder",
            "is not a text",
            "quotes",
        ),
        (
            {"cattleya": {"ceiling_ppm_n": "100"}},
            "kinds, cattleya, ceiling_ppm_n",
            "is not a number",
            "without quotes",
        ),
        (
            {"cattleya": {"base_c": ""}},
            "kinds, cattleya, base_c",
            "is empty",
            "from 0 to 60 °C",
        ),
        (
            {"cattleya": {"rest_months": "11;12"}},
            "kinds, cattleya, rest_months",
            "is not a list of months",
            "[11, 12, 1]",
        ),
        (
            {"cattleya": {"rest_months": [13]}},
            "kinds, cattleya, rest_months",
            "cannot be meant",
            "from 1 to 12",
        ),
        (
            {"cattleya": {"spike_draws_feed": "yes"}},
            "kinds, cattleya, spike_draws_feed",
            "is neither true nor false",
            "without quotes",
        ),
        (
            {"cattleya": {"rest": "none"}},
            "kinds, cattleya, rest",
            "does not go with rest months",
            "together",
        ),
    ],
)
def test_a_slip_is_told_with_its_spot(
    kinds: object, names: str, problem: str, way_out: str
) -> None:
    with pytest.raises(InputError) as slip:
        read_kind_table({"kinds": kinds, "plants": []}, TABLE)
    assert slip.value.field == names
    assert problem in slip.value.message
    assert way_out in slip.value.hint


def test_a_correction_for_one_plant_is_marked_as_such() -> None:
    cattleya = TABLE.kinds["cattleya"]
    cells = (("feeder", "light"),)
    everywhere = fitted("kinds, cattleya", cattleya, cells)
    assert (everywhere.corrected, everywhere.corrected_here) == (("feeder",), ())
    here = fitted("plant A1, kind_fields", cattleya, cells, here=True)
    assert (here.corrected, here.corrected_here) == ((), ("feeder",))


def test_a_plants_slip_names_the_plant() -> None:
    plant = {"tag": "A1", "kind": "cattleya", "kind_fields": {"feeder": "huge"}}
    with pytest.raises(InputError, match="plant A1, kind_fields, feeder") as slip:
        read_facts({"plants": [plant]})
    assert "light, medium or heavy" in slip.value.hint
    with pytest.raises(InputError, match="plant A1, kind_fields, rest: 'none'"):
        fitted("plant A1, kind_fields", TABLE.kinds["cattleya"], (("rest", "none"),))
