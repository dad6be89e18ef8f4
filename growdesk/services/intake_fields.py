"""What a table that is taken in may hold: its fields, and how growers head them.

A field's key is its column in an export, so that an exported table is known at once.
Headers are the trade's in English and German, from memory.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from growdesk.domain.speech import Phrases, mark, tr
from growdesk.services.table_forms import FORMS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy import Column


class Sort(StrEnum):
    """What the rows of a table are."""

    PLANTS = "plants"
    LOOKS = "looks"
    CARE = "care"
    BLOOMS = "blooms"


TABLES: Mapping[Sort, str] = {
    Sort.PLANTS: "plant",
    Sort.LOOKS: "look",
    Sort.CARE: "care",
    Sort.BLOOMS: "bloom",
}
NEEDED: Mapping[Sort, tuple[str, ...]] = {
    Sort.PLANTS: ("tag",),
    Sort.LOOKS: ("tag", "on"),
    Sort.CARE: ("tag", "on", "what"),
    Sort.BLOOMS: ("tag",),
}
_SPACES = re.compile(r"[\s_./:-]+")


@dataclass(frozen=True, slots=True)
class Field:
    """One field: its key, what people call it, its column, and headers it is known by.

    ``unit`` is what its numbers are kept in, for headers that name another.
    """

    key: str
    title: str
    column: Column[Any]
    unit: str
    headers: frozenset[str]


def folded(header: str) -> str:
    """Give a header as it is compared: small letters, one space between words."""
    return _SPACES.sub(" ", header.casefold()).strip()


_UNITS = {
    "_l": "l",
    "_mm": "mm",
    "_ppm_n": "ppm",
    "_ms_per_cm": "ms",
    "_days": "days",
}
_TITLES = Phrases(
    {
        "on": "day",
        "what": "what was done",
        "kind": "kind",
        "bench": "number along the bench",
        "bench_name": "bench",
        "pot_volume_l": "pot, L",
        "volume_l": "volume of a round, L",
        "full_strength_ppm_n": "full strength, ppm N",
        "feed_ceiling_ppm_n": "strongest feed, ppm N",
        "feed_interval_days": "days between feeds",
        "strength_ppm_n": "strength, ppm N",
        "ec_ms_per_cm": "EC, mS/cm",
        "runoff_ec_ms_per_cm": "runoff EC, mS/cm",
        "longest_new_root_mm": "longest new root, mm",
        "lead_length_mm": "length of the lead, mm",
        "keiki_root_mm": "keiki's roots, mm",
        "spike_mm": "spike, mm",
        "size_mm": "size of a flower, mm",
        "rain_mm": "rain, mm",
        "parent": "taken from (tag)",
        "parent_how": "how it was taken",
        "left_why": "why it left",
        "quarantine_until": "stands apart until",
        "overrule_verdict": "your own word",
        "overrule_reason": "your own word: why",
        "overrule_until": "your own word: until",
        "overrule_water": "your own word: water",
        "overrule_since": "your own word: since",
    }
)
_NOTE = "notes|remarks|remark|comment|comments|notiz|notizen|bemerkung|bemerkungen"
_NOTE += "|anmerkung|anmerkungen|kommentar"
_DAY = "date|day|datum|am|wann"
_TAG = mark("no|nr|number|nummer|id|label|etikett|pflanzennummer|plant no|pflanzen nr")
_TAG += mark("|plant number|inventory no|inv nr|accession|code|#")
_HEADERS: Mapping[Sort, Mapping[str, str]] = {
    Sort.PLANTS: {
        "tag": _TAG,
        "name": mark(
            "plant|pflanze|species|art|plant name|pflanzenname|bezeichnung|taxon"
            "|botanical name|botanischer name|orchid|orchidee|sorte"
        ),
        "kind": "genus|gattung|type|typ",
        "place": "location|ort|standort|platz|room|raum|stelle|greenhouse|gewächshaus",
        "bench_name": "shelf|tray|regal|bord|tablett|tisch",
        "bench": mark("position|pos|bench no|platznummer|reihenfolge"),
        "hybrid": mark("hybride|is hybrid"),
        "pot_volume_l": mark(
            "pot|pot volume|pot size|topf|topfvolumen|topfgröße|topfgrösse|topfinhalt"
        ),
        "volume_l": mark("volume|water volume|gießmenge|giessmenge|wassermenge"),
        "medium": mark("substrate|substrat|mix|potting mix|pflanzstoff|media"),
        "mounted": mark("aufgebunden|mount|on a mount|block"),
        "size": "maturity|größe|grösse|alter|stage",
        "under_cover": "covered|regenschutz|überdacht",
        "repotted_on": mark(
            "repotted|last repotted|last repot|potted|repot date|umgetopft"
            "|umgetopft am|zuletzt umgetopft|letztes umtopfen"
        ),
        "acquired_on": mark(
            "acquired|bought|bought on|purchased|purchase date|date "
            "acquired|erworben|erworben am|gekauft|gekauft "
            "am|kaufdatum|zugang|seit"
        ),
        "source": mark(
            "from|vendor|nursery|bought from|seller|quelle|herkunft|gärtnerei"
            "|händler|bezugsquelle|von"
        ),
        "note": _NOTE,
        "left_on": mark("left|date left|abgang|abgegangen am"),
        "left_why": mark("reason|why left|grund|abgangsgrund"),
        "parent": mark(
            "mother plant|mutterpflanze|division of|taken from|teilstück von"
        ),
        "parentage": "parents|cross|kreuzung|eltern|abstammung",
        "papers": "permits|papiere|genehmigung|dokumente",
        "how_many": "count|anzahl|stück|pieces",
        "held_as": mark("held|gehalten als"),
    },
    Sort.LOOKS: {
        "tag": f"{_TAG}|plant|pflanze",
        "on": _DAY,
        "root_tips": "roots|wurzelspitzen",
        "longest_new_root_mm": mark(
            "longest new root|new root|root length|wurzellänge"
            "|längste neue wurzel|neue wurzel"
        ),
        "lead_length_mm": mark("lead|lead length|growth length|trieblänge|neutrieb"),
        "new_leaf": mark("neues blatt"),
        "flowering": "flowers|flower|blüte|bloom",
        "leaves": "blätter|laub",
        "bulbs": "bulben|pseudobulbs",
        "pot": mark("topf|pot moisture|feuchte|wetness"),
        "health": "gesundheit|trouble|troubles|schäden|schaden",
        "runoff_ec_ms_per_cm": mark(
            "runoff ec|ec|leachate ec|drain ec|abfluss ec|leitwert"
        ),
        "pods": mark("samenkapseln|kapseln|seed pods"),
        "spike_mm": mark("spike|spike length|rispenlänge|blütentrieb"),
        "note": _NOTE,
    },
    Sort.CARE: {
        "tag": f"{_TAG}|plant|pflanze",
        "on": _DAY,
        "what": "care|action|task|done|maßnahme|massnahme|tätigkeit|was|pflege|arbeit",
        "strength_ppm_n": mark("strength|ppm|ppm n|stärke|stickstoff|dose|dosis"),
        "volume_l": "volume|amount|water|menge|wassermenge|gießmenge|giessmenge",
        "ec_ms_per_cm": "ec|leitwert|conductivity",
        "product": mark("mittel|produkt|treated with"),
        "repeat_on": mark("repeat|again on|wiederholen|wiederholen am"),
        "rain_mm": "rain|regen|niederschlag",
        "medium": "substrate|substrat|mix",
        "pot_volume_l": mark("pot|pot volume|topf|topfvolumen"),
        "from_place": mark("from|moved from|von"),
        "to_place": mark("to|moved to|nach"),
        "note": _NOTE,
    },
    Sort.BLOOMS: {
        "tag": f"{_TAG}|plant|pflanze",
        "spike_seen_on": mark(
            "spike seen|spike|spiked|rispe|rispe gesehen|trieb gesehen"
        ),
        "first_open_on": mark(
            "open|opened|first open|first flower|in flower|aufgeblüht"
            "|erste blüte|blüht seit"
        ),
        "last_faded_on": mark("faded|last faded|ended|verblüht|blühende"),
        "flowers": mark("flower count|blüten|blütenzahl|anzahl blüten"),
        "spikes": mark("rispen|spike count"),
        "size_mm": mark("size|flower size|blütengröße|blütengrösse|spread"),
        "award": "awards|auszeichnung|prämierung",
        "note": _NOTE,
    },
}


def _fields(sort: Sort) -> dict[str, Field]:
    form = next(form for form in FORMS if form.name == TABLES[sort])
    return {cell.head: _field(sort, cell.head, cell.column) for cell in form.cells}


def _field(sort: Sort, key: str, column: Column[Any]) -> Field:
    title = _TITLES.get(key) or key.replace("_", " ").removesuffix(" on")
    if sort is Sort.LOOKS and key == "pot":
        title = tr("how wet the pot is")
    said = _HEADERS[sort].get(key, "")
    headers = {folded(each) for each in (key, title, *said.split("|"))}
    headers |= {folded(each) for each in _bare(key)}
    unit = next((unit for end, unit in _UNITS.items() if key.endswith(end)), "")
    return Field(key, title, column, unit, frozenset(headers - {""}))


def _bare(key: str) -> list[str]:
    """Give a key without its unit, as many would head the column."""
    return [key.removesuffix(end) for end in (*_UNITS, "_on") if key.endswith(end)]


FIELDS: Mapping[Sort, Mapping[str, Field]] = {sort: _fields(sort) for sort in Sort}
