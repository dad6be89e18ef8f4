"""Doubtful names are kept as typed, said to be doubtful, and led to a way out."""

import pytest

from growdesk.domain import name_words
from growdesk.domain.name_runs import Form, shown
from growdesk.domain.plant_name import Award, DoubtSort
from tests.domain.name_builders import GENERA, read, set_as, sorts

DOUBTFUL = [
    ("Moth orchid", ["no-genus"], ()),
    ("V. coerulea", ["unsure-genus"], ("Vanda coerulea", "Vanilla coerulea")),
    ("Cattelya walkeriana", ["misspelt"], ("Cattleya walkeriana",)),
    ("phal. amabilis", ["small-genus"], ("Phal. amabilis",)),
    ("cattleya intermedia", ["small-genus"], ("Cattleya intermedia",)),
    (
        "Phalaenopsis AMABILIS",
        ["capitals"],
        ("Phalaenopsis Amabilis", "Phalaenopsis amabilis"),
    ),
    ("Cattleya Walkeriana", ["capital-species"], ("Cattleya walkeriana",)),
    (
        "Cattleya intermedia var. Alba",
        ["capital-epithet"],
        ("Cattleya intermedia var. alba",),
    ),
    (
        "Cattleya mini purple",
        ["second-epithet"],
        (
            "Cattleya mini var. purple",
            "Cattleya Mini Purple",
            "Cattleya mini 'Purple'",
        ),
    ),
    (
        "Den. kingianum rail shed",
        ["second-epithet"],
        ("Den. Kingianum Rail Shed", "Den. kingianum 'Rail Shed'"),
    ),
    ("Cattleya intermedia var. >Alba", ["capital-epithet"], ()),
    (
        "Vandachostylis Prapawan tanzanite",
        ["unquoted"],
        (
            "Vandachostylis Prapawan 'Tanzanite'",
            "Vandachostylis Prapawan Tanzanite",
        ),
    ),
    ("Phal. amabilis Snow Fence", ["unquoted"], ("Phal. amabilis 'Snow Fence'",)),
    ('Phal. Foo "Big Foot"', ["double-quotes"], ("Phal. Foo 'Big Foot'",)),
    ("Phal. Foo 'Bar AM/AOS", ["open-quote"], ("Phal. Foo 'Bar' AM/AOS",)),
    ("Phal. Foo 'Bar' 'Baz'", ["second-clone"], ()),
    (
        "Van. Prapawan Tanzanite AM/AOS",
        ["award-without-clone"],
        ("Van. Prapawan 'Tanzanite' AM/AOS",),
    ),
    ("Laelia anceps AM/AOS", ["award-without-clone"], ()),
    ("Phal. Foo 'Bar' AM", ["award-without-society"], ()),
    ("Phal. (A \u00d7 B", ["brackets"], ("Phal. (A \u00d7 B)",)),
    ("Phal. A \u00d7 B \u00d7 C", ["several-crosses"], ()),
    ("Phal. Foo \u00d7", ["half-cross"], ()),
    ("Cattleya labiata?", ["question"], ("Cattleya cf. labiata",)),
    ("Phal. Foo 'Bar' Thing", ["left-over"], ("Phal. Foo 'Bar', Thing",)),
]


@pytest.mark.parametrize(("typed", "wanted", "proposals"), DOUBTFUL)
def test_a_doubtful_name(
    typed: str, wanted: list[str], proposals: tuple[str, ...]
) -> None:
    name = read(typed)
    assert [str(doubt.sort) for doubt in name.doubts] == wanted
    assert name.doubts[0].proposals == proposals
    assert set_as(typed) == typed
    assert shown(name, Form.FULL) == typed
    for proposal in proposals:
        assert not read(proposal).doubts, proposal


@pytest.mark.parametrize(
    ("typed", "wanted", "set_so", "proposals"),
    [
        ("Rlc Foo", ["no-stop"], "_Rlc_ Foo", ("Rlc. Foo",)),
        ("Acacallis cyanea", ["unknown-genus"], "_Acacallis cyanea_", ()),
        ("Phal. Foo 'bar'", ["small-clone"], "_Phal._ Foo ‘bar’", ("Phal. Foo 'Bar'",)),
    ],
)
def test_a_gentle_doubt_leaves_the_name_set(
    typed: str, wanted: list[str], set_so: str, proposals: tuple[str, ...]
) -> None:
    assert sorts(typed) == wanted
    assert set_as(typed) == set_so
    assert read(typed).doubts[0].proposals == proposals


@pytest.mark.parametrize("sort", list(DoubtSort))
def test_every_doubt_is_said_in_whole_sentences(sort: DoubtSort) -> None:
    assert sort in name_words._SAID
    assert name_words._SAID[sort].endswith(".")
    assert name_words._SETTLES[sort].endswith(".")


def test_doubts_in_words() -> None:
    doubt = read("Vandachostylis Prapawan tanzanite").doubts[0]
    assert name_words.said(doubt) == (
        "“tanzanite” stands without quotes: a clone name goes in single quotes."
    )
    assert name_words.settles(doubt) == (
        "Put it in quotes, or give it a capital if it belongs to the grex."
    )
    assert name_words.said(read("P. amabilis").doubts[0]) == (
        "“P.” may stand for Phalaenopsis, Paphiopedilum or Pleione."
    )


def test_a_letter_is_read_by_the_genus_around_it() -> None:
    """Never by a guess: P. alone is doubtful, P. among Pleione is Pleione."""
    assert sorts("P. El Pico") == ["unsure-genus"]
    name = read("Phal. Foo (P. amabilis × P. equestris)")
    assert name.pod
    assert name.pod.genus == "Phalaenopsis"
    made = read("Cattlianthe Foo (C. walkeriana × Gur. skinneri)")
    assert made.pod
    assert made.pollen
    assert (made.pod.genus, made.pollen.genus) == ("Cattleya", "Guarianthe")


def test_parts_of_a_whole_label() -> None:
    name = read("Rlc. [Blc.] Foo Bar ‘Baz’ FCC/RHS, AM/AOS (A × (B × C)) 4N")
    assert not name.doubts
    assert (name.genus, name.genus_typed) == ("Rhyncholaeliocattleya", "Rlc.")
    assert (name.former, name.grex, name.clone) == ("Blc.", "Foo Bar", "Baz")
    assert name.awards == (Award("FCC", "RHS"), Award("AM", "AOS"))
    assert name.notes == ("4N",)
    assert name.pollen
    assert name.pollen.pollen
    assert name.pollen.pollen.grex == "C"
    assert name_words.parts_line(name) == (
        "made genus Rhyncholaeliocattleya; once under Blc.; grex Foo Bar; "
        "clone ‘Baz’; award FCC/RHS, AM/AOS; pod parent Rhyncholaeliocattleya A; "
        "pollen parent Rhyncholaeliocattleya (Rhyncholaeliocattleya B × "
        "Rhyncholaeliocattleya C); note 4N"
    )


@pytest.mark.parametrize(
    ("typed", "qualifiers", "no_id", "set_so"),
    [
        ("Cattleya sp.", ("sp.",), False, "_Cattleya_ sp."),
        ("Cattleya cf. labiata", ("cf.",), False, "_Cattleya_ cf. _labiata_"),
        ("Den. aff. nobile", ("aff.",), False, "_Den._ aff. _nobile_"),
        ("C. hybrid", ("hybrid",), False, "_C._ hybrid"),
        ("No ID", (), True, "No ID"),
        ("NoID Phal.", (), True, "NoID _Phal._"),
        ("Phalaenopsis no id", (), True, "_Phalaenopsis_ no id"),
        ("Den. sect. Callista", (), False, "_Den._ sect. _Callista_"),
        ("Phal. Little Kiss™", (), False, "_Phal._ Little Kiss™"),
        ("Cattleya labiata Lindl.", (), False, "_Cattleya labiata_ Lindl."),
    ],
)
def test_names_known_in_part(
    typed: str, qualifiers: tuple[str, ...], set_so: str, *, no_id: bool
) -> None:
    name = read(typed)
    assert not name.doubts
    assert (name.qualifiers, name.no_id) == (qualifiers, no_id)
    assert set_as(typed) == set_so


@pytest.mark.parametrize("rank", ["var.", "v."])
def test_a_variety_of_a_cross(rank: str) -> None:
    name = read(f"Paph. Pinocchio (glaucophyllum × primulinum) {rank} flavum")
    assert not name.doubts
    assert name.ranks == ((rank, "flavum"),)
    assert ("variety", "flavum") in name_words.parts(name)


def test_the_genus_short_and_in_full() -> None:
    assert set_as("Phalaenopsis amabilis", Form.SHORT) == "_Phal. amabilis_"
    assert set_as("Rlc. Foo", Form.FULL) == "_Rhyncholaeliocattleya_ Foo"
    assert set_as("Vanda coerulea", Form.SHORT) == "_Vanda coerulea_"
    assert set_as("Phalaenopsis", Form.SHORT) == "_Phalaenopsis_"
    assert GENERA.short_of("Vanda") == "Vanda"


def test_a_plant_crossed_with_itself_has_no_second_name() -> None:
    """*self* and *sib* stand for the pollen parent; common practice, no source."""
    for typed in ("Cattleya (Mini Purple × self)", "Cattleya Mini Purple x self"):
        name = read(typed)
        assert not name.doubts
        assert dict(name_words.parts(name)) == {
            "genus": "Cattleya",
            "pod parent": "Cattleya Mini Purple",
            "pollen parent": "self",
        }
    alone = read("Cattleya × sib")
    assert not alone.species
    assert dict(name_words.parts(alone))["pollen parent"] == "sib"


def test_a_rank_may_stand_in_the_second_parent() -> None:
    name = read("Cattleya walkeriana × nobilior var. alba")
    assert not name.doubts
    assert name.pollen
    assert name.pollen.ranks == (("var.", "alba"),)


def test_a_hybrid_sign_typed_as_x_may_touch_its_genus() -> None:
    assert set_as("xLaeliocattleya Canhamiana") == "×_Laeliocattleya_ Canhamiana"
    name = read("xLaeliocattleya Canhamiana")
    assert not name.doubts
    assert name.is_nothogenus


@pytest.mark.parametrize("word", ["Hybride", "hybr.", "Hybrid", "spec."])
def test_a_label_that_names_no_species_is_no_grex(word: str) -> None:
    name = read(f"Phalaenopsis {word}")
    assert (name.species, name.grex, name.qualifiers) == ("", "", (word,))


@pytest.mark.parametrize(
    "typed",
    [
        "Cattleya nobile rail shed seedling 4n",
        "xBrassocattleyo nobile var. alba selfed",
        "Vanda kingianum cv. Rail= Shed ((",
        "Cattelya mini purple light (A × self)",
        "Den. kingianum rail shed am/aos?",
    ],
)
def test_what_is_proposed_settles_its_doubt(typed: str) -> None:
    for doubt in read(typed).doubts:
        for proposal in doubt.proposals:
            still = {(each.sort, each.about) for each in read(proposal).doubts}
            assert (doubt.sort, doubt.about) not in still, proposal
