"""The fixed words of orchid names: ranks, qualifiers, awards, words of the trade.

Ranks are those of the botanical code; award codes are from the award list of the
American Orchid Society as growers copy it; words of the trade are from memory.
"""

from __future__ import annotations

import re

RANKS = frozenset(
    (
        *(
            "subsp.",
            "subsp",
            "ssp.",
            "ssp",
            "var.",
            "var",
            "v.",
            "subvar.",
            "f.",
            "fma.",
        ),
        *("fma", "forma", "form", "variety", "nothovar.", "nothosubsp."),
        *(
            "sect.",
            "sect",
            "section",
            "subsect.",
            "subg.",
            "subgenus",
            "ser.",
            "series",
        ),
    )
)
ABOVE_SPECIES = frozenset(
    ("sect.", "sect", "section", "subsect.", "subg.", "subgenus", "ser.", "series")
)
QUALIFIERS = frozenset(
    (
        *("cf.", "cf", "aff.", "aff", "sp.", "sp", "spp.", "spp", "hybrid", "hyb."),
        *("hybrids", "type", "complex", "alliance", "affinity", "species", "unknown"),
        *(
            "unnamed",
            "primary",
            "Hybrid",
            "Hybride",
            "Hybriden",
            "hybride",
            "hybr.",
        ),
        *("hybr", "spec.", "spec"),
    )
)
NOTES = frozenset(
    (
        *("seedling", "seedlings", "division", "div", "mericlone", "keiki", "keikis"),
        *("backbulb", "backbulbs", "clone", "mounted", "self", "selfed", "selfing"),
        *("sib", "sibling", "flask", "compot", "nbs", "bs", "fs", "stem", "prop"),
        *("meristem", "original", "awarded", "open", "pollinated", "pts", "points"),
        *("pt", "peloric", "splash", "variegated", "dwarf", "select", "hort"),
    )
)
OF_ITSELF = frozenset(("self", "selfed", "selfing", "sib", "sibling", "open"))
"""What stands for the pollen parent: the plant itself, a sister, or an unknown one."""
GREX_WORDS = frozenset(("gx", "gx.", "grex"))
SMALL = frozenset(
    (
        *("a", "al", "and", "au", "aux", "da", "de", "dei", "del", "della", "den"),
        *("der", "des", "di", "do", "dos", "du", "e", "el", "en", "et", "i", "in"),
        *("la", "las", "le", "les", "lo", "los", "n", "o", "of", "on", "or", "te"),
        *("ten", "ter", "the", "to", "und", "van", "vom", "von", "y", "zu", "zum"),
        *("zur", "&", "for", "with", "at", "by", "from", "no", "von der"),
    )
)
AWARDS = frozenset(
    (
        *("HCC", "AM", "FCC", "JC", "AD", "AQ", "CBR", "CHM", "CCM", "CCE"),
        *("CBM", "PC", "CR", "SM", "BM", "GM", "ACC", "HCQ", "ADQ", "ACE"),
    )
)
OF_A_CLONE = frozenset(("HCC", "AM", "FCC", "JC"))
"""Awards that stay with the clone, which has a name before it is given one."""
AWARD = re.compile(r"[A-Z]{1,4}/[A-Z]{2,}(?:-[A-Z]+)*")
NO_ID = re.compile(r"no[ -]?id\.?|unidentified", re.IGNORECASE)
PLOIDY = re.compile(r"\(?\d{1,2}[nN]\)?")
NUMBERED = re.compile(r"(?:#|no\.|nr\.)\s*\S*", re.IGNORECASE)
TRADE = re.compile(r"(?:\u2122|\u00ae|\((?:tm|r)\))$", re.IGNORECASE)
LATIN_GENUS = re.compile(
    r"[A-Z\u00c9\u00cb][a-z\u00eb]+(?:a|e|um|us|is|es|os|on|ys|ps|x)"
)
LATIN_EPITHET = re.compile(r"[a-z\u00e0-\u00ff]+(?:-[a-z]+)*(?:[aeiosmnxrt])")
