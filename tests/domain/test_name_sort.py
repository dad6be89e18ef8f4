"""Names in the order of a grower's list, and what is offered while one types."""

import pytest

from growdesk.domain.name_offers import offered
from growdesk.domain.name_sort import sort_key
from tests.domain.name_builders import GENERA, read


def test_a_shelf_of_names_in_order() -> None:
    wanted = [
        "Bulb. lobbii",
        "Ctsm. Foo × Cyc. Bar",
        "C. aclandiae",
        "Cattleya Élégance",
        "Cattleya × elegans",
        "C. Final Touch",
        "Cattleya walkeriana",
        "C. walkeriana var. coerulea",
        "Cattleya walkeriana 'Alpha'",
        "C. walkeriana 'Beta'",
        "C. (amethystoglossa × Zeta)",
        "Cattleya sp.",
        "Moth orchid",
        "Phal. Super 9",
        "Phalaenopsis Super 10",
        "Rlc. Alpha",
        "No ID",
        "",
    ]
    mixed = sorted(wanted, key=lambda text: text[::-1])
    assert mixed != wanted
    found = sorted(mixed, key=lambda text: sort_key(read(text)))
    varieties = found.index("C. walkeriana var. coerulea")
    found.remove("C. walkeriana var. coerulea")
    assert varieties == found.index("C. walkeriana 'Beta'") + 1
    wanted.remove("C. walkeriana var. coerulea")
    assert found == wanted


@pytest.mark.parametrize(
    ("typed", "said", "line"),
    [
        (
            "Rlc",
            "Rhyncholaeliocattleya (Rlc.): Cattleya × Rhyncholaelia",
            "Rlc. ",
        ),
        ("phal", "Phalaenopsis (Phal.)", "Phal. "),
        ("Neof", "Neofinetia (Neof.), now Vanda", "Neof. "),
        ("Phalaeno", "Phalaenopsis (Phal.)", "Phalaenopsis "),
        ("V", "Vanda (V.)", "Vanda "),
        ("Phal. Foo (Dor", "Doritis (Dor.), now Phalaenopsis", "Phal. Foo (Dor. "),
        ("C. walkeriana × Gu", "Guarianthe (Gur.)", "C. walkeriana × Gur. "),
    ],
)
def test_what_is_offered_first(typed: str, said: str, line: str) -> None:
    first = offered(typed, GENERA)[0]
    assert first.said.startswith(said)
    assert first.line == line


@pytest.mark.parametrize("typed", ["", "Phal. ", "Phal. ama", "Rlc.", "Zzz", "4"])
def test_nothing_is_offered_where_no_genus_is_typed(typed: str) -> None:
    assert offered(typed, GENERA) == ()


def test_no_more_is_offered_than_asked_for() -> None:
    assert len(offered("C", GENERA, 3)) == 3


def test_an_abbreviated_genus_sorts_with_the_genus_in_full() -> None:
    typed = ["Rlc. Alpha", "Phalaenopsis amabilis", "C. labiata", "Bulb. lobbii"]
    found = sorted(typed, key=lambda text: sort_key(read(text)))
    assert found == [
        "Bulb. lobbii",
        "C. labiata",
        "Phalaenopsis amabilis",
        "Rlc. Alpha",
    ]
