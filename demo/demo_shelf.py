"""Give what stands on the demo grower's shelf: tins, waters, recipes, measures.

Days are counted back from the day the demo is opened. All of it is invented; analyses
are those that tins of such a sort commonly print.
"""

from __future__ import annotations

from typing import Any

GREEN, BLUE = "Green tin with calcium", "Blue tin"
CALCIUM, POTASH, PHOSPHATE, EPSOM = (
    "Calcium nitrate",
    "Potassium nitrate",
    "Potassium phosphate",
    "Epsom salt",
)
RAIN, TAP, RO, SOFTENED = "Rain barrel", "Kitchen tap", "RO can", "Rain with some tap"

TINS: list[dict[str, Any]] = [
    {"name": GREEN,
     "analysis": "13-3-15 + 6 Ca + 2 Mg, nitrate-N 12.2, ammonium-N 0.8",
     "in_use": True, "note": "For rain water.",
     "ec_per_100_ppm_n_ms_per_cm": 0.86, "price": 14.5, "pack_amount": 1000.0},
    {"name": BLUE, "analysis": "20-20-20", "in_use": False,
     "note": "The last of it. Weighs 4.1 g to the level teaspoon on my scale.",
     "price": 9.0, "pack_amount": 500.0},
    {"name": CALCIUM, "analysis": "15.5-0-0 + 19 Ca, nitrate-N 14.4, ammonium-N 1.1",
     "formula": "5Ca(NO3)2.NH4NO3.10H2O", "in_use": False,
     "note": "Draws water: lid shut at once.", "price": 7.5, "pack_amount": 1000.0},
    {"name": POTASH, "analysis": "13.8-0-46.5, nitrate-N 13.8", "formula": "KNO3",
     "in_use": False, "note": "", "price": 8.0, "pack_amount": 1000.0},
    {"name": PHOSPHATE, "analysis": "0-52.1-34.6", "formula": "KH2PO4",
     "in_use": False, "note": "", "price": 8.5, "pack_amount": 500.0},
    {"name": EPSOM, "analysis": "0-0-0 + 9.8 Mg + 13 S", "formula": "MgSO4.7H2O",
     "in_use": False, "note": "Garden grade, not the perfumed one.",
     "price": 4.0, "pack_amount": 1000.0},
]  # fmt: skip

WATERS: list[dict[str, Any]] = [
    {"kind": "rain", "name": RAIN, "ec_ms_per_cm": 0.04, "in_use": True,
     "capacity_l": 200.0,
     "note": "Barrel by the greenhouse, empty in a dry August."},
    {"kind": "tap", "name": TAP, "ec_ms_per_cm": 0.66, "in_use": False,
     "alkalinity_mg_per_l": 245.0, "hardness_mg_per_l": 310.0,
     "ca_mg_per_l": 98.0, "mg_mg_per_l": 16.0, "k_mg_per_l": 2.0,
     "na_mg_per_l": 12.0, "cl_mg_per_l": 24.0, "so4_mg_per_l": 48.0,
     "no3_mg_per_l": 14.0,
     "note": "Hard in this town, by the waterworks' yearly sheet. Only when the "
             "barrel is empty."},
    {"kind": "ro", "name": RO, "ec_ms_per_cm": 0.01, "in_use": False,
     "capacity_l": 20.0, "note": "From the kitchen filter, two cans a week at most."},
    {"kind": "blend", "name": SOFTENED, "in_use": False,
     "first": RAIN, "second": TAP, "first_share": 0.67,
     "aim": "alkalinity", "aim_value": 80.0, "note": "When the barrel runs low."},
]  # fmt: skip

RECIPES: list[dict[str, Any]] = [
    {"name": "Green tin and Epsom salt", "in_use": True,
     "parts": [[GREEN, 14.0], [EPSOM, 1.0]], "uses": [],
     "note": "The rain water brings no magnesium."},
    {"name": "Calcium feed", "in_use": False,
     "wanted": {"n": 100.0, "k": 75.0, "ca": 75.0, "mg": 20.0},
     "parts": [[GREEN, None], [CALCIUM, None], [EPSOM, None]],
     "uses": ["B2", "B4"],
     "note": "New this week, for two that like lime."},
]  # fmt: skip

TOOLS: list[dict[str, Any]] = [
    {"kind": "scale", "name": "Pocket scale", "step": 0.01, "most": 100.0},
    {"kind": "scale", "name": "Kitchen scale", "step": 1.0, "most": 5000.0},
    {"kind": "syringe", "name": "5 mL syringe", "step": 0.1, "most": 5.0},
    {"kind": "cylinder", "name": "Glass cylinder", "step": 2.0, "most": 250.0},
    {"kind": "spoon", "name": "Teaspoon", "step": 0.5, "most": None,
     "g_per_level": [[BLUE, 4.1], [GREEN, 4.6]]},
]  # fmt: skip

VESSELS: list[dict[str, Any]] = [
    {"kind": "jug", "name": "White jug", "volume_l": 5.0, "how_many": 2,
     "step_ml": 100.0},
    {"kind": "jug", "name": "Small jug", "volume_l": 2.0, "how_many": 1,
     "step_ml": 50.0},
    {"kind": "can", "name": "Long-spouted can", "volume_l": 2.5, "how_many": 1,
     "step_ml": 250.0},
    {"kind": "mug", "name": "Blue mug", "volume_l": 0.35, "how_many": 1,
     "step_ml": None},
]  # fmt: skip

STOCKS: list[dict[str, Any]] = [
    {"name": "Epsom bottle", "made_days_ago": 41, "keep_days": 180,
     "volume_l": 0.5, "parts": [[EPSOM, 10.0]],
     "note": "Brown bottle, top shelf."},
    {"name": "Calcium bottle", "made_days_ago": 6, "keep_days": 180,
     "volume_l": 0.5, "parts": [[CALCIUM, 10.0]],
     "note": "Brown bottle, top shelf, never with the other in one."},
]  # fmt: skip

ENTRIES: list[dict[str, Any]] = [
    {"what": "added", "tin": GREEN, "days_ago": 322, "amount": 1000.0, "price": 14.5},
    {"what": "counted", "tin": GREEN, "days_ago": 46, "amount": 410.0},
    {"what": "counted", "tin": BLUE, "days_ago": 46, "amount": 18.0},
    {"what": "counted", "tin": CALCIUM, "days_ago": 46, "amount": 860.0},
    {"what": "counted", "tin": POTASH, "days_ago": 46, "amount": 920.0},
    {"what": "counted", "tin": PHOSPHATE, "days_ago": 46, "amount": 455.0},
    {"what": "counted", "tin": EPSOM, "days_ago": 46, "amount": 640.0},
    {"what": "counted", "stock": "Epsom bottle", "days_ago": 41, "amount": 500.0},
    {"what": "counted", "stock": "Calcium bottle", "days_ago": 6, "amount": 500.0},
    {"what": "counted", "water": RAIN, "days_ago": 8, "amount": 96.0},
    {"what": "counted", "water": RO, "days_ago": 8, "amount": 14.0},
]  # fmt: skip

READ = (
    (13, 70, 0.66, None, ""),
    (34, 90, 0.82, 19.0, ""),
    (62, 110, 1.06, None, ""),
    (90, 130, 1.10, 21.0, ""),
    (125, 130, 1.20, None, ""),
    (153, 140, 1.62, None, "The spoon was heaped. Mixed anew."),
    (188, 120, 1.12, None, ""),
    (230, 100, 0.91, 18.0, ""),
    (290, 70, 0.67, None, ""),
)
METER: list[dict[str, Any]] = [
    {
        "days_ago": days_ago,
        "strength_ppm_n": strength,
        "ec_ms_per_cm": ec,
        "temperature_c": temperature,
        "note": note,
    }
    for days_ago, strength, ec, temperature, note in READ
]


def shelf() -> dict[str, Any]:
    """Give the whole shelf as plain data."""
    return {
        "tins": TINS,
        "waters": WATERS,
        "recipes": RECIPES,
        "tools": TOOLS,
        "vessels": VESSELS,
        "stocks": STOCKS,
        "entries": ENTRIES,
        "meter": METER,
    }
