"""Give what the demo's grower keeps beside looks and rounds: benches, blooms, partings.

Like the plants these are made up, and like theirs their days are counted back.
``extras`` go to the plants of ``demo_plants`` by tag; ``LEFT`` are plants that are not
there any more.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from demo_plants import BALCONY, BATH, BAY, GLASS, LAMPS, NORTH, SILL, YARD, look, plant

if TYPE_CHECKING:
    from random import Random

WALK = (SILL, BAY, LAMPS, BATH, NORTH, GLASS, BALCONY, YARD)
"""The places in the order they are walked on a watering day."""

BENCHES: list[dict[str, Any]] = [
    {"place": SILL, "name": "By the pane", "at_glass": True, "note": "",
     "tags": ["A1", "A2", "A3", "A5"]},
    {"place": SILL, "name": "Plant table", "at_glass": False,
     "note": "A step behind the window.", "tags": ["A6", "A7", "A4"]},
    {"place": GLASS, "name": "Lower bench", "at_glass": False, "note": "",
     "tags": ["E4", "E6", "E8", "E7"]},
    {"place": GLASS, "name": "Top shelf", "at_glass": True,
     "note": "A hand under the roof.", "tags": ["E1", "E2", "E3", "E5"]},
    {"place": BALCONY, "name": "Along the pane", "at_glass": True,
     "note": "Fleece hangs ready.", "tags": ["F2", "F3"]},
    {"place": BALCONY, "name": "House wall", "at_glass": False, "note": "",
     "tags": ["F1"]},
]  # fmt: skip
"""The benches of the places, in walking order; what stands on none comes after them."""

SUMMERS_OUT = {"place": YARD, "from": 139, "until": 264, "tags": ["F1", "F2"]}
"""Which plants stand in the yard from one day of the year to another."""

TONIGHT = [
    {"place": SILL, "colder_c": 3.0},
    {"place": BALCONY, "colder_c": 3.0},
]
"""Which places the forecast has colder than the last night that was read."""

VIEWS = [
    {"name": "Where they came from",
     "columns": ["tag", "name", "parentage", "acquired", "source", "parent", "papers"],
     "order": "acquired"},
    {"name": "Flowered last",
     "columns": ["tag", "name", "place", "flowering", "bloomed", "photos"],
     "order": "bloomed"},
]  # fmt: skip
"""Views of the table that the grower kept."""

EXTRAS: dict[str, dict[str, Any]] = {
    "A1": {"parentage": "C. walkeriana × C. amethystoglossa"},
    "A2": {"care": [{"days_ago": 12, "what": "treat",
                     "product": "ready-mixed soap spray",
                     "note": "Scale under the sheaths of two old bulbs: sheaths off, "
                             "wiped, sprayed as its label says, out of the sun.",
                     "repeat_days": 14}]},
    "A4": {"papers": "Nursery-raised; invoice in the green folder."},
    "A6": {"signs": {"keikis": 2, "keiki_root_mm": 70}},
    "B1": {"signs": {"spike_mm": 180}},
    "B3": {"signs": {"keikis": 1, "keiki_root_mm": 35}},
    "B5": {"signs": {"spike_mm": 420}},
    "B7": {"quarantine_days": 26},
    "C1": {"held_as": "tray", "how_many": 8, "volume_l": 0.4},
    "C2": {"papers": "Raised from seed in a nursery, seller's declaration kept."},
    "C4": {"parent": "A1", "parent_how": "seedling",
           "parentage": "(C. Mini Purple 'Kettle Blue' × self)"},
    "D1": {"signs": {"pods": 1}},
    "F2": {"care": [{"days_ago": 330, "what": "divide",
                     "note": "A third cut off and given to whoever asked."}]},
}  # fmt: skip

LEFT: list[dict[str, Any]] = [
    plant("A8", "Cattleya Mini Purple 'Kettle Blue'", SILL, "blooms-with-lead",
          kind="cattleya", hybrid=True, now=140, latest_look=214, rounds_from=31,
          pot_volume_l=0.5, source="Division of A1", parent="A1",
          parent_how="division", status="given-away", left_days_ago=210,
          why="To a bench friend, for the Clowesia.",
          parentage="C. walkeriana × C. amethystoglossa"),
    plant("D4", "Phalaenopsis bellina 'Lantern'", BATH, "moth", kind="phalaenopsis",
          now=245, latest_look=402, rounds_from=58, pot_volume_l=0.5, full_ppm_n=140,
          source="Society table", status="lost", left_days_ago=398,
          why="Crown rot. Water stood in the heart over a cold night.",
          looks=[look(402, "Youngest leaf came off in my hand, brown and wet.",
                      health=["rot"], root_tips="none", new_leaf="none",
                      leaves="dropping", flowering=["none"])]),
    plant("F4", "Cymbidium tracyanum", BALCONY, "cymbidium-year", kind="cymbidium",
          latest_look=305, rounds_from=44, pot_volume_l=8.0, full_ppm_n=140,
          source="Division of F1", parent="F1", parent_how="division",
          status="sold", left_days_ago=301,
          why="Society sale; too wide for the balcony."),
    plant("G3", "Masdevallia coccinea 'Signal'", NORTH, "cool-shade-year",
          kind="masdevallia", latest_look=131, rounds_from=19, pot_volume_l=0.3,
          medium="sphagnum", full_ppm_n=60, source="Division by post", status="lost",
          left_days_ago=128, why="Too warm for too long; the roots went first.",
          looks=[look(131, "Leaves thin and dull, every root I found was brown.",
                      health=["no-roots"], root_tips="none", leaves="dropping",
                      flowering=["none"])]),
]  # fmt: skip

REPOTTED_DAYS_AGO = {
    "A1": 400, "A2": 1_190, "A3": 820, "B1": 520, "B3": 905, "B4": 770, "B5": 1_310,
    "B6": 700, "C2": 880, "D1": 505, "D3": 1_020, "E4": 390, "E6": 640, "F1": 1_480,
    "F3": 1_150, "G1": 610,
}  # fmt: skip
"""When plants came into the pot they stand in; more than a year ago, each of them."""

FLOWERS: dict[str, tuple[int, int, float]] = {
    "A1": (2, 1, 62), "A2": (5, 1, 88), "A3": (4, 1, 96), "A4": (9, 1, 84),
    "A5": (11, 2, 24), "B1": (14, 1, 78), "B4": (1, 1, 92), "B5": (90, 2, 26),
    "B6": (9, 1, 150), "E2": (18, 1, 34), "E4": (6, 6, 48), "E6": (42, 5, 63),
    "E8": (7, 1, 55), "F1": (12, 1, 118), "F2": (30, 6, 21), "F3": (16, 4, 74),
    "G1": (4, 4, 66),
}  # fmt: skip
"""How many flowers on how many spikes a plant makes, and how wide they are in mm."""

NOTES = (
    "One bud blasted.",
    "Best year so far.",
    "Fewer than last year; repotted late.",
    "Scent only before noon.",
    "",
    "",
)
AWARDS = {"B6": "CCM 82, society show at Holderfurt"}


def extras(tag: str, chance: Random) -> dict[str, Any]:
    """Give what is on record of a plant beside its course."""
    found: dict[str, Any] = dict(EXTRAS.get(tag, {}))
    if tag in REPOTTED_DAYS_AGO:
        found["repotted_days_ago"] = REPOTTED_DAYS_AGO[tag]
    if tag in FLOWERS:
        found["acquired_days_ago"] = chance.randint(2_100, 4_400)
        found["bloom_years"] = [_year(tag, back, chance) for back in range(5)]
    return found


def _year(tag: str, back: int, chance: Random) -> dict[str, Any]:
    """Give one year's flowering, ``back`` years before the newest on record."""
    flowers, spikes, size_mm = FLOWERS[tag]
    share = 1 - 0.12 * back
    return {
        "back": back,
        "shift_days": 0 if back == 0 else chance.randint(-13, 13),
        "flowers": max(1, round(flowers * share)),
        "spikes": max(1, round(spikes * share)),
        "size_mm": size_mm + chance.randint(-3, 3),
        "note": chance.choice(NOTES),
        "award": AWARDS.get(tag, "") if back == 1 else "",
    }


def rain_mm(chance: Random) -> list[float]:
    """Give the rain of a run of days, to be taken round and round."""
    return [
        round(chance.expovariate(1 / 7), 1) if chance.random() < 0.27 else 0.0
        for _ in range(73)
    ]
