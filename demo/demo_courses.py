"""Give the course of a year for each sort of plant in the demo.

A course is a list of phases, each lasting until a day of its own year, with the signs a
look finds in it, what the weekly round gives, and notes a grower might write. A plant
either runs through its course by the calendar or stands at a fixed day of it whenever
the demo is opened. Nothing here knows of dates or of single plants.
"""

from __future__ import annotations

from typing import Any

Phase = dict[str, Any]
Course = list[Phase]

_STAGES = ("emerging", "extending", "maturing", "matured")


def growths(**counts: int) -> dict[str, int]:
    """Give counts of new growths with every stage looked for."""
    return {stage: counts.get(stage, 0) for stage in _STAGES}


REST = growths(matured=2)
UP = growths(emerging=1, matured=2)
LEAD = growths(extending=1, matured=2)
LEADS = growths(extending=2, matured=3)
FILLING = growths(maturing=1, matured=2)

BARE_NOTES = [
    "Quiet. Bulbs firm, roots dull to the tip.",
    "Nothing moves at the base; eye still flat.",
    "Same as last time. Pot light for a week already.",
]
UP_NOTES = [
    "Eye has swollen and pulled away from the base.",
    "New growth up, about a thumbnail. No roots of its own yet.",
    "The new growth has cleared the old sheath.",
]
LEAD_NOTES = [
    "Lead longer, leaf opening. Green tips on three roots.",
    "Roots run over the rim of the pot, tips bright green.",
    "Turned the pot a quarter so that the lead grows straight.",
    "Lead well ahead of last year's at this stage.",
    "A little scale on the back bulb, wiped off with soapy water.",
]
FILLING_NOTES = [
    "Bulb swelling, lower sheaths dry and papery.",
    "Last leaf is full length; the bulb fills now.",
]
BUD_NOTES = ["Buds seen against the light.", "Buds plump, first colour at the tips."]
OPEN_NOTES = [
    "In flower. Scent in the morning only.",
    "Flowers at their best; counted and photographed.",
    "Good colour this year, substance like wax.",
]
FADING_NOTES = ["Going over.", "First flower dropped, the rest limp by evening."]
LEAF_NOTES = [
    "New leaf a finger longer than at the last look.",
    "Two aerial roots with green tips heading for the window.",
    "Leaf firm, good mid-green.",
]
SPIKE_NOTES = [
    "Spike, not a root: the tip is flat like a mitten.",
    "Spike tied to a cane, first nodes clear.",
]
IN_LEAF_NOTES = [
    "Leaf unfolding in pleats, roots down through the moss.",
    "Growing by the day. Moss damp at all times now.",
]
YELLOW_NOTES = ["Lowest leaf yellow.", "Two leaves down, bulb hard and full."]


def phase(until: int, tips: str, flowering: str, **rest: Any) -> Phase:
    """Give a phase: its last day (not included), root tips, flowering, and the rest."""
    return {
        "until": until,
        "root_tips": tips,
        "flowering": flowering.split("+"),
        "leaves": "firm",
        "gives": "feed",
        "notes": BARE_NOTES,
    } | rest


BLOOMS_ON_RIPE_BULB: Course = [
    phase(60, "none", "none", new_growths=REST, gives="clear-water"),
    phase(
        95, "none", "none", new_growths=UP, lead_mm=[3, 24], gives="clear-water",
        notes=UP_NOTES,
    ),
    phase(
        190, "running", "none", new_growths=LEAD, lead_mm=[24, 160], notes=LEAD_NOTES,
    ),
    phase(240, "running", "sheath", new_growths=FILLING, notes=FILLING_NOTES),
    phase(
        268, "none", "buds", new_growths=REST, gives="clear-water", notes=BUD_NOTES,
    ),
    phase(
        312, "none", "open", new_growths=REST, gives="clear-water", notes=OPEN_NOTES,
    ),
    phase(
        326, "none", "fading", new_growths=REST, gives="clear-water",
        notes=FADING_NOTES,
    ),
    phase(365, "none", "spent", new_growths=REST, gives="clear-water"),
]  # fmt: skip

BLOOMS_WITH_LEAD: Course = [
    phase(45, "none", "none", new_growths=REST, gives="clear-water"),
    phase(80, "starting", "sheath", new_growths=UP, lead_mm=[4, 26], notes=UP_NOTES),
    phase(110, "running", "buds", new_growths=LEAD, lead_mm=[26, 62], notes=BUD_NOTES),
    phase(165, "running", "open", new_growths=LEAD, lead_mm=[62, 118],
          notes=OPEN_NOTES),
    phase(178, "running", "fading", new_growths=LEAD, lead_mm=[118, 130],
          notes=FADING_NOTES),
    phase(215, "running", "spent", new_growths=LEAD, lead_mm=[130, 160],
          notes=LEAD_NOTES),
    phase(265, "running", "none", new_growths=FILLING, notes=FILLING_NOTES),
    phase(365, "none", "sheath", new_growths=REST, gives="clear-water"),
]  # fmt: skip

STEADY_FANS: Course = [
    phase(40, "none", "none", new_growths=REST, gives="clear-water"),
    phase(75, "starting", "none", new_growths=UP, notes=UP_NOTES),
    phase(230, "running", "none", new_growths=LEADS, notes=LEAD_NOTES),
    phase(262, "running", "spike", new_growths=FILLING, notes=SPIKE_NOTES),
    phase(280, "running", "buds", new_growths=FILLING, notes=BUD_NOTES),
    phase(330, "none", "open", new_growths=REST, gives="clear-water",
          notes=OPEN_NOTES),
    phase(365, "none", "spent", new_growths=REST, gives="clear-water"),
]  # fmt: skip

MOTH: Course = [
    phase(50, "none", "spent", new_leaf="none", gives="clear-water"),
    phase(85, "starting", "none", new_leaf="starting", notes=LEAF_NOTES),
    phase(185, "running", "none", new_leaf="extending", notes=LEAF_NOTES),
    phase(215, "running", "none", new_leaf="full", notes=LEAF_NOTES),
    phase(270, "none", "spike", new_leaf="full", notes=SPIKE_NOTES),
    phase(292, "none", "spike+buds", new_leaf="full", notes=BUD_NOTES),
    phase(345, "none", "open", new_leaf="full", gives="clear-water",
          notes=OPEN_NOTES),
    phase(365, "none", "fading", new_leaf="none", gives="clear-water",
          notes=FADING_NOTES),
]  # fmt: skip

BUSY_MONOPODIAL: Course = [
    phase(60, "none", "none", new_leaf="none", gives="clear-water"),
    phase(110, "starting", "none", new_leaf="starting", notes=LEAF_NOTES),
    phase(300, "running", "none", new_leaf="extending", notes=LEAF_NOTES),
    phase(330, "running", "open", new_leaf="full", notes=OPEN_NOTES),
    phase(365, "none", "spent", new_leaf="full", gives="clear-water"),
]  # fmt: skip

CATASETUM: Course = [
    phase(40, "none", "none", new_growths=REST, leaves="leafless", gives="none"),
    phase(70, "none", "none", new_growths=UP, leaves="leafless", lead_mm=[3, 20],
          gives="none", notes=UP_NOTES),
    phase(105, "running", "none", new_growths=UP, leaves="leafless",
          lead_mm=[20, 45], root_mm=[6, 46], gives="none", notes=UP_NOTES),
    phase(125, "running", "none", new_growths=LEAD, new_leaf="starting",
          leaves="leafless", lead_mm=[45, 90], root_mm=[46, 80], gives="none",
          notes=UP_NOTES),
    phase(215, "running", "none", new_growths=LEAD, new_leaf="extending",
          lead_mm=[90, 420], root_mm=[80, 240], notes=IN_LEAF_NOTES),
    phase(265, "running", "none", new_growths=FILLING, new_leaf="full",
          notes=FILLING_NOTES),
    phase(290, "none", "none", new_growths=FILLING, new_leaf="full",
          leaves="yellowing", gives="clear-water", notes=YELLOW_NOTES),
    phase(305, "none", "buds", new_growths=REST, leaves="leafless", gives="none",
          notes=BUD_NOTES),
    phase(340, "none", "open", new_growths=REST, leaves="leafless", gives="none",
          notes=OPEN_NOTES),
    phase(365, "none", "spent", new_growths=REST, leaves="leafless", gives="none"),
]  # fmt: skip

LYCASTE_YEAR: Course = [
    phase(75, "none", "none", new_growths=REST, leaves="leafless", gives="none"),
    phase(105, "none", "buds", new_growths=UP, leaves="leafless", lead_mm=[4, 30],
          gives="clear-water", notes=BUD_NOTES),
    phase(135, "starting", "open", new_growths=LEAD, leaves="leafless",
          new_leaf="starting", lead_mm=[30, 90], root_mm=[4, 24],
          gives="clear-water", notes=OPEN_NOTES),
    phase(235, "running", "spent", new_growths=LEAD, new_leaf="extending",
          lead_mm=[90, 380], root_mm=[26, 180], notes=IN_LEAF_NOTES),
    phase(290, "running", "none", new_growths=FILLING, new_leaf="full",
          notes=FILLING_NOTES),
    phase(325, "none", "none", new_growths=FILLING, leaves="yellowing",
          gives="clear-water", notes=YELLOW_NOTES),
    phase(365, "none", "none", new_growths=REST, leaves="leafless", gives="none"),
]  # fmt: skip

NOBILE_YEAR: Course = [
    phase(68, "none", "buds", new_growths=REST, gives="clear-water",
          notes=["Flower buds, not keikis: fat, and two or three to a node.",
                 "Buds stand well proud of the cane now."]),
    phase(105, "none", "open", new_growths=growths(emerging=1, matured=4),
          gives="clear-water", notes=OPEN_NOTES),
    phase(135, "starting", "spent", new_growths=LEAD, lead_mm=[40, 120],
          notes=LEAD_NOTES),
    phase(245, "running", "none", new_growths=LEADS, lead_mm=[120, 460],
          notes=LEAD_NOTES),
    phase(300, "none", "none", new_growths=FILLING, gives="clear-water",
          notes=["Terminal leaf is out: the cane is finished.",
                 "Moved nearer the glass, cool and bright. No more feed."]),
    phase(365, "none", "none", new_growths=REST, gives="clear-water"),
]  # fmt: skip

KINGIANUM_YEAR: Course = [
    phase(40, "none", "none", new_growths=REST, gives="clear-water"),
    phase(75, "none", "buds", new_growths=REST, gives="clear-water",
          notes=BUD_NOTES),
    phase(115, "none", "open", new_growths=REST, gives="clear-water",
          notes=OPEN_NOTES),
    phase(150, "starting", "spent", new_growths=UP, notes=UP_NOTES),
    phase(225, "running", "none", new_growths=LEADS, notes=LEAD_NOTES),
    phase(270, "running", "none", new_growths=FILLING, notes=FILLING_NOTES),
    phase(365, "none", "none", new_growths=REST, gives="clear-water"),
]  # fmt: skip

CYMBIDIUM_YEAR: Course = [
    phase(60, "none", "buds", new_growths=REST, gives="clear-water",
          notes=BUD_NOTES),
    phase(110, "none", "open", new_growths=REST, gives="clear-water",
          notes=OPEN_NOTES),
    phase(140, "starting", "spent", new_growths=UP, lead_mm=[20, 60],
          notes=UP_NOTES),
    phase(260, "running", "none", new_growths=LEADS, lead_mm=[60, 640],
          notes=LEAD_NOTES),
    phase(305, "running", "spike", new_growths=FILLING, notes=SPIKE_NOTES),
    phase(365, "none", "spike", new_growths=REST, gives="clear-water",
          notes=SPIKE_NOTES),
]  # fmt: skip

COELOGYNE_YEAR: Course = [
    phase(35, "none", "buds", new_growths=REST, gives="clear-water",
          notes=BUD_NOTES),
    phase(90, "none", "open", new_growths=REST, gives="clear-water",
          notes=OPEN_NOTES),
    phase(170, "none", "spent", new_growths=UP, gives="clear-water",
          notes=UP_NOTES),
    phase(215, "running", "none", new_growths=LEADS, notes=LEAD_NOTES),
    phase(302, "running", "none", new_growths=FILLING, notes=FILLING_NOTES),
    phase(365, "none", "none", new_growths=REST, gives="clear-water"),
]  # fmt: skip

ROCK_LAELIA_YEAR: Course = [
    phase(75, "none", "none", new_growths=REST, gives="clear-water"),
    phase(120, "starting", "spike", new_growths=UP, notes=SPIKE_NOTES),
    phase(150, "running", "open", new_growths=LEAD, lead_mm=[30, 70],
          notes=OPEN_NOTES),
    phase(215, "running", "spent", new_growths=LEAD, lead_mm=[70, 120],
          notes=LEAD_NOTES),
    phase(255, "none", "none", new_growths=FILLING, notes=FILLING_NOTES),
    phase(365, "none", "none", new_growths=REST, gives="clear-water"),
]  # fmt: skip

ZYGOPETALUM_YEAR: Course = [
    phase(90, "none", "spent", new_growths=REST, gives="clear-water"),
    phase(130, "starting", "none", new_growths=UP, lead_mm=[10, 60],
          notes=UP_NOTES),
    phase(215, "running", "none", new_growths=LEAD, lead_mm=[60, 260],
          notes=LEAD_NOTES),
    phase(275, "running", "spike", new_growths=FILLING, notes=SPIKE_NOTES),
    phase(300, "none", "buds", new_growths=REST, gives="clear-water",
          notes=BUD_NOTES),
    phase(350, "none", "open", new_growths=REST, gives="clear-water",
          notes=OPEN_NOTES),
    phase(365, "none", "fading", new_growths=REST, gives="clear-water",
          notes=FADING_NOTES),
]  # fmt: skip

COOL_SHADE_YEAR: Course = [
    phase(70, "running", "none", new_growths=LEADS, notes=LEAD_NOTES),
    phase(115, "running", "buds", new_growths=LEADS, notes=BUD_NOTES),
    phase(160, "running", "open", new_growths=FILLING, notes=OPEN_NOTES),
    phase(245, "none", "spent", new_growths=REST, gives="clear-water",
          notes=["Sulks in the warm weather. Misted the floor at night."]),
    phase(280, "starting", "none", new_growths=UP, notes=UP_NOTES),
    phase(365, "running", "none", new_growths=LEADS, notes=LEAD_NOTES),
]  # fmt: skip

HARD_CANE_YEAR: Course = [
    phase(70, "none", "none", new_growths=REST, gives="clear-water"),
    phase(110, "none", "none", new_growths=UP, lead_mm=[5, 40], notes=UP_NOTES),
    phase(220, "running", "none", new_growths=LEAD, lead_mm=[40, 330],
          notes=LEAD_NOTES),
    phase(260, "none", "spike", new_growths=FILLING, notes=SPIKE_NOTES),
    phase(320, "none", "open", new_growths=REST, gives="clear-water",
          notes=OPEN_NOTES),
    phase(365, "none", "spent", new_growths=REST, gives="clear-water"),
]  # fmt: skip

COURSES: dict[str, Course] = {
    "blooms-on-ripe-bulb": BLOOMS_ON_RIPE_BULB,
    "blooms-with-lead": BLOOMS_WITH_LEAD,
    "steady-fans": STEADY_FANS,
    "moth": MOTH,
    "busy-monopodial": BUSY_MONOPODIAL,
    "catasetum": CATASETUM,
    "lycaste-year": LYCASTE_YEAR,
    "nobile-year": NOBILE_YEAR,
    "kingianum-year": KINGIANUM_YEAR,
    "cymbidium-year": CYMBIDIUM_YEAR,
    "coelogyne-year": COELOGYNE_YEAR,
    "rock-laelia-year": ROCK_LAELIA_YEAR,
    "zygopetalum-year": ZYGOPETALUM_YEAR,
    "cool-shade-year": COOL_SHADE_YEAR,
    "hard-cane-year": HARD_CANE_YEAR,
}
