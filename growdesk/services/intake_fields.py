"""What a table that is taken in may hold: its fields, and how growers head them.

A field's key is its column in an export, so that an exported table is known at once.
Headers are the trade's in English and German, from memory.
"""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.speech import mark, tr
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


class Field(Struct, frozen=True):
    """One field: its key, what people call it, its column, and headers it is known by.

    ``unit`` is what its numbers are kept in, for headers that name another.
    """

    key: str
    english: str
    column: Column[Any]
    unit: str
    headers: frozenset[str]

    @property
    def title(self) -> str:
        """Give what people call it, in the language spoken."""
        return tr(self.english)


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
_TITLES: Mapping[str, str] = {
    "on": mark("day"),
    "what": mark("what was done"),
    "kind": mark("kind"),
    "bench": mark("number along the bench"),
    "bench_name": mark("bench"),
    "pot_volume_l": mark("pot, L"),
    "volume_l": mark("volume of a round, L"),
    "full_strength_ppm_n": mark("full strength, ppm N"),
    "feed_ceiling_ppm_n": mark("strongest feed, ppm N"),
    "feed_interval_days": mark("days between feeds"),
    "strength_ppm_n": mark("strength, ppm N"),
    "ec_ms_per_cm": mark("EC, mS/cm"),
    "runoff_ec_ms_per_cm": mark("runoff EC, mS/cm"),
    "longest_new_root_mm": mark("longest new root, mm"),
    "lead_length_mm": mark("length of the lead, mm"),
    "keiki_root_mm": mark("keiki's roots, mm"),
    "spike_mm": mark("spike, mm"),
    "size_mm": mark("size of a flower, mm"),
    "rain_mm": mark("rain, mm"),
    "parent": mark("taken from (tag)"),
    "parent_how": mark("how it was taken"),
    "left_why": mark("why it left"),
    "quarantine_until": mark("stands apart until"),
    "overrule_verdict": mark("your own word"),
    "overrule_reason": mark("your own word: why"),
    "overrule_until": mark("your own word: until"),
    "overrule_water": mark("your own word: water"),
    "overrule_since": mark("your own word: since"),
    "tag": mark("tag"),
    "name": mark("name"),
    "place": mark("place"),
    "hybrid": mark("hybrid"),
    "medium": mark("medium"),
    "mounted": mark("mounted"),
    "size": mark("size"),
    "under_cover": mark("under cover"),
    "repotted_on": mark("repotted"),
    "slow_release_until": mark("slow release until"),
    "ignores_rest": mark("ignores rest"),
    "acquired_on": mark("acquired"),
    "source": mark("source"),
    "note": mark("note"),
    "status": mark("status"),
    "left_on": mark("left"),
    "parentage": mark("parentage"),
    "papers": mark("papers"),
    "held_as": mark("held as"),
    "how_many": mark("how many"),
    "emerging": mark("emerging"),
    "extending": mark("extending"),
    "maturing": mark("maturing"),
    "matured": mark("matured"),
    "stalled": mark("stalled"),
    "root_tips": mark("root tips"),
    "new_leaf": mark("new leaf"),
    "flowering": mark("flowering"),
    "leaves": mark("leaves"),
    "bulbs": mark("bulbs"),
    "health": mark("health"),
    "keikis": mark("keikis"),
    "pods": mark("pods"),
    "product": mark("product"),
    "repeat_on": mark("repeat"),
    "from_place": mark("from place"),
    "to_place": mark("to place"),
    "spike_seen_on": mark("spike seen"),
    "first_open_on": mark("first open"),
    "last_faded_on": mark("last faded"),
    "flowers": mark("flowers"),
    "spikes": mark("spikes"),
    "award": mark("award"),
}
_WETNESS = mark("how wet the pot is")
_NOTE = "notes|remarks|remark|comment|comments|notiz|notizen|bemerkung|bemerkungen"
_NOTE += "|anmerkung|anmerkungen|kommentar"
_DAY = "date|day|datum|am|wann"
_TAG = "no|nr|number|nummer|id|label|etikett|pflanzennummer|plant no|pflanzen nr"
_TAG += "|plant number|inventory no|inv nr|accession|code|#"
_HEADERS: Mapping[Sort, Mapping[str, str]] = {
    Sort.PLANTS: {
        "tag": _TAG,
        "name": (
            "plant|pflanze|species|art|plant name|pflanzenname|bezeichnung|taxon"
            "|botanical name|botanischer name|orchid|orchidee|sorte"
        ),
        "kind": "genus|gattung|type|typ",
        "place": "location|ort|standort|platz|room|raum|stelle|greenhouse|gewächshaus",
        "bench_name": "shelf|tray|regal|bord|tablett|tisch",
        "bench": "position|pos|bench no|platznummer|reihenfolge",
        "hybrid": "hybride|is hybrid",
        "pot_volume_l": (
            "pot|pot volume|pot size|topf|topfvolumen|topfgröße|topfgrösse|topfinhalt"
        ),
        "volume_l": "volume|water volume|gießmenge|giessmenge|wassermenge",
        "medium": "substrate|substrat|mix|potting mix|pflanzstoff|media",
        "mounted": "aufgebunden|mount|on a mount|block",
        "size": "maturity|größe|grösse|alter|stage",
        "under_cover": "covered|regenschutz|überdacht",
        "repotted_on": (
            "repotted|last repotted|last repot|potted|repot date|umgetopft"
            "|umgetopft am|zuletzt umgetopft|letztes umtopfen"
        ),
        "acquired_on": (
            "acquired|bought|bought on|purchased|purchase date|date "
            "acquired|erworben|erworben am|gekauft|gekauft "
            "am|kaufdatum|zugang|seit"
        ),
        "source": (
            "from|vendor|nursery|bought from|seller|quelle|herkunft|gärtnerei"
            "|händler|bezugsquelle|von"
        ),
        "note": _NOTE,
        "left_on": "left|date left|abgang|abgegangen am",
        "left_why": "reason|why left|grund|abgangsgrund",
        "parent": "mother plant|mutterpflanze|division of|taken from|teilstück von",
        "parentage": "parents|cross|kreuzung|eltern|abstammung",
        "papers": "permits|papiere|genehmigung|dokumente",
        "how_many": "count|anzahl|stück|pieces",
        "held_as": "held|gehalten als",
    },
    Sort.LOOKS: {
        "tag": f"{_TAG}|plant|pflanze",
        "on": _DAY,
        "root_tips": "roots|wurzelspitzen",
        "longest_new_root_mm": (
            "longest new root|new root|root length|wurzellänge"
            "|längste neue wurzel|neue wurzel"
        ),
        "lead_length_mm": "lead|lead length|growth length|trieblänge|neutrieb",
        "new_leaf": "neues blatt",
        "flowering": "flowers|flower|blüte|bloom",
        "leaves": "blätter|laub",
        "bulbs": "bulben|pseudobulbs",
        "pot": "topf|pot moisture|feuchte|wetness",
        "health": "gesundheit|trouble|troubles|schäden|schaden",
        "runoff_ec_ms_per_cm": "runoff ec|ec|leachate ec|drain ec|abfluss ec|leitwert",
        "pods": "samenkapseln|kapseln|seed pods",
        "spike_mm": "spike|spike length|rispenlänge|blütentrieb",
        "note": _NOTE,
    },
    Sort.CARE: {
        "tag": f"{_TAG}|plant|pflanze",
        "on": _DAY,
        "what": "care|action|task|done|maßnahme|massnahme|tätigkeit|was|pflege|arbeit",
        "strength_ppm_n": "strength|ppm|ppm n|stärke|stickstoff|dose|dosis",
        "volume_l": "volume|amount|water|menge|wassermenge|gießmenge|giessmenge",
        "ec_ms_per_cm": "ec|leitwert|conductivity",
        "product": "mittel|produkt|treated with",
        "repeat_on": "repeat|again on|wiederholen|wiederholen am",
        "rain_mm": "rain|regen|niederschlag",
        "medium": "substrate|substrat|mix",
        "pot_volume_l": "pot|pot volume|topf|topfvolumen",
        "from_place": "from|moved from|von",
        "to_place": "to|moved to|nach",
        "note": _NOTE,
    },
    Sort.BLOOMS: {
        "tag": f"{_TAG}|plant|pflanze",
        "spike_seen_on": "spike seen|spike|spiked|rispe|rispe gesehen|trieb gesehen",
        "first_open_on": (
            "open|opened|first open|first flower|in flower|aufgeblüht"
            "|erste blüte|blüht seit"
        ),
        "last_faded_on": "faded|last faded|ended|verblüht|blühende",
        "flowers": "flower count|blüten|blütenzahl|anzahl blüten",
        "spikes": "rispen|spike count",
        "size_mm": "size|flower size|blütengröße|blütengrösse|spread",
        "award": "awards|auszeichnung|prämierung",
        "note": _NOTE,
    },
}


def _fields(sort: Sort) -> dict[str, Field]:
    form = next(form for form in FORMS if form.name == TABLES[sort])
    return {cell.head: _field(sort, cell.head, cell.column) for cell in form.cells}


def _field(sort: Sort, key: str, column: Column[Any]) -> Field:
    title = _WETNESS if sort is Sort.LOOKS and key == "pot" else _TITLES[key]
    said = _HEADERS[sort].get(key, "")
    headers = {folded(each) for each in (key, title, *said.split("|"))}
    headers |= {folded(each) for each in _bare(key)}
    unit = next((unit for end, unit in _UNITS.items() if key.endswith(end)), "")
    return Field(key, title, column, unit, frozenset(headers - {""}))


def _bare(key: str) -> list[str]:
    """Give a key without its unit, as many would head the column."""
    return [key.removesuffix(end) for end in (*_UNITS, "_on") if key.endswith(end)]


FIELDS: Mapping[Sort, Mapping[str, Field]] = {sort: _fields(sort) for sort in Sort}
