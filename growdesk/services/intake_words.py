"""Words of tables as the words the collection knows: English, German, yes and no."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import words_joined
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Mapping
    from enum import StrEnum

YES = frozenset(
    {
        "true",
        "yes",
        "y",
        "1",
        "x",
        "✓",
        "✔",
        "ja",
        "j",
        "wahr",
        "oui",
        "vrai",
        "si",
        "sí",
        "sì",
        "vero",
        "verdadero",
        "sim",
        "tak",
    }
)
NO = frozenset(
    {
        "false",
        "no",
        "n",
        "0",
        "-",
        "–",
        "nein",
        "falsch",
        "non",
        "faux",
        "falso",
        "não",
        "nao",
        "nie",
        "✗",
    }
)
_OTHER: Mapping[str, Mapping[str, str]] = {
    "medium": {
        **dict.fromkeys(("rinde", "fir bark", "pine bark", "orchid bark"), "bark"),
        **dict.fromkeys(("moos", "sphagnum moss", "sphagnum moos"), "sphagnum"),
        **dict.fromkeys(("mineralisch", "lava", "leca", "seramis"), "mineral"),
        **dict.fromkeys(("semihydro", "semi hydro", "s/h"), "semi-hydro"),
        **dict.fromkeys(("erde",), "soil"),
        **dict.fromkeys(("keines", "ohne", "bare root", "wurzelnackt"), "none"),
    },
    "size": {
        **dict.fromkeys(("sämling", "jungpflanze", "ns"), "seedling"),
        **dict.fromkeys(("fast blühstark", "nbs", "near blooming"), "near-blooming"),
        **dict.fromkeys(
            ("blühstark", "bs", "fs", "adult", "blooming size"), "blooming"
        ),
    },
    "what": {
        **dict.fromkeys(
            ("fed", "fertilized", "fertilised", "fertilizer", "gedüngt", "düngen"),
            "feed",
        ),
        **dict.fromkeys(
            ("water", "watered", "clear water", "gegossen", "gießen", "wasser"),
            "clear-water",
        ),
        **dict.fromkeys(("flushed", "gespült", "spülen", "leached"), "flush"),
        **dict.fromkeys(("repotted", "umgetopft", "umtopfen", "potted"), "repot"),
        **dict.fromkeys(("divided", "division", "geteilt", "teilen"), "divide"),
        **dict.fromkeys(("moved", "umgestellt", "umstellen"), "move"),
        **dict.fromkeys(("treated", "treatment", "behandelt", "sprayed"), "treat"),
        **dict.fromkeys(("regen", "rained"), "rain"),
    },
    "root_tips": {
        **dict.fromkeys(("keine", "no"), "none"),
        **dict.fromkeys(("beginnend", "starts"), "starting"),
        **dict.fromkeys(("aktiv", "active", "growing", "laufend"), "running"),
        **dict.fromkeys(("verdeckt", "not visible", "nicht sichtbar"), "hidden"),
    },
    "flowering": {
        **dict.fromkeys(("nein", "no", "keine"), "none"),
        **dict.fromkeys(("blühend", "in flower", "in bloom", "flowering"), "open"),
        **dict.fromkeys(("knospen", "bud"), "buds"),
        **dict.fromkeys(("rispe", "trieb"), "spike"),
        **dict.fromkeys(("verblüht", "finished"), "spent"),
    },
    "health": {
        **dict.fromkeys(("none", "healthy", "ok", "gesund", "keine"), "nothing"),
        **dict.fromkeys(("fäulnis", "fäule"), "rot"),
        **dict.fromkeys(("schädlinge", "pest"), "pests"),
        **dict.fromkeys(("no roots", "keine wurzeln"), "no-roots"),
        **dict.fromkeys(("virus", "virus suspect", "virusverdacht"), "virus-suspect"),
        **dict.fromkeys(("salt burn", "salzschaden"), "salt-burn"),
    },
    "status": {
        **dict.fromkeys(("here", "alive", "vorhanden", "lebt"), "growing"),
        **dict.fromkeys(("given away", "verschenkt", "abgegeben"), "given-away"),
        **dict.fromkeys(("verkauft",), "sold"),
        **dict.fromkeys(("dead", "died", "tot", "eingegangen", "verloren"), "lost"),
    },
    "pot": {
        **dict.fromkeys(("nass",), "wet"),
        **dict.fromkeys(("feucht", "damp"), "moist"),
        **dict.fromkeys(("fast trocken", "nearly dry"), "nearly-dry"),
        **dict.fromkeys(("trocken",), "dry"),
    },
}


def flag(field: str, text: str) -> bool:
    """Give yes or no, as it is written in several languages."""
    said = text.casefold()
    if said in YES:
        return True
    if said in NO:
        return False
    raise InputError(
        field, text, tr("is neither yes nor no"), tr("Write true or false.")
    )


def word(field: str, text: str, words: type[StrEnum]) -> str:
    """Give the word of an enumeration that a cell means."""
    said = " ".join(text.casefold().split())
    known = [each.value for each in words]
    found = said if said in known else _OTHER.get(field, {}).get(said)
    if found is None and said.replace(" ", "-") in known:
        found = said.replace(" ", "-")
    if found is None:
        hint = tr("Use {words_joined}, or leave it out.").format(
            words_joined=words_joined(known)
        )
        raise InputError(field, text, tr("is not a word known here"), hint)
    return found


def word_set(field: str, text: str, words: type[StrEnum], nothing: str) -> str:
    """Give words joined by commas; what was looked for and not found is empty."""
    found = set()
    for part in text.replace(";", ",").replace("+", ",").split(","):
        said = " ".join(part.casefold().split())
        if not said:
            continue
        if nothing in {said, _OTHER.get(field, {}).get(said)}:
            continue
        found.add(word(field, said, words))
    if "none" in found and len(found) > 1:
        hint = tr("Leave out none where there is a stage.")
        raise InputError(field, text, tr("says two things at once"), hint)
    return ",".join(sorted(found))
