"""Nights and days against what kinds stand.

Least nights of *Phalaenopsis* (15.5 °C), cattleyas (12 to 13 °C), deciduous dendrobiums
(4.5 to 7 °C) and cymbidiums (1 to 4 °C): "Cold Tolerance of Warm-Growing Orchids",
American Orchid Society, https://aos.org/orchids/articles/cold-tolerance-of-warm-growing-orchids
"""

from __future__ import annotations

import pytest

from growdesk.domain import night_words
from growdesk.domain.facts import House
from growdesk.domain.night import (
    Expected,
    Shelter,
    Standing,
    Threat,
    Warned,
    at_plant,
    warnings,
)
from growdesk.services import kinds

HOUSE = House(glass_colder_c=3, glass_hotter_c=4)
KINDS = kinds.table().kinds


def standing(kind: str, *, glass: bool = False, outdoors: bool = False) -> Standing:
    return Standing("A1", KINDS[kind], glass, outdoors)


def warned(
    low_c: float | None, high_c: float | None, one: Standing
) -> list[tuple[Threat, Shelter, float]]:
    found = warnings(Expected(low_c, high_c), [one], HOUSE)
    return [(each.threat, each.shelter, each.expected_c) for each in found]


@pytest.mark.parametrize(
    ("kind", "low_c", "high_c"),
    [
        ("phalaenopsis", 15.5, 15.5),
        ("cattleya", 12.0, 13.0),
        ("dendrobium-nobile", 4.5, 7.0),
        ("dendrobium-kingianum", 1.0, 4.0),
        ("cymbidium", 1.0, 4.0),
    ],
)
def test_least_nights_are_the_published_ones(
    kind: str, low_c: float, high_c: float
) -> None:
    assert low_c <= KINDS[kind].least_night_c <= high_c
    assert "Cold Tolerance of Warm-Growing Orchids" in KINDS[kind].source
    assert "least_night_c" not in KINDS[kind].memory


def test_a_kind_without_a_read_figure_says_so() -> None:
    unread = [k for k in KINDS.values() if "Cold Tolerance" not in k.source]
    assert len(unread) > 40
    assert all("least_night_c" in kind.memory for kind in unread)
    assert all("most_day_c" in kind.memory for kind in KINDS.values())


def test_cold_is_below_what_the_kind_stands() -> None:
    assert warned(15.5, None, standing("phalaenopsis")) == []
    assert warned(15.4, None, standing("phalaenopsis")) == [
        (Threat.COLD, Shelter.ELSEWHERE, 15.4)
    ]


def test_at_the_glass_it_is_colder_and_the_room_is_shelter() -> None:
    one = standing("phalaenopsis", glass=True)
    assert warned(18.5, None, one) == []
    assert warned(18.0, None, one) == [(Threat.COLD, Shelter.FROM_GLASS, 15.0)]
    assert warned(15.0, None, one) == [(Threat.COLD, Shelter.ELSEWHERE, 12.0)]


def test_outdoors_no_pane_makes_it_colder() -> None:
    out = standing("cymbidium", glass=True, outdoors=True)
    assert at_plant(Expected(2, 30), out, HOUSE) == Expected(2, 30)
    assert warned(2, None, out) == []
    assert warned(1.9, None, out) == [(Threat.COLD, Shelter.ELSEWHERE, 1.9)]


def test_heat_is_above_what_the_kind_stands_and_hotter_at_the_glass() -> None:
    most_c = KINDS["masdevallia"].most_day_c
    assert warned(None, most_c, standing("masdevallia")) == []
    glass = standing("masdevallia", glass=True)
    assert warned(None, most_c, glass) == [
        (Threat.HEAT, Shelter.FROM_GLASS, most_c + 4)
    ]
    assert warned(None, most_c + 1, glass)[0][1] is Shelter.ELSEWHERE


def test_nothing_expected_warns_of_nothing() -> None:
    assert warned(None, None, standing("phalaenopsis", glass=True)) == []


def test_both_can_come_on_one_day() -> None:
    found = warned(5, 40, standing("phalaenopsis"))
    assert [each[0] for each in found] == [Threat.COLD, Threat.HEAT]


@pytest.mark.parametrize("threat", Threat)
@pytest.mark.parametrize("shelter", Shelter)
def test_it_is_said_what_to_do_and_why(threat: Threat, shelter: Shelter) -> None:
    one = Warned("A1", threat, shelter, 12.25, 15.5)
    assert night_words.what_to_do(one).startswith("Take it ")
    assert night_words.why(one).startswith("About 12.2 °C where it stands; ")
    assert "15.5 °C or " in night_words.why(one)
    assert one.by_c == 3.25
