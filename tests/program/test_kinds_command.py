"""``growdesk kinds``: the list, one kind, a collection's corrections, and slips."""

from __future__ import annotations

import json
from contextlib import closing
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.domain.kind_fields import CORRECTABLE
from growdesk.services import kinds
from growdesk.services.collection import Collection
from tests.program.conftest import FACTS, Growdesk

if TYPE_CHECKING:
    from pathlib import Path


def test_all_kinds_are_listed_without_a_collection(growdesk: Growdesk) -> None:
    out = growdesk("kinds").out.splitlines()
    assert out[0] == f"{len(kinds.table().kinds)} kinds"
    assert len(out) == 1 + len(kinds.table().kinds)
    assert out[-1].split()[0] == "general"
    catasetum = next(line for line in out if line.strip().startswith("catasetum"))
    assert "rest leafless and dry" in catasetum
    assert "heavy feeder" in catasetum


@pytest.mark.parametrize("asked", ["cattleya", "Rlc.", "Brassolaeliocattleya Foo"])
def test_one_kind_is_shown_with_sources_and_what_is_from_memory(
    growdesk: Growdesk, asked: str
) -> None:
    out = growdesk("kinds", asked).out
    rows = [" ".join(line.split()) for line in out.splitlines()]
    assert out.startswith("Cattleya, one-leaved, and hybrids (cattleya)\n")
    assert "Rlc." in out
    assert "Rest months November to February (from memory)" in rows
    assert "Light from 3000 foot-candles" in rows
    assert "https://aos.org/orchid-care/care-sheets/cattleya-culture-sheet" in out
    assert "Whose ceiling" not in out


def test_json_has_every_field_in_its_own_type(growdesk: Growdesk) -> None:
    read: Any = growdesk("kinds", "catasetum", "--json").json
    assert set(read) == {
        "key",
        "title",
        "names",
        "abbreviations",
        "fields",
        "shipped",
        "memory",
        "source",
    }
    assert set(read["fields"]) == set(CORRECTABLE)
    assert read["fields"]["resume_root_mm"] == 80
    assert read["fields"]["rest_months"] == [11, 12, 1, 2, 3, 4, 5]
    assert read["shipped"] == {}
    everything: Any = growdesk("kinds", "--json").json
    assert len(everything["kinds"]) == len(kinds.table().kinds)
    assert everything["problems"] == []
    assert read in everything["kinds"]


def test_what_json_gives_a_facts_file_takes(
    growdesk: Growdesk, tmp_path: Path, facts_file: Path
) -> None:
    everything: Any = growdesk("kinds", "--json").json
    given = {each["key"]: each["fields"] for each in everything["kinds"]}
    file = tmp_path / "with-kinds.json"
    file.write_text(json.dumps({**FACTS, "kinds": given}), encoding="utf-8")
    on = ("--on", "2026-01-28", "--json")
    plain: Any = growdesk("decide", "--facts", facts_file, *on).json
    assert growdesk("decide", "--facts", file, *on).json == plain


def test_a_collections_corrections_are_told(growdesk: Growdesk, tmp_path: Path) -> None:
    folder = tmp_path / "c"
    with closing(Collection.open(folder, create=True)) as collection:
        collection.kinds.correct("cattleya", {"feeder": "light"}, "they burn")
    out = growdesk("--collection", folder, "kinds", "cattleya").out
    assert "Feeder light (yours, they burn; shipped: medium)" in " ".join(out.split())
    listed = growdesk("kinds", "--collection", folder).out
    assert "light feeder 1 correction" in " ".join(listed.split())
    read: Any = growdesk("kinds", "cattleya", "--json", "--collection", folder).json
    assert read["fields"]["feeder"] == "light"
    assert read["shipped"] == {"feeder": "medium"}
    assert "feeder" not in read["memory"]


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("nix", "leads to no kind. growdesk kinds lists all"),
        ("", "leads to no kind"),
        ("soft", "leads to several kinds. Choose one of"),
    ],
)
def test_a_name_that_leads_to_no_one_kind_is_one_line(
    growdesk: Growdesk, asked: str, told: str
) -> None:
    assert told in growdesk("kinds", asked).refusal


def with_kinds(tmp_path: Path, given: object, own: object = None) -> Path:
    plants = json.loads(json.dumps(FACTS["plants"]))
    plants[0]["kind_fields"] = own
    file = tmp_path / "facts-with-kinds.json"
    facts = {**FACTS, "plants": plants, "kinds": given}
    file.write_text(json.dumps(facts), encoding="utf-8")
    return file


def strength(growdesk: Growdesk, file: Path) -> float:
    run = growdesk("decide", "--facts", file, "--on", "2026-01-28", "--json")
    found: Any = run.json
    value = found[0]["strength_ppm_n"]
    assert isinstance(value, float)
    return value


def test_facts_with_kinds_decide_and_plan_by_them(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    light = {"cattleya": {"feeder": "light"}}
    plain = strength(growdesk, with_kinds(tmp_path, {}))
    halved = strength(growdesk, with_kinds(tmp_path, light))
    assert halved == pytest.approx(plain / 2, abs=5)
    own = strength(growdesk, with_kinds(tmp_path, light, {"feeder": "medium"}))
    assert own == plain
    file = with_kinds(tmp_path, light)
    plan: Any = growdesk("plan", "--facts", file, "--on", "2026-01-28", "--json").json
    assert plan["batches"][0]["strength_ppm_n"] == halved


@pytest.mark.parametrize(
    ("given", "own", "told"),
    [
        ({"catleya": {}}, None, "kinds: 'catleya' is not a kind."),
        ({"cattleya": {"feder": "x"}}, None, "kinds, cattleya: 'feder' is not a field"),
        ({}, {"rest": "none"}, "plant A1, kind_fields, rest: 'none' does not go with"),
        ({}, {"colour": "red"}, "plant A1, kind_fields: 'colour' is not a field"),
    ],
)
def test_a_slip_in_a_facts_file_is_one_line(
    growdesk: Growdesk, tmp_path: Path, given: object, own: object, told: str
) -> None:
    run = growdesk("decide", "--facts", with_kinds(tmp_path, given, own))
    assert told in run.refusal
