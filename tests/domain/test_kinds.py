"""The kind table: its rows, its names, and what a bad cell is told."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growdesk.domain.errors import InputError
from growdesk.domain.kinds import (
    Feeder,
    Kind,
    KindTable,
    Rest,
    Resume,
    Warmth,
    parse_table,
)

RESOURCES = Path(__file__).parents[2] / "resources"
KINDS_CSV = (RESOURCES / "kinds.csv").read_text(encoding="utf-8")
GENERA_CSV = (RESOURCES / "genera.csv").read_text(encoding="utf-8")
TABLE = parse_table(KINDS_CSV, GENERA_CSV)
ROWS = [pytest.param(kind, id=key) for key, kind in TABLE.kinds.items()]

REQUIRED = [
    "general",
    "phalaenopsis",
    "cattleya",
    "cattleya-bifoliate",
    "laelia",
    "laelia-rupicolous",
    "oncidium",
    "miltoniopsis",
    "zygopetalum",
    "tolumnia",
    "dendrobium",
    "dendrobium-nobile",
    "dendrobium-biggibum",
    "dendrobium-kingianum",
    "dendrobium-pendulous",
    "dendrobium-spatulata",
    "dendrobium-latouria",
    "dendrobium-callista",
    "dendrobium-formosae",
    "cymbidium",
    "paphiopedilum",
    "paphiopedilum-green",
    "paphiopedilum-multifloral",
    "paphiopedilum-brachypetalum",
    "phragmipedium",
    "vanda",
    "catasetum",
    "lycaste",
    "lycaste-evergreen",
    "masdevallia",
    "coelogyne",
    "coelogyne-cool",
    "bulbophyllum",
    "brassavola",
    "epidendrum",
    "encyclia",
    "angraecum",
    "anguloa",
    "calanthe",
    "pleione",
    "habenaria",
    "chysis",
    "stanhopea",
    "gongora",
    "maxillaria",
    "brassia",
    "miltonia",
    "odontoglossum",
    "psychopsis",
    "rossioglossum",
    "rhyncholaelia",
    "guarianthe",
    "myrmecophila",
    "neofinetia",
    "sarcochilus",
    "disa",
    "dracula",
    "pleurothallis",
    "restrepia",
    "ludisia",
    "vanilla",
    "sobralia",
]

NEVER_RESTING = [
    "phalaenopsis",
    "miltoniopsis",
    "psychopsis",
    "gongora",
    "coelogyne",
    "bulbophyllum",
    "dendrobium-spatulata",
    "paphiopedilum",
    "paphiopedilum-green",
    "paphiopedilum-multifloral",
    "paphiopedilum-brachypetalum",
    "phragmipedium",
    "disa",
    "masdevallia",
    "dracula",
    "pleurothallis",
    "restrepia",
    "ludisia",
]
LEAFLESS = [
    "catasetum",
    "lycaste",
    "anguloa",
    "calanthe",
    "pleione",
    "habenaria",
    "chysis",
]


def found(name: str) -> str | None:
    kind = TABLE.find(name)
    return None if kind is None else kind.key


def with_cell(column: str, value: str, row: int = 1) -> str:
    """Give the shipped table with one cell changed; row 1 is the first kind."""
    rows = list(csv.reader(io.StringIO(KINDS_CSV)))
    rows[row][rows[0].index(column)] = value
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue()


def test_every_required_key_and_no_other() -> None:
    assert sorted(TABLE.kinds) == sorted(REQUIRED)


@pytest.mark.parametrize("kind", ROWS)
class TestRow:
    def test_key_is_kebab_case(self, kind: Kind) -> None:
        assert kind.key == kind.key.lower().strip("-")
        assert kind.key.replace("-", "").isalpha()

    def test_months_go_with_the_rest(self, kind: Kind) -> None:
        assert bool(kind.rest_months) is (kind.rest is not Rest.NONE)

    def test_resume_goes_with_the_leafless_rest(self, kind: Kind) -> None:
        assert (kind.resume is not None) is (kind.rest is Rest.LEAFLESS)
        assert (kind.resume_root_mm > 0) is (kind.resume is Resume.ROOT_LENGTH)

    def test_temperatures_are_in_order(self, kind: Kind) -> None:
        assert kind.base_c < kind.best_low_c <= kind.best_high_c < kind.stop_c
        assert kind.base_c < kind.least_feed_c < kind.most_feed_c <= kind.stop_c

    def test_least_for_feeding_goes_with_the_warmth(self, kind: Kind) -> None:
        least = {Warmth.WARM: 15, Warmth.INTERMEDIATE: 13, Warmth.COOL: 8}
        assert kind.least_feed_c == least[kind.warmth]
        assert kind.most_feed_c in {27, 32}

    def test_light_is_in_order(self, kind: Kind) -> None:
        assert 0 < kind.light_low_fc <= kind.light_mid_fc <= kind.light_high_fc

    def test_ceiling_is_marked(self, kind: Kind) -> None:
        if kind.ceiling_ppm_n is None:
            assert not kind.ceiling_is_ours
        else:
            assert 0 < kind.ceiling_ppm_n <= 200
            assert kind.ceiling_is_ours is ("ceiling_ppm_n" in kind.memory)

    def test_words_are_there(self, kind: Kind) -> None:
        assert kind.title
        assert kind.repot_moment
        assert len(kind.source) > 20
        assert not kind.advice or kind.advice.endswith(".")
        assert not re.search(r"\d C\b", f"{kind.advice} {kind.source}"), kind.key

    def test_memory_names_filled_columns(self, kind: Kind) -> None:
        for column in kind.memory:
            assert getattr(kind, column) not in (None, "", ()), column

    def test_every_genus_leads_back(self, kind: Kind) -> None:
        for genus in kind.genera:
            assert TABLE.find(genus) is kind
        assert kind.genera or kind.key == "general"

    def test_key_leads_to_itself(self, kind: Kind) -> None:
        assert TABLE.find(kind.key) is kind
        assert TABLE.find(f"  {kind.key.upper()} ") is kind


def test_genera_are_unique() -> None:
    genera = [genus for kind in TABLE.kinds.values() for genus in kind.genera]
    assert len(genera) == len(set(genera))


def test_who_never_rests() -> None:
    never = [key for key, kind in TABLE.kinds.items() if kind.rest is Rest.NONE]
    assert sorted(never) == sorted(NEVER_RESTING)


def test_who_rests_bare() -> None:
    bare = [key for key, kind in TABLE.kinds.items() if kind.rest is Rest.LEAFLESS]
    assert sorted(bare) == sorted(LEAFLESS)
    for key in bare:
        kind = TABLE.kinds[key]
        by_length = kind.resume is Resume.ROOT_LENGTH
        assert by_length is (key == "catasetum")
    assert TABLE.kinds["catasetum"].resume_root_mm == 80


def test_who_takes_no_nitrogen_in_autumn() -> None:
    stops = {k for k, kind in TABLE.kinds.items() if kind.rest is Rest.NO_NITROGEN}
    assert stops == {
        "dendrobium-nobile",
        "dendrobium-pendulous",
        "dendrobium-callista",
        "dendrobium-kingianum",
    }
    for key in stops:
        assert {9, 10, 11, 12, 1, 2} <= set(TABLE.kinds[key].rest_months)


def test_moth_orchids_spike_on_feed() -> None:
    moth = TABLE.kinds["phalaenopsis"]
    assert moth.spike_draws_feed
    assert moth.idle_interval_days == 14
    draws = {key for key, kind in TABLE.kinds.items() if kind.spike_draws_feed}
    assert draws == {"phalaenopsis", "oncidium"}
    idle = [kind for kind in TABLE.kinds.values() if kind.idle_interval_days]
    assert idle == [moth]


# 80 to 100 ppm N for odontoglossums: American Orchid Society paragraphs, read.
def test_the_one_published_ceiling() -> None:
    limited = [k for k in TABLE.kinds.values() if k.ceiling_ppm_n is not None]
    published = [kind.key for kind in limited if not kind.ceiling_is_ours]
    assert published == ["odontoglossum"]
    assert TABLE.kinds["odontoglossum"].ceiling_ppm_n == 100


# Leaf growth of Zygopetalum Redvale 'Fire Kiss' stops at 6.2 °C: ASHS abstract, read.
def test_a_base_temperature_from_a_trial() -> None:
    assert TABLE.kinds["zygopetalum"].base_c == 6.2
    assert "base_c" not in TABLE.kinds["zygopetalum"].memory


def test_the_fallback_is_careful() -> None:
    general = TABLE.general
    assert general.rest is Rest.REDUCED
    assert general.feeder is Feeder.LIGHT
    assert general.ceiling_ppm_n == 100
    assert general.ceiling_is_ours
    assert general.warmth is Warmth.INTERMEDIATE
    assert not general.spike_draws_feed


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Cattleya", "cattleya"),
        ("Cattleya hybrid", "cattleya"),
        ("Cattleya coccinea", "cattleya"),
        ("Rlc. Memoria Crispin Rosales", "cattleya"),
        ("rlc", "cattleya"),
        ("Lc.", "cattleya"),
        ("Blc. George King 'Serendipity'", "cattleya"),
        ("Slc", "cattleya"),
        ("×Brassocattleya Maikai", "cattleya"),
        ("x Laeliocattleya", "cattleya"),
        ("X Cattlianthe Jewel Box", "cattleya"),
        ("Rhyncholaeliocattleya", "cattleya"),
        ("C. guttata", "cattleya-bifoliate"),
        ("Cattleya amethystoglossa", "cattleya-bifoliate"),
        ("Cattleya (bifoliate)", "cattleya-bifoliate"),
        ("Laelia", "laelia"),
        ("Laelia anceps", "laelia"),
        ("L. autumnalis", "laelia"),
        ("Laelia purpurata", "cattleya"),
        ("Cattleya milleri", "laelia-rupicolous"),
        ("Laelia cinnabarina", "laelia-rupicolous"),
        ("Cattleya crispata", "laelia-rupicolous"),
        ("Cattleya skinneri", "guarianthe"),
        ("Brassavola digbyana", "rhyncholaelia"),
        ("Oncidopsis Nelly Isler", "oncidium"),
        ("Aliceara", "oncidium"),
        ("Vuyl. Cambria 'Plush'", "oncidium"),
        ("Wils.", "oncidium"),
        ("Odontioda", "odontoglossum"),
        ("Rst. bictoniensis", "odontoglossum"),
        ("Ascda. Princess Mikasa", "vanda"),
        ("Mokara", "vanda"),
        ("Aranda", "vanda"),
        ("Renantanda", "vanda"),
        ("Rhynchostylis gigantea", "vanda"),
        ("Vandachostylis Prapawan 'Tanzanite' AM/AOS", "vanda"),
        ("Vanda falcata", "neofinetia"),
        ("V. falcata 'Amami'", "neofinetia"),
        ("Neof.", "neofinetia"),
        ("Fdk. After Dark", "catasetum"),
        ("Clowesetum", "catasetum"),
        ("Catanoches", "catasetum"),
        ("Cycnodes Wine Delight", "catasetum"),
        ("Monn. Millennium Magic", "catasetum"),
        ("Catamodes", "catasetum"),
        ("cycnoches", "catasetum"),
        ("mormodes", "catasetum"),
        ("clowesia", "catasetum"),
        ("Dtps.", "phalaenopsis"),
        ("Doritis pulcherrima", "phalaenopsis"),
        ("Sedirea japonica", "phalaenopsis"),
        ("moth orchid", "phalaenopsis"),
        ("Angulocaste Olympus", "anguloa"),
        ("Lycaste aromatica", "lycaste"),
        ("Lyc. skinneri", "lycaste-evergreen"),
        ("Coelogyne", "coelogyne"),
        ("Coel. cristata", "coelogyne-cool"),
        ("Dendrobium", "dendrobium"),
        ("Dendrobium Stardust", "dendrobium"),
        ("Den. nobile", "dendrobium-nobile"),
        ("DENDROBIUM NOBILE", "dendrobium-nobile"),
        ("Dendrobium bigibbum", "dendrobium-biggibum"),
        ("dendrobium-bigibbum", "dendrobium-biggibum"),
        ("Dendrobium phalaenopsis", "dendrobium-biggibum"),
        ("Den-Phal", "dendrobium-biggibum"),
        ("Dendrobium kingianum", "dendrobium-kingianum"),
        ("Den. speciosum", "dendrobium-kingianum"),
        ("Dendrobium aphyllum", "dendrobium-pendulous"),
        ("Dendrobium anosmum", "dendrobium-pendulous"),
        ("Dendrobium densiflorum", "dendrobium-callista"),
        ("Dendrobium lindleyi", "dendrobium-callista"),
        ("Dendrobium sect. Callista", "dendrobium-callista"),
        ("Dendrobium thyrsiflorum", "dendrobium-callista"),
        ("Dendrobium formosum", "dendrobium-formosae"),
        ("Dendrobium spectabile", "dendrobium-latouria"),
        ("Paph.", "paphiopedilum"),
        ("Paphiopedilum Maudiae", "paphiopedilum"),
        ("Paph. rothschildianum", "paphiopedilum-multifloral"),
        ("Paph. bellatulum", "paphiopedilum-brachypetalum"),
        ("Prosthechea cochleata", "epidendrum"),
        ("Masdevallia ×measuresiana", "masdevallia"),
    ],
)
def test_a_name_leads_to_its_kind(name: str, key: str) -> None:
    assert found(name) == key


@pytest.mark.parametrize(
    "name", ["", "   ", "×", "x", "...", "Rosa canina", "Bobia", "NoID", "E.", "Max's"]
)
def test_an_unknown_name_leads_nowhere(name: str) -> None:
    assert TABLE.find(name) is None


def test_parents_do_not_decide() -> None:
    assert found("Rlc. Nobody's Grex (Cattleya guttata × Dendrobium nobile)") == (
        "cattleya"
    )


def test_a_bare_dendrobium_is_not_taken_for_one_that_never_rests() -> None:
    kind = TABLE.kinds["dendrobium"]
    assert kind.rest is Rest.UNFED
    assert "section" in kind.advice


@given(st.text())
def test_finding_never_fails(text: str) -> None:
    kind = TABLE.find(text)
    assert kind is None or kind.key in TABLE.kinds


def test_names_are_read_without_the_second_table() -> None:
    alone = parse_table(KINDS_CSV)
    assert isinstance(alone, KindTable)
    kind = alone.find("Catasetum")
    assert kind is not None
    assert kind.key == "catasetum"
    assert alone.find("Rlc.") is None


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("key", ""),
        ("title", ""),
        ("source", ""),
        ("habit", "bushy"),
        ("rest", "sleepy"),
        ("rest_months", "11;13"),
        ("rest_months", "11;11"),
        ("rest_months", "winter"),
        ("rest_months", ""),
        ("resume", "spring"),
        ("resume", "growth-or-roots"),
        ("resume_root_mm", "80"),
        ("resume_root_mm", ""),
        ("feeder", "greedy"),
        ("warmth", "hot"),
        ("base_c", "nan"),
        ("base_c", "18"),
        ("least_feed_c", "40"),
        ("light_low_fc", "-5"),
        ("light_low_fc", "9000"),
        ("ceiling_ppm_n", "lots"),
        ("ceiling_is_ours", "maybe"),
        ("idle_interval_days", "14.5"),
        ("repot_years", "inf"),
        ("memory", "rest;colour"),
    ],
)
def test_a_bad_cell_is_named(column: str, value: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_table(with_cell(column, value))
    assert caught.value.field == f"kinds.csv, row 2, {column}"
    assert "row 2" in caught.value.line()


def test_a_key_given_twice() -> None:
    with pytest.raises(InputError, match="given twice") as caught:
        parse_table(with_cell("key", "phalaenopsis", row=3))
    assert caught.value.field == "kinds.csv, row 4, key"


def test_a_genus_with_two_kinds() -> None:
    with pytest.raises(InputError, match="leads to phalaenopsis already"):
        parse_table(with_cell("genera", "Phalaenopsis", row=3))


def test_the_fallback_must_be_there() -> None:
    with pytest.raises(InputError, match="'general' is missing"):
        parse_table(with_cell("key", "generic"))


@pytest.mark.parametrize("text", ["", "key,title\n", KINDS_CSV.replace("key,", "kez,")])
def test_a_bad_header(text: str) -> None:
    with pytest.raises(InputError) as caught:
        parse_table(text)
    assert caught.value.field == "kinds.csv, header"


def test_a_short_row() -> None:
    with pytest.raises(InputError) as caught:
        parse_table(KINDS_CSV + "one,two\n")
    assert caught.value.value == 2


@pytest.mark.parametrize(
    ("row", "column"),
    [
        (",Xx.,cattleya,memory", "name"),
        ("Xxara,Xx.,cattleya,", "source"),
        ("Xxara,Xx.,nonesuch,memory", "kind"),
        ("Cattleya,,laelia,memory", "name"),
        ("Xxara,C.,cattleya,memory", "abbreviations"),
    ],
)
def test_a_bad_row_of_names(row: str, column: str) -> None:
    last = len(GENERA_CSV.splitlines()) + 1
    with pytest.raises(InputError) as caught:
        parse_table(KINDS_CSV, GENERA_CSV + row + "\n")
    assert caught.value.field == f"genera.csv, row {last}, {column}"
