"""Words on names: what each part is, and what is doubtful, in whole sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts_fields import words_joined
from growdesk.domain.plant_name import DoubtSort
from growdesk.domain.speech import Phrases, tr

if TYPE_CHECKING:
    from growdesk.domain.plant_name import Doubt, PlantName

_SAID: Phrases[DoubtSort] = Phrases(
    {
        DoubtSort.NO_GENUS: "“{about}” names no genus that is in the list.",
        DoubtSort.UNSURE_GENUS: "“{about}” may stand for {may_be}.",
        DoubtSort.UNKNOWN_GENUS: "The genus {about} is not in the list of genera.",
        DoubtSort.MISSPELT: "“{about}” is no genus in the list; {may_be} is near to "
        "it.",
        DoubtSort.SMALL_GENUS: "“{about}” is written {may_be}, with one capital.",
        DoubtSort.NO_STOP: "“{about}” stands without its full stop.",
        DoubtSort.CAPITALS: (
            "“{about}” is all in capitals, so species and grex look the same."
        ),
        DoubtSort.CAPITAL_SPECIES: (
            "“{about}” begins with a capital, as a grex does, and "
            "there is a species of this name."
        ),
        DoubtSort.CAPITAL_EPITHET: (
            "“{about}” stands after a rank, and such a name begins with a small letter."
        ),
        DoubtSort.SECOND_EPITHET: (
            "“{about}” stands in small letters after the species, which is one word."
        ),
        DoubtSort.UNQUOTED: (
            "“{about}” stands without quotes: a clone name goes in single quotes."
        ),
        DoubtSort.DOUBLE_QUOTES: (
            "{about} stands in double quotes: a clone name goes in single quotes."
        ),
        DoubtSort.OPEN_QUOTE: "The quote before {about} is not closed.",
        DoubtSort.SMALL_CLONE: "{about} begins with a small letter: a clone has a "
        "capital.",
        DoubtSort.SECOND_CLONE: "{about} is a second clone name, and a plant has one.",
        DoubtSort.AWARD_WITHOUT_CLONE: (
            "There is an award, which goes to a clone, and no clone stands in quotes."
        ),
        DoubtSort.AWARD_WITHOUT_SOCIETY: (
            "{about} stands without the society that gave it, as in {about}/RHS."
        ),
        DoubtSort.BRACKETS: "The brackets in “{about}” do not pair.",
        DoubtSort.SEVERAL_CROSSES: (
            "“{about}” has more than one cross, and none says which was made first."
        ),
        DoubtSort.HALF_CROSS: "The hybrid sign {about} has no name on one side.",
        DoubtSort.QUESTION: "“{about}” carries a question mark of yours.",
        DoubtSort.LEFT_OVER: "“{about}” is no part of a name where it stands.",
        DoubtSort.TANGLED: "“{about}” is more than can be read as one name.",
    }
)
_SETTLES: Phrases[DoubtSort] = Phrases(
    {
        DoubtSort.NO_GENUS: (
            "Write the genus first, in full or by its abbreviation; No ID if "
            "it is unknown."
        ),
        DoubtSort.UNSURE_GENUS: "Write the genus in full.",
        DoubtSort.UNKNOWN_GENUS: "Hold the spelling against the label; it is shown "
        "as is.",
        DoubtSort.MISSPELT: "Hold the spelling against the label.",
        DoubtSort.SMALL_GENUS: "What follows then tells a species from a grex.",
        DoubtSort.NO_STOP: "An abbreviated genus ends in a full stop.",
        DoubtSort.CAPITALS: "Write a species in small letters, a grex with capitals.",
        DoubtSort.CAPITAL_SPECIES: "Write the species in small letters; or add gx.",
        DoubtSort.CAPITAL_EPITHET: "Write it in small letters.",
        DoubtSort.SECOND_EPITHET: (
            "Put var. or f. before a form, capitals to a grex, or quotes round a clone."
        ),
        DoubtSort.UNQUOTED: (
            "Put it in quotes, or give it a capital if it belongs to the grex."
        ),
        DoubtSort.DOUBLE_QUOTES: "Write it in single quotes.",
        DoubtSort.OPEN_QUOTE: "Close it where the clone's name ends.",
        DoubtSort.SMALL_CLONE: "Hold it against the label.",
        DoubtSort.SECOND_CLONE: "Keep the one on the label, and put the other in a "
        "note.",
        DoubtSort.AWARD_WITHOUT_CLONE: "Put the clone's name in single quotes before "
        "it.",
        DoubtSort.AWARD_WITHOUT_SOCIETY: "The label or the award's papers name it.",
        DoubtSort.BRACKETS: "Close each bracket that opens.",
        DoubtSort.SEVERAL_CROSSES: "Put the cross that was made first in brackets.",
        DoubtSort.HALF_CROSS: "Write both parents, the pod parent first.",
        DoubtSort.QUESTION: "It goes with a flower that is sure; cf. says the same.",
        DoubtSort.LEFT_OVER: "Put a note of yours behind a comma.",
        DoubtSort.TANGLED: "Keep to one name here, and write the rest as a note.",
    }
)


def said(doubt: Doubt) -> str:
    """Give what is doubtful."""
    return _SAID[doubt.sort].format(
        about=doubt.about, may_be=words_joined(list(doubt.may_be))
    )


def settles(doubt: Doubt) -> str:
    """Give what would settle it."""
    return _SETTLES[doubt.sort]


def parts(name: PlantName) -> tuple[tuple[str, str], ...]:
    """Give each part of a name by what it is."""
    kind = tr("made genus") if name.is_nothogenus else tr("genus")
    awards = (f"{a.code}/{a.society}" if a.society else a.code for a in name.awards)
    natural = tr("natural hybrid") if name.is_natural_hybrid else tr("species")
    found = (
        (kind, name.genus or name.genus_typed),
        (tr("once under"), name.former),
        (
            tr("known as"),
            ", ".join(name.qualifiers) or (tr("No ID") if name.no_id else ""),
        ),
        (natural, name.species),
        *((_rank(rank), epithet) for rank, epithet in name.ranks),
        (tr("grex"), name.grex),
        (tr("trade designation"), name.trade),
        (tr("clone"), f"\u2018{name.clone}\u2019" if name.clone else ""),
        (tr("award"), ", ".join(awards)),
        (tr("pod parent"), _short(name.pod)),
        (tr("pollen parent"), _short(name.pollen)),
        (tr("note"), ", ".join(name.notes)),
    )
    return tuple((title, value) for title, value in found if value)


_RANKS = Phrases(
    {
        "var": "variety",
        "f": "form",
        "subsp": "subspecies",
        "sect": "section",
        "ser": "series",
        "subg": "subgenus",
    },
    "rank of a name",
)
_WRITTEN = {"v": "var", "fma": "f", "forma": "f", "ssp": "subsp"}


def _rank(written: str) -> str:
    bare = written.removesuffix(".")
    return _RANKS.get(_WRITTEN.get(bare, bare), written)


def parts_line(name: PlantName) -> str:
    """Give a name's parts in one line."""
    return "; ".join(f"{title} {value}" for title, value in parts(name))


def _short(name: PlantName | None) -> str:
    """Give a parent in a few words."""
    if name is None:
        return ""
    named = name.genus_typed or name.species or name.grex or name.trade or name.clone
    if name.notes and not named and name.pod is None:
        return ", ".join(name.notes)
    sign = "\u00d7" if name.is_natural_hybrid else ""
    words = [name.genus, sign + name.species, name.grex, name.trade]
    words += [f"\u2018{name.clone}\u2019" if name.clone else ""]
    if name.pod is not None:
        words.append(f"({_short(name.pod)} \u00d7 {_short(name.pollen)})")
    return " ".join(filter(None, words)) or ", ".join(name.notes)
