"""The order of the gates, strongest first, as the design's table gives it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Health,
    Leaves,
    NewGrowths,
    Overrule,
    Place,
    Plant,
    Reading,
    RootTips,
    Verdict,
)
from tests.domain.builders import day, did, fed, judged, look, moving, plant, still

if TYPE_CHECKING:
    from collections.abc import Callable

ON = "11-20"


@dataclass(frozen=True)
class Turn:
    """A gate and what makes it hold on a plant, whatever else holds."""

    rule: str
    make: Callable[[Plant], Plant]


def _last_look(one: Plant, **signs: object) -> Plant:
    *others, last = one.looks
    return replace(one, looks=(*others, replace(last, **signs)))


def _with_health(one: Plant, health: Health) -> Plant:
    known = one.looks[-1].health or frozenset()
    return _last_look(one, health=known | {health})


def _in_place(one: Plant, mean_c: float) -> Plant:
    read = (Reading(day(ON), mean_c),)
    return replace(one, place=Place(readings=read))


# A plant that rests unfed in November and whose look is of two days before.
STRONGEST_FIRST = (
    Turn(
        "overruled",
        lambda p: replace(p, overrule=Overrule(Verdict.FEED, "so", day("12-01"))),
    ),
    Turn(
        "look-out-of-date",
        lambda p: replace(p, looks=(replace(p.looks[-1], on=day("10-20")),)),
    ),
    Turn("rot", lambda p: _with_health(p, Health.ROT)),
    Turn("cannot-drink", lambda p: _with_health(p, Health.NO_ROOTS)),
    Turn("too-cold", lambda p: _in_place(p, 5.0)),
    Turn("unfed-rest", lambda p: replace(p, kind="laelia-rupicolous")),
    Turn(
        "just-repotted",
        lambda p: replace(p, care=(*p.care, did("11-19", CareKind.REPOT))),
    ),
    Turn("too-soon", lambda p: replace(p, care=(*p.care, fed("11-18")), mounted=False)),
)
PAIRS = tuple(combinations(STRONGEST_FIRST, 2))


@pytest.mark.parametrize(
    ("strong", "weak"),
    [pytest.param(*pair, id=f"{pair[0].rule}-{pair[1].rule}") for pair in PAIRS],
)
def test_the_stronger_of_two_gates_decides(strong: Turn, weak: Turn) -> None:
    one = weak.make(strong.make(plant("cattleya", still("11-18"))))
    assert judged(one, ON).rule == strong.rule


def test_all_at_once_they_fall_in_order() -> None:
    for first in range(len(STRONGEST_FIRST)):
        one = plant("cattleya", still("11-18"))
        for turn in STRONGEST_FIRST[first:]:
            one = turn.make(one)
        assert judged(one, ON).rule == STRONGEST_FIRST[first].rule


def test_the_gates_that_lost_are_kept() -> None:
    one = plant("cattleya", moving("11-18"))
    for turn in STRONGEST_FIRST[2:]:
        one = turn.make(one)
    rules = {reason.rule for reason in judged(one, ON).reasons}
    assert {"rot", "cannot-drink", "too-cold", "just-repotted", "too-soon"} <= rules


def test_the_leafless_rest_beats_an_old_look_and_rot() -> None:
    bare = look("03-01", leaves=Leaves.LEAFLESS, health=[Health.ROT])
    got = judged(plant("catasetum", bare), "04-20")
    assert got.rule == "leafless-rest"


def test_rot_beats_going_down_and_still_green() -> None:
    shown = still("2025-12-28", leaves=Leaves.YELLOWING, health=[Health.ROT])
    assert judged(plant("catasetum", shown), "2025-12-30").rule == "rot"


def test_going_down_beats_cannot_drink() -> None:
    shown = still("11-18", leaves=Leaves.DROPPING, health=[Health.NO_ROOTS])
    assert judged(plant("catasetum", shown), ON).rule == "going-down"


def test_still_green_beats_cannot_drink() -> None:
    shown = still("2025-12-28", leaves=Leaves.FIRM, health=[Health.NO_ROOTS])
    assert judged(plant("catasetum", shown), "2025-12-30").rule == "still-green"


def test_an_unfed_rest_beats_a_repot_and_salts() -> None:
    care = (fed("10-01"), fed("10-10"), fed("10-20"), did("11-19", CareKind.REPOT))
    one = plant("dendrobium-nobile", moving("11-18"), care=care)
    assert judged(one, ON).rule == "unfed-rest"


def test_a_repot_beats_salts() -> None:
    burnt = moving("05-05", health=[Health.SALT_BURN], root_tips=RootTips.NONE)
    care = (did("05-04", CareKind.REPOT),)
    assert judged(plant("cattleya", burnt, care=care), "05-08").rule == "just-repotted"


def test_salts_beat_an_idle_feed() -> None:
    care = (fed("03-01"), fed("03-20"), fed("04-10"))
    hidden = look("05-05", root_tips=RootTips.HIDDEN, new_growths=NewGrowths(0, 0, 0))
    got = judged(plant("phalaenopsis", hidden, care=care), "05-08")
    assert got.rule in ("salts", "not-growing")
    assert got.verdict != "feed"


def test_too_soon_beats_growing_even_with_flowers_on_the_way() -> None:
    shown = moving("05-05", Flowering.SPIKE)
    got = judged(plant("phalaenopsis", shown, care=(fed("05-06"),)), "05-08")
    assert got.rule == "too-soon"
