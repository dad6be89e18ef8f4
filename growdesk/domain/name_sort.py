"""Put names in the order in which growers keep their lists."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from growdesk.domain.genera import folded

if TYPE_CHECKING:
    from growdesk.domain.plant_name import PlantName

SortKey = tuple[int, str, int, str, str, str, str, str]
_NOT_LETTERS = re.compile(r"[^\w\s]|_")
_FIGURES = re.compile(r"\d+")
_LAST = 1


def sort_key(name: PlantName) -> SortKey:
    """Give the key to sort by: genus in full, then species or grex, then clone.

    Species and grexes stand in one alphabet, as on a grower's shelf list; a species'
    varieties follow it. Crosses without a grex follow the named plants of their genus,
    by their pod parent and then their pollen parent; then plants that only the genus is
    known of. A made genus stands under its own name, a cross of two genera under its
    pod parent's. Accents, case, quotes and hybrid signs are passed over, and 9 stands
    before 10. A doubtful genus is sorted as typed; a plant without any name is last.
    """
    if not name.as_typed and not name.pieces:
        return (2, "", 0, "", "", "", "", "")
    genus = name.genus or (name.pod.genus if name.pod else "") or name.genus_typed
    if not genus:
        is_last = name.no_id or not _letters(name.as_typed)
        place = _LAST if is_last else 0
        return (place, _letters(name.as_typed), 0, "", "", "", "", name.as_typed)
    epithet = name.species or name.grex or name.trade
    group, first = 0, epithet
    if not epithet and name.pod is not None:
        group, first = 1, _of_parents(name)
    elif not epithet and not name.clone:
        group = 2
    ranks = " ".join(word for _rank, word in name.ranks)
    return (
        0,
        _letters(genus),
        group,
        _letters(first),
        _letters(ranks),
        _letters(name.clone),
        _letters(name.as_typed),
        name.as_typed,
    )


def _of_parents(name: PlantName) -> str:
    parents = (each for each in (name.pod, name.pollen) if each is not None)
    return " ".join(
        f"{parent.species or parent.grex or _of_parents(parent)} {parent.clone}"
        for parent in parents
    )


def _letters(text: str) -> str:
    """Give what counts of a text: its letters in one case, figures by their size."""
    bare = _NOT_LETTERS.sub(" ", folded(text.replace("\u00d7", " ")))
    padded = _FIGURES.sub(lambda found: found.group().zfill(6), bare)
    return " ".join(padded.split())
