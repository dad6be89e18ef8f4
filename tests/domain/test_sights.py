"""What a grower could see or do next: offered to whom, and what it makes of a plant."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain.case import Case
from growdesk.domain.change import would_change
from growdesk.domain.facts import (
    Bulbs,
    CareKind,
    Flowering,
    Health,
    Leaves,
    Look,
    NewGrowths,
    NewLeaf,
    Plant,
    RootTips,
)
from growdesk.domain.freshened import looked_at
from growdesk.domain.sights_lost import harmful
from growdesk.domain.trials import Trials
from tests.domain.builders import (
    HOUSE,
    day,
    did,
    fed,
    kind_of,
    look,
    moving,
    plant,
    still,
    warm_place,
)

if TYPE_CHECKING:
    from growdesk.domain.sights import Alteration

ON = day("2026-05-20")
STALLED = NewGrowths(0, 0, 0, 1, 1)
LEAF_STILL = look("05-18", new_leaf=NewLeaf.NONE, root_tips=RootTips.NONE)
FEEDS = (did("04-01", CareKind.FLUSH), *(fed(on) for on in ("04-10", "04-20", "05-01")))
PLANTS = {
    "at rest": plant("cattleya", still("05-18")),
    "never looked at": plant("cattleya"),
    "looked at long ago": plant("cattleya", still("04-01", lead_length_mm=40.0)),
    "a monopodial": plant("vanda", LEAF_STILL),
    "a spike that draws feed": plant(
        "phalaenopsis",
        look("05-18", Flowering.SPIKE, new_leaf=NewLeaf.NONE, root_tips=RootTips.NONE),
    ),
    "a stalled growth": plant("cattleya", still("05-18", new_growths=STALLED)),
    "a soft cane": plant("dendrobium-nobile", still("05-18")),
    "bare": plant("catasetum", still("05-18", leaves=Leaves.LEAFLESS)),
    "bare, by growth": plant("pleione", still("05-18", leaves=Leaves.LEAFLESS)),
    "rot": plant("cattleya", moving("05-18", health=[Health.ROT, Health.PESTS])),
    "no roots": plant(
        "cattleya", moving("05-18", health=[Health.NO_ROOTS, Health.PESTS])
    ),
    "shrivelled leaves": plant("cattleya", moving("05-18", leaves=Leaves.SHRIVELLED)),
    "shrivelled bulbs": plant(
        "cattleya", moving("05-18", leaves=Leaves.YELLOWING, bulbs=Bulbs.SHRIVELLED)
    ),
    "cold": plant("cattleya", moving("05-18"), place=warm_place(13.0, "2026-05-20")),
    "not quite cold": plant(
        "cattleya", moving("05-18"), place=warm_place(17.0, "2026-05-20")
    ),
    "hot": plant("cattleya", moving("05-18"), place=warm_place(32.1, "2026-05-20")),
    "flush due": plant("cattleya", moving("05-18"), care=FEEDS),
    "repotted": plant(
        "cattleya", moving("05-10"), care=(did("05-12", CareKind.REPOT),)
    ),
    "just not near cold": plant(
        "cattleya", moving("05-18"), place=warm_place(17.1, "2026-05-20")
    ),
    "as hot as it may be": plant(
        "cattleya", moving("05-18"), place=warm_place(32.0, "2026-05-20")
    ),
    "just repotted": plant("cattleya", moving("05-10"), repotted_on=day("2026-05-10")),
    "roots not to be seen": plant(
        "cattleya", moving("05-18", root_tips=RootTips.HIDDEN)
    ),
    "a leaf and a new growth": plant(
        "vanda",
        moving("05-18", Flowering.BUDS, Flowering.OPEN, new_leaf=NewLeaf.STARTING),
    ),
    "leaves going": plant("catasetum", moving("05-18", leaves=Leaves.DROPPING)),
    "in leaf long ago": plant(
        "catasetum",
        moving("04-01", leaves=Leaves.FIRM, longest_new_root_mm=90.0),
    ),
    "a lead that stands": plant(
        "dendrobium-nobile",
        still("04-20", new_growths=NewGrowths(0, 1), lead_length_mm=40.0),
        still("05-18", new_growths=NewGrowths(0, 1), lead_length_mm=40.0),
    ),
    "flushed today": plant(
        "cattleya", moving("05-18"), care=(*FEEDS, did("05-20", CareKind.FLUSH))
    ),
}


def case_of(one: Plant) -> Case:
    return Case(one, kind_of(one), HOUSE, ON)


def told(value: object) -> str:
    if isinstance(value, frozenset):
        return "+".join(sorted(value))
    if isinstance(value, NewGrowths):
        counts = (getattr(value, field) for field in value.__struct_fields__)
        return "/".join("-" if count is None else str(count) for count in counts)
    return str(value)


def altered(one: Plant, alteration: Alteration) -> str:
    """Give what an alteration changes of a plant, and nothing of what it leaves."""
    made = Trials(case_of(one)).altered((alteration,))
    if alteration.key in ("warmer", "cooler"):
        return f"mean {made.place.mean_temperature_c} of {made.place.readings}"
    if made.care != one.care:
        assert made.care[:-1] == one.care
        return f"{made.care[-1].what} {made.care[-1].on}"
    *before, fresh = made.looks
    assert tuple(before) == one.looks
    assert fresh.on == ON
    last = max(one.looks, key=lambda each: each.on, default=Look(ON))
    names = (field for field in fresh.__struct_fields__ if field != "on")
    return " ".join(
        f"{name}={told(getattr(fresh, name))}"
        for name in names
        if getattr(fresh, name) != getattr(last, name)
    )


def offered(one: Plant, *, good: bool) -> list[tuple[str, str]]:
    case = case_of(one)
    found = Trials(case).hopeful if good else harmful(case)
    return [(each.clause(), altered(one, each)) for each in found]


BARE = "new_growths=0/0/0/2/- root_tips=none"
HOPEFUL: dict[str, list[tuple[str, str]]] = {
    "at rest": [
        ("root tips are seen running", "root_tips=running"),
        ("a new growth is seen extending", "new_growths=0/1/0/2/-"),
    ],
    "never looked at": [
        ("root tips are seen running", "root_tips=running"),
        ("a new growth is seen extending", "new_growths=-/1/-/-/-"),
    ],
    "looked at long ago": [
        ("a look today shows what the last one did", "lead_length_mm=None"),
        ("root tips are seen running", "root_tips=running lead_length_mm=None"),
        ("a new growth is seen extending", "new_growths=0/1/0/2/- lead_length_mm=None"),
    ],
    "a monopodial": [
        ("root tips are seen running", "root_tips=running"),
        ("a new leaf is seen extending", "new_leaf=extending"),
    ],
    "a spike that draws feed": [
        ("root tips are seen running", "root_tips=running"),
        ("a new leaf is seen extending", "new_leaf=extending"),
        ("a spike is seen on the way", ""),
    ],
    "a stalled growth": [
        ("root tips are seen running", "root_tips=running"),
        ("its lead is seen to have grown longer", "new_growths=0/1/0/1/0"),
    ],
    "a soft cane": [
        ("root tips are seen running", "root_tips=running"),
        ("a new growth is seen extending", "new_growths=0/1/0/2/-"),
        (
            "a new shoot is seen with root tips of its own",
            "new_growths=0/1/0/2/- root_tips=running",
        ),
        ("a new growth is seen maturing", "new_growths=0/0/1/2/-"),
    ],
    "bare": [
        (
            "its longest new root measures 8 cm",
            "root_tips=running longest_new_root_mm=80.0",
        ),
        ("root tips are seen running", "root_tips=running"),
        ("a new growth is seen extending", "new_growths=0/1/0/2/-"),
    ],
    "bare, by growth": [
        (
            "its longest new root measures 2.5 cm",
            "root_tips=running longest_new_root_mm=25.0",
        ),
        ("a new leaf is seen extending", "new_leaf=extending"),
        ("root tips are seen running", "root_tips=running"),
        ("a new growth is seen extending", "new_growths=0/1/0/2/-"),
    ],
    "rot": [
        ("a look finds it clean of rot", "health=pests"),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "no roots": [
        ("live roots are seen again with running tips", "health=pests"),
        ("a new growth is seen extending", ""),
    ],
    "shrivelled leaves": [
        ("a look finds it plump again", "leaves=firm bulbs=firm"),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "shrivelled bulbs": [
        ("a look finds it plump again", "bulbs=firm"),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "cold": [
        ("its place averages more than 13 °C", "mean 13.1 of ()"),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "not quite cold": [
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "hot": [
        ("its place averages 32 °C or less", "mean 32.0 of ()"),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "flush due": [
        ("it has been flushed", "flush 2026-05-19"),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "repotted": [
        ("root tips are seen running", ""),
        ("a new growth is seen extending", "root_tips=None"),
    ],
    "just not near cold": [
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "as hot as it may be": [
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "just repotted": [
        ("root tips are seen running", ""),
        ("a new growth is seen extending", "root_tips=None"),
    ],
    "roots not to be seen": [
        ("root tips are seen running", "root_tips=running"),
        ("a new growth is seen extending", ""),
    ],
    "a leaf and a new growth": [
        ("root tips are seen running", ""),
        ("a new leaf is seen extending", "new_leaf=extending"),
    ],
    "leaves going": [
        (
            "a look finds it bare and nothing on the move",
            f"{BARE} leaves=leafless",
        ),
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
    "in leaf long ago": [
        (
            "a look finds it bare and nothing on the move",
            f"{BARE} longest_new_root_mm=None leaves=leafless",
        ),
        (
            "its longest new root measures 8 cm",
            "longest_new_root_mm=80.0 leaves=None",
        ),
        ("root tips are seen running", "longest_new_root_mm=None leaves=None"),
        ("a new growth is seen extending", "longest_new_root_mm=None leaves=None"),
    ],
    "a lead that stands": [
        ("root tips are seen running", "root_tips=running"),
        (
            "its lead is seen to have grown longer",
            "new_growths=0/1/-/-/0 lead_length_mm=None",
        ),
        (
            "a new shoot is seen with root tips of its own",
            "root_tips=running lead_length_mm=None",
        ),
        (
            "a new growth is seen maturing",
            "new_growths=0/1/1/-/- lead_length_mm=None",
        ),
    ],
    "flushed today": [
        ("root tips are seen running", ""),
        ("a new growth is seen extending", ""),
    ],
}
STILL = ("a look finds no new growth and no root tips", BARE)
COOLER = ("its place averages 13 °C or less", "mean 13.0 of ()")
HARMFUL: dict[str, list[tuple[str, str]]] = {
    **{name: [STILL] for name in PLANTS},
    **{
        name: []
        for name in (
            "at rest",
            "never looked at",
            "looked at long ago",
            "a monopodial",
            "a stalled growth",
            "a lead that stands",
            "a soft cane",
            "bare",
            "bare, by growth",
        )
    },
    "a spike that draws feed": [
        ("a look finds no spike and no buds on the way", "flowering=none")
    ],
    "roots not to be seen": [
        ("a look finds no new growth", "new_growths=0/0/0/2/-"),
        ("a look at its roots finds no tip on the move", "root_tips=none"),
    ],
    "a leaf and a new growth": [
        (
            "a look finds no new growth, no new leaf and no root tips",
            "new_growths=0/0/0/2/- root_tips=none new_leaf=none",
        )
    ],
    "in leaf long ago": [
        (STILL[0], f"{STILL[1]} longest_new_root_mm=None leaves=None")
    ],
    "cold": [STILL, COOLER],
    "not quite cold": [STILL, COOLER],
}

CHANGES: dict[str, tuple[str, ...]] = {
    "at rest": (
        "If root tips are seen running, it would be fed.",
        "If a new growth is seen extending, it would be fed.",
    ),
    "never looked at": (
        "If root tips are seen running, it would be fed.",
        "If a new growth is seen extending, it would be fed.",
    ),
    "looked at long ago": (
        "If root tips are seen running, it would be fed.",
        "If a new growth is seen extending, it would be fed.",
    ),
    "a monopodial": (
        "If root tips are seen running, it would be fed.",
        "If a new leaf is seen extending, it would be fed.",
    ),
    "a spike that draws feed": (
        (
            "If a look finds no spike and no buds on the way, it would get "
            "clear water instead."
        ),
    ),
    "a stalled growth": (
        "If root tips are seen running, it would be fed.",
        "If its lead is seen to have grown longer, it would be fed.",
    ),
    "a soft cane": (
        "If a new shoot is seen with root tips of its own, it would be fed.",
    ),
    "bare": ("If its longest new root measures 8 cm, it would be fed.",),
    "bare, by growth": (
        "If root tips are seen running, it would get a little clear water.",
        "If its longest new root measures 2.5 cm, it would be fed.",
        "If a new leaf is seen extending, it would be fed.",
    ),
    "rot": ("If a look finds it clean of rot, it would be fed.",),
    "no roots": ("If live roots are seen again with running tips, it would be fed.",),
    "shrivelled leaves": ("If a look finds it plump again, it would be fed.",),
    "shrivelled bulbs": ("If a look finds it plump again, it would be fed.",),
    "cold": ("If its place averages more than 13 °C, it would be fed.",),
    "not quite cold": (
        (
            "If a look finds no new growth and no root tips, it would get clear"
            " water instead."
        ),
        "If its place averages 13 °C or less, it would get clear water instead.",
    ),
    "hot": ("If its place averages 32 °C or less, it would be fed.",),
    "flush due": ("If it has been flushed, it would be fed.",),
    "repotted": (
        "If root tips are seen running, it would be fed.",
        "From 27 May on it could be fed, if it then looks as it did last time.",
    ),
    "just not near cold": (
        (
            "If a look finds no new growth and no root tips, it would get clear"
            " water instead."
        ),
    ),
    "as hot as it may be": (
        (
            "If a look finds no new growth and no root tips, it would get clear"
            " water instead."
        ),
    ),
    "just repotted": (
        "If root tips are seen running, it would be fed.",
        "From 25 May on it could be fed, if it then looks as it did last time.",
    ),
    "flushed today": (
        "From 21 May on it could be fed, if it then looks as it did last time.",
    ),
    "roots not to be seen": (
        "If a look finds no new growth, it would get clear water instead.",
    ),
    "a leaf and a new growth": (
        (
            "If a look finds no new growth, no new leaf and no root tips, it would "
            "get clear water instead."
        ),
    ),
    "leaves going": (
        (
            "If a look finds no new growth and no root tips, it would get clear "
            "water instead."
        ),
    ),
    "in leaf long ago": (
        "If root tips are seen running, it would be fed.",
        "If a new growth is seen extending, it would be fed.",
        "If a look finds it bare and nothing on the move, it would be kept dry.",
    ),
    "a lead that stands": (
        "If a new shoot is seen with root tips of its own, it would be fed.",
    ),
}


@pytest.mark.parametrize("name", PLANTS)
def test_what_might_bring_it_to_feed(name: str) -> None:
    assert offered(PLANTS[name], good=True) == HOPEFUL[name]


@pytest.mark.parametrize("name", PLANTS)
def test_what_would_take_it_off_feed(name: str) -> None:
    assert offered(PLANTS[name], good=False) == HARMFUL[name]


@pytest.mark.parametrize("name", PLANTS)
def test_what_would_change_it_is_said_in_these_words(name: str) -> None:
    one = PLANTS[name]
    assert would_change(one, kind_of(one), HOUSE, ON) == CHANGES[name]


def test_a_look_counts_as_fresh_up_to_the_houses_limit() -> None:
    last, over = moving("04-29"), moving("04-28")
    assert looked_at(case_of(plant("cattleya", last)))
    assert not looked_at(case_of(plant("cattleya", over)))
    assert not looked_at(case_of(plant("cattleya")))


def test_a_sight_contains_the_smaller_ones() -> None:
    case = case_of(PLANTS["a soft cane"])
    contained = {each.key: each.contains for each in Trials(case).hopeful}
    assert contained == {
        "root-tips": (),
        "new-growth": (),
        "rooted-shoot": ("new-growth", "root-tips"),
        "growth-matures": ("new-growth", "rooted-shoot"),
    }
