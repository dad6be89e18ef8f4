"""The table of genera: abbreviations and their sources, made genera, single letters."""

import csv
import io

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.genera import parse_genera
from growdesk.domain.kinds import parse_table
from tests.domain.name_builders import GENERA, text_of

NAMES, MADE, UNSURE = (
    text_of(name) for name in ("genera.csv", "genera_made.csv", "genera_unsure.csv")
)
ROWS = list(csv.DictReader(io.StringIO(NAMES)))


def test_at_least_120_abbreviations_each_with_its_source() -> None:
    shorts = [
        short for row in ROWS for short in row["abbreviations"].split(";") if short
    ]
    assert len(shorts) == len(set(shorts)) == 268
    assert all(short.endswith(".") for short in shorts)
    read = [row for row in ROWS if row["abbreviations"] and ", read" in row["source"]]
    assert len(read) > 110
    for row in ROWS:
        if row["abbreviations"]:
            source = row["source"]
            assert ", read" in source or "from memory" in source, row["name"]


def test_a_source_says_which_of_two_abbreviations_it_is_for() -> None:
    for row in ROWS:
        shorts = [short for short in row["abbreviations"].split(";") if short]
        if len(shorts) > 1 and row["source"] != "from memory":
            assert all(f"{short}:" in row["source"] for short in shorts), row["name"]


@pytest.mark.parametrize(
    ("short", "name"),
    [
        ("Rlc.", "Rhyncholaeliocattleya"),
        ("rlc", "Rhyncholaeliocattleya"),
        ("C.", "Cattleya"),
        ("Paph.", "Paphiopedilum"),
        ("Ctsm.", "Catasetum"),
        ("Arach.", "Arachnis"),
    ],
)
def test_an_abbreviation_leads_to_its_genus(short: str, name: str) -> None:
    genus = GENERA.abbreviated(short)
    assert genus
    assert genus.name == name


@pytest.mark.parametrize("short", ["E.", "V.", "S.", "P.", "M."])
def test_a_letter_of_several_genera_is_none_of_them(short: str) -> None:
    assert GENERA.abbreviated(short) is None
    assert len(GENERA.may_be(short)) > 1
    for name in GENERA.may_be(short):
        assert GENERA.named(name), name


def test_what_made_genera_are_made_of() -> None:
    made = GENERA.named("Rhyncholaeliocattleya")
    assert made
    assert made.is_made
    assert made.parents == ("Cattleya", "Rhyncholaelia")
    natural = GENERA.named("Neofinetia")
    assert natural
    assert not natural.is_made
    assert natural.now == "Vanda"


def test_every_parent_is_a_natural_genus_of_the_table() -> None:
    for genus in GENERA.by_name.values():
        for name in genus.parents:
            parent = GENERA.named(name)
            assert parent, name
            assert not parent.is_made, (genus.name, name)
        assert not genus.now or GENERA.named(genus.now), genus.name


def test_a_slip_is_led_to_what_was_meant() -> None:
    assert GENERA.near("Cattelya") == "Cattleya"
    assert GENERA.near("Zzzzz") == ""


def test_the_short_form_to_write_is_never_an_unsure_one() -> None:
    assert GENERA.short_of("Phalaenopsis") == "Phal."
    assert GENERA.short_of("Vanda") == "Vanda"
    assert GENERA.short_of("Acacallis") == "Acacallis"


def test_a_name_without_a_kind_is_known_and_judged_with_care() -> None:
    table = parse_table(text_of("kinds.csv"), NAMES)
    assert GENERA.named("Arachnis")
    assert table.find("Arachnis flos-aeris") is None
    assert table.find("Arach. flos-aeris") is None
    found = table.find("Rlc. Some Name")
    assert found
    assert found.key == "cattleya"


@pytest.mark.parametrize(
    ("tables", "field"),
    [
        ((NAMES.replace("kind,", "sort,", 1), MADE, UNSURE), "genera.csv, header"),
        (
            (NAMES, f"{MADE}Xxara,Vanda;Aerides,,from memory\n", UNSURE),
            f"genera_made.csv, row {len(MADE.splitlines()) + 1}, name",
        ),
        (
            (NAMES, MADE, f"{UNSURE}X.,Vanda;Aerides,\n"),
            f"genera_unsure.csv, row {len(UNSURE.splitlines()) + 1}",
        ),
    ],
)
def test_a_row_that_does_not_fit(tables: tuple[str, str, str], field: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_genera(*tables)
    assert caught.value.field == field
