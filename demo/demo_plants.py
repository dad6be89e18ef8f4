"""Give the plants and places of the demo: an invented grower and town.

The plant names are names of the trade; clone names, people, firms and the town of
Mirrenau are made up. A plant with ``now`` stands at that day of its course
whenever the demo is opened; one without runs by the calendar. Nothing here knows dates.
"""

from __future__ import annotations

from typing import Any

Plant = dict[str, Any]

SILL, BAY, LAMPS = "South sill, living room", "East bay, dining room", "Lamp shelf"
BATH, GLASS, BALCONY = "Bathroom window", "Small greenhouse", "Glazed balcony"
NORTH = "North-west sill, bedroom"
YARD = "Yard, under the pear"

PLACES: list[dict[str, Any]] = [
    {"name": SILL, "kind": "windowsill", "facing": "south", "glass": "single",
     "winter_c": 19.5, "summer_c": 25.0, "swing_c": 3.5,
     "note": "Radiator below, a board keeps the warm air off."},
    {"name": BAY, "kind": "windowsill", "facing": "east", "glass": "double",
     "winter_c": 19.0, "summer_c": 24.0, "swing_c": 2.5,
     "note": "Morning sun until eleven, then bright shade."},
    {"name": LAMPS, "kind": "shelf", "lamps_hours": 12.0, "lamps_ppfd": 170.0,
     "winter_c": 21.5, "summer_c": 24.5, "swing_c": 2.0,
     "note": "In the hall cupboard without a door; fan on a timer."},
    {"name": BATH, "kind": "windowsill", "facing": "south-west", "glass": "double",
     "shaded": 0.3, "winter_c": 21.0, "summer_c": 24.5, "swing_c": 2.0,
     "note": "Frosted glass, damp air."},
    {"name": GLASS, "kind": "greenhouse", "facing": "overhead", "glass": "single",
     "shaded": 0.4, "winter_c": 14.6, "summer_c": 24.5, "swing_c": 5.0,
     "note": "Two metres by two and a half, frost heater set to 12."},
    {"name": BALCONY, "kind": "balcony", "facing": "south-east", "glass": "single",
     "winter_c": 5.0, "summer_c": 22.5, "swing_c": 5.0,
     "note": "Unheated. Fleece ready for hard nights."},
    {"name": NORTH, "kind": "windowsill", "facing": "north-west", "glass": "single",
     "winter_c": 15.5, "summer_c": 21.5, "swing_c": 2.5,
     "note": "The coolest room in summer, shutters half down."},
    {"name": YARD, "kind": "garden", "outdoors": True, "facing": "overhead",
     "glass": "none", "shaded": 0.5,
     "winter_c": 1.0, "summer_c": 20.5, "swing_c": 5.5, "read_daily": True,
     "note": "Slatted bench, out of the morning sun. Slugs."},
]  # fmt: skip

HOUSE: dict[str, Any] = {
    "latitude": 48.2,
    "full_strength_ppm_n": 150.0,
    "jugs": 4,
    "watering_weekdays": [2, 5],
}

BARE = {"emerging": 0, "extending": 0, "maturing": 0, "matured": 2}
HIDDEN: dict[str, Any] = {"root_tips": "hidden", "new_leaf": None}


def plant(tag: str, name: str, place: str, course: str, **rest: Any) -> Plant:
    """Give a plant of the demo with what most of them share."""
    return {
        "tag": tag, "name": name, "kind": "", "place": place, "course": course,
        "now": None, "latest_look": 4, "medium": "bark", "pot_volume_l": 1.0,
        "size": "blooming", "full_ppm_n": 110, "flush_at": 1, "care": [],
        "rounds_from": 0, "rounds_lag_days": 7,
        "looks": [], "pictures": [], "source": "", "note": "",
    } | rest  # fmt: skip


def shown(file: str, shows: str, days_ago: int = 0) -> dict[str, Any]:
    """Give a picture for the newest look that shows a sign, so long ago at least."""
    return {"file": f"{file}.jpg", "shows": shows, "days_ago": days_ago}


def look(days_ago: int, note: str, **signs: Any) -> dict[str, Any]:
    """Give one look in particular: its own note, and signs over those of the course."""
    return {"days_ago": days_ago, "note": note, "signs": signs}


PLANTS: list[Plant] = [
    plant("A1", "Cattleya Mini Purple 'Kettle Blue'", SILL, "blooms-with-lead",
          kind="cattleya", hybrid=True, now=140, pot_volume_l=0.9,
          source="Swapped at the Mirrenau plant fair",
          note="Blooms off last year's bulb while the lead runs.",
          looks=[look(4, "Two flowers open, and the new lead longer than my thumb. "
                         "Green tips on five roots.")],
          pictures=[shown("cattleya-flower", "open"), shown("new-lead", "emerging")]),
    plant("A2", "Cattleya intermedia 'Mill Race'", SILL, "blooms-with-lead",
          kind="cattleya-bifoliate", now=235, pot_volume_l=1.4, flush_at=2,
          latest_look=9,
          source="Division from a bench friend"),
    plant("A3", "Laelia anceps 'Tin Roof'", SILL, "blooms-on-ripe-bulb",
          kind="laelia", now=290, latest_look=3, pot_volume_l=1.6,
          source="Nursery at Holderfurt, bare-root",
          looks=[look(3, "Four flowers on a long stem. Nothing at the base: eyes "
                         "flat, not one green tip.")],
          pictures=[shown("laelia-flower", "open"),
                    shown("laelia-flower-before", "open", days_ago=200)]),
    plant("A4", "Vanda coerulea 'Weir Gate'", SILL, "busy-monopodial", kind="vanda",
          medium="none", mounted=True, pot_volume_l=None, volume_l=0.3,
          latest_look=6, flush_at=None, source="Nursery at Holderfurt",
          note="Basket, no mix at all. Dunked.",
          pictures=[shown("vanda-flower", "open"), shown("root-tips", "running")]),
    plant("A5", "Tolumnia variegata", SILL, "steady-fans", kind="tolumnia", now=150,
          latest_look=7, pot_volume_l=0.25, full_ppm_n=60, flush_at=0,
          medium="mineral", source="Society raffle"),
    plant("A6", "Epidendrum radicans 'Brick Lane End'", SILL, "steady-fans",
          kind="epidendrum", now=250, latest_look=2, pot_volume_l=2.2, flush_at=1,
          source="Cutting, rooted on the sill",
          note="Never without a root somewhere."),
    plant("A7", "Encyclia adenocaula", SILL, "blooms-on-ripe-bulb", kind="encyclia",
          now=185, latest_look=31, pot_volume_l=1.1, flush_at=2,
          source="Nursery at Holderfurt",
          looks=[look(31, "Lead going well. It hangs at the back: next time take it "
                          "down.")]),
    plant("B1", "Phalaenopsis amabilis 'Snow Fence'", BAY, "moth", kind="phalaenopsis",
          now=245, latest_look=5, pot_volume_l=0.9, full_ppm_n=140, flush_at=1,
          source="Supermarket foundling, sixth year here",
          looks=[look(5, "Spike a hand long. No new leaf, no green tips.")],
          pictures=[shown("moth-spike", "spike"), shown("moth-flower", "open")]),
    plant("B2", "Phalaenopsis sanderiana", BAY, "moth", kind="phalaenopsis", now=20,
          latest_look=8, pot_volume_l=0.7, full_ppm_n=140, medium="sphagnum",
          rounds_from=3, flush_at=0, source="A neighbour's, moved away",
          note="In a glazed pot without a window to the roots.",
          looks=[look(8, "Flowers done. Roots all in the moss, could not tell.",
                      **HIDDEN, flowering=["none"])]),
    plant("B3", "Phalaenopsis lueddemanniana 'Barley'", BAY, "moth",
          kind="phalaenopsis", now=150, latest_look=6, pot_volume_l=0.8,
          full_ppm_n=140, flush_at=3, source="Division of a keiki",
          looks=[look(6, "New leaf half out. White crust on the top of the bark.")]),
    plant("B4", "Paphiopedilum callosum 'Slate'", BAY, "steady-fans",
          kind="paphiopedilum", now=120, latest_look=9, pot_volume_l=0.5,
          full_ppm_n=70, flush_at=0, source="Society table",
          pictures=[shown("slipper-flower", "open")]),
    plant("B5", "Oncidium sphacelatum", BAY, "steady-fans", kind="oncidium", now=235,
          latest_look=4, pot_volume_l=2.4, flush_at=2,
          source="Grandmother's, older than the house",
          looks=[look(4, "Bulb fat, spike up beside it, roots everywhere.")],
          pictures=[shown("oncidium-spray", "open")]),
    plant("B6", "Brassia verrucosa", BAY, "blooms-with-lead", kind="brassia", now=200,
          latest_look=5, pot_volume_l=1.3, rounds_from=2, flush_at=2,
          source="Nursery at Holderfurt",
          care=[{"days_ago": 1, "what": "feed", "strength_ppm_n": 100,
                 "note": "Half a jug was left over."}],
          looks=[look(5, "Lead extending, tips green. Leaves a good colour.")]),
    plant("B7", "Phalaenopsis schilleriana", BAY, "moth", kind="phalaenopsis", now=200,
          latest_look=None, pot_volume_l=0.8, rounds_from=999, acquired_days_ago=5,
          source="Came by parcel from the Holderfurt nursery",
          note="Still in its sleeve, apart from the others. Not looked at yet."),
    plant("B8", "Dendrobium bigibbum 'Dusk'", BAY, "hard-cane-year",
          kind="dendrobium-biggibum", rounds_lag_days=2,
          latest_look=6, pot_volume_l=0.6,
          full_ppm_n=120, flush_at=1, source="Supermarket, marked down"),
    plant("C1", "Phalaenopsis equestris", LAMPS, "busy-monopodial",
          kind="phalaenopsis", now=190, latest_look=3, size="seedling",
          pot_volume_l=0.2, full_ppm_n=90, flush_at=1, medium="sphagnum",
          source="Flask shared out at the society"),
    plant("C2", "Angraecum didieri", LAMPS, "busy-monopodial", kind="angraecum",
          now=230, latest_look=8, pot_volume_l=0.4, full_ppm_n=75, flush_at=2,
          source="Society table"),
    plant("C3", "Bulbophyllum lobbii 'Copper Pan'", LAMPS, "steady-fans",
          kind="bulbophyllum", now=170, latest_look=7, pot_volume_l=0.6,
          medium="sphagnum", full_ppm_n=75, flush_at=2, source="Division by post",
          looks=[look(7, "Two leads over the rim. Moss smells clean, a little salt "
                         "on the string.")]),
    plant("C4", "Cattleya (Mini Purple × self)", LAMPS, "steady-fans", kind="cattleya",
          hybrid=True, now=70, latest_look=7, size="seedling", pot_volume_l=0.3,
          full_ppm_n=75, rounds_from=1, source="Own cross, third year",
          care=[{"days_ago": 6, "what": "repot", "note": "Mix had gone to mud. Fine "
                 "bark, same pot washed. Four live roots kept."}],
          looks=[look(7, "Wobbles in the pot. No tips to see; repot this week.",
                      root_tips="none", new_growths=BARE)],
          pictures=[shown("repotting-bench", "matured")]),
    plant("C5", "Dendrobium antennatum", LAMPS, "hard-cane-year",
          kind="dendrobium-spatulata", now=150, latest_look=5, pot_volume_l=1.2,
          full_ppm_n=120, flush_at=0, source="Division from a bench friend",
          looks=[look(5, "Cane climbing a centimetre in three days.")]),
    plant("D1", "Phragmipedium longifolium 'Ferry'", BATH, "steady-fans",
          kind="phragmipedium", now=190, latest_look=6, pot_volume_l=1.2,
          full_ppm_n=60, flush_at=1, source="Society table",
          note="Stands in a finger of clean water, never in feed.",
          looks=[look(6, "Fan and roots are going. First drips out of the pot read 0.6 "
                         "on the meter, so far so good.", runoff_ec_ms_per_cm=0.6)],
          pictures=[shown("new-fan", "extending")]),
    plant("D2", "Phalaenopsis violacea", BATH, "moth", kind="phalaenopsis", now=30,
          latest_look=5, pot_volume_l=0.4, rounds_from=6, flush_at=0,
          medium="sphagnum", source="Windfall from a clearance",
          looks=[look(5, "Knocked out to see: not a live root left. Leaves limp. In "
                         "damp moss under a bag.", health=["no-roots"],
                      root_tips="none", new_leaf="none", leaves="shrivelled",
                      flowering=["none"])]),
    plant("D3", "Coelogyne tomentosa", BATH, "steady-fans", kind="coelogyne", now=120,
          latest_look=6, pot_volume_l=1.8, full_ppm_n=120, rounds_from=2, flush_at=3,
          source="Nursery at Holderfurt",
          overrule={"verdict": "keep-dry", "water": "none", "until_days": 9,
                    "since_days_ago": 5,
                    "reason": "black spots spread after the last wetting"},
          looks=[look(6, "Lead and roots are going, but black spots on two leaves, "
                         "larger since the last wetting.")]),
    plant("E1", "Catasetum tenebrosum 'Pitch'", GLASS, "catasetum", kind="catasetum",
          now=98, latest_look=4, medium="sphagnum", pot_volume_l=0.8,
          full_ppm_n=150, flush_at=1, source="Nursery at Holderfurt",
          looks=[look(4, "New growth up a finger's width. Longest root 4 cm by the "
                         "ruler. Hands off the can.", longest_new_root_mm=40,
                      root_tips="running")],
          pictures=[shown("catasetum-roots", "emerging")]),
    plant("E2", "Clowesia russelliana", GLASS, "catasetum", kind="catasetum", now=320,
          latest_look=6, medium="sphagnum", pot_volume_l=0.7, full_ppm_n=150,
          flush_at=1, source="Swapped for a division",
          looks=[look(6, "Bare bulbs and a hanging string of green flowers. Smells "
                         "of mint.")],
          pictures=[shown("clowesia-bare", "open")]),
    plant("E3", "Cycnoches warszewiczii", GLASS, "catasetum", kind="catasetum", now=60,
          latest_look=26, medium="sphagnum", pot_volume_l=0.7, full_ppm_n=150,
          flush_at=1, source="Society raffle",
          looks=[look(26, "Bare. Eye has moved at the base, no roots to speak of.")]),
    plant("E4", "Lycaste aromatica", GLASS, "lycaste-year", kind="lycaste",
          latest_look=6, pot_volume_l=1.1, full_ppm_n=130, flush_at=2,
          source="Division from a bench friend",
          pictures=[shown("lycaste-flower", "open")]),
    plant("E5", "Cattleya milleri 'Ember'", GLASS, "rock-laelia-year",
          kind="laelia-rupicolous", latest_look=8, medium="mineral", pot_volume_l=0.5,
          full_ppm_n=70, flush_at=1, source="Seedling, flowered here first"),
    plant("E6", "Dendrobium nobile 'Old Parlour'", GLASS, "nobile-year",
          kind="dendrobium-nobile", latest_look=5, pot_volume_l=1.0, full_ppm_n=140,
          flush_at=1, source="Grandmother's",
          pictures=[shown("nobile-flower", "open")]),
    plant("E7", "Cattleya labiata 'Harbour Wall'", GLASS, "blooms-with-lead",
          kind="cattleya", now=95, latest_look=3, pot_volume_l=1.5, flush_at=1,
          rounds_from=1, source="Nursery at Holderfurt",
          care=[{"days_ago": 3, "what": "treat", "product": "By hand",
                 "note": "Cut back to clean white tissue with "
                         "a flamed blade, cinnamon on the cut."}],
          looks=[look(3, "The lead is brown and soft at the foot. Cut, stood apart, "
                         "fan on it.", health=["rot"], flowering=["none"],
                      root_tips="none", lead_length_mm=None, new_growths=BARE)],
          pictures=[shown("rot-at-the-foot", "rot")]),
    plant("E8", "Zygopetalum maculatum", GLASS, "zygopetalum-year", kind="zygopetalum",
          rounds_lag_days=2,
          latest_look=7, pot_volume_l=1.8, flush_at=2, source="Society table"),
    plant("F1", "Cymbidium tracyanum", BALCONY, "cymbidium-year", kind="cymbidium",
          rounds_lag_days=2,
          latest_look=10, pot_volume_l=5.0, full_ppm_n=140, flush_at=1,
          source="From an allotment greenhouse",
          pictures=[shown("cymbidium-spray", "open")]),
    plant("F2", "Den kingianum rail shed", BALCONY, "kingianum-year",
          kind="dendrobium-kingianum", rounds_lag_days=2,
          latest_look=9, pot_volume_l=1.2,
          full_ppm_n=140, flush_at=2, source="Everybody has a piece of it"),
    plant("F3", "Coelogyne cristata", BALCONY, "coelogyne-year", kind="coelogyne-cool",
          rounds_lag_days=2,
          latest_look=7, pot_volume_l=2.0, full_ppm_n=130, flush_at=0,
          source="Grandmother's"),
    plant("G1", "Masdevallia veitchiana", NORTH, "cool-shade-year", kind="masdevallia",
          latest_look=5, pot_volume_l=0.4, medium="sphagnum", full_ppm_n=60,
          flush_at=1, source="Division by post",
          pictures=[shown("masdevallia-flower", "open")]),
    plant("G2", "Miltoniopsis vexillaria", NORTH, "cool-shade-year",
          kind="miltoniopsis", latest_look=25, pot_volume_l=0.6, full_ppm_n=60,
          flush_at=0, source="Nursery at Holderfurt",
          looks=[look(25, "Behind the curtain; leaves firm, could see no more.",
                      **HIDDEN)]),
]  # fmt: skip
