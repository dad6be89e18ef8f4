"""Offer genera for what is being typed: at the start of a name, and for a parent."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.genera import key_of
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from growdesk.domain.genera import Genera, Genus

_OPEN_WORD = re.compile(r"(?:^|[(\u00d7=]|\s[xX]\s)\s*([^\W\d_][\w.\-]*)$")


class Offer(Struct, frozen=True):
    """A genus that fits: what is said of it, and the whole line with it taken."""

    genus: str
    said: str
    line: str


def offered(text: str, genera: Genera, limit: int = 8) -> tuple[Offer, ...]:
    """Give the genera that the word being typed may become, the nearest first.

    One that is typed by its abbreviation is taken as such, else in full. A genus that
    stands there already is not offered.
    """
    found = _OPEN_WORD.search(text)
    if found is None:
        return ()
    word = found.group(1)
    key = key_of(word)
    fits = [(_rank(genus, key), genus) for genus in genera.by_name.values()]
    fits = [(rank, genus) for rank, genus in fits if rank is not None]
    fits.sort(key=lambda fit: (fit[0], fit[1].name))
    before = text[: found.start(1)]
    made = (_offer(genus, key, before, genera) for _rank_, genus in fits)
    return tuple(offer for offer in made if offer.line.rstrip() != text)[:limit]


def _rank(genus: Genus, key: str) -> int | None:
    """Give how near a genus is to what is typed, 0 nearest; nothing where it is not."""
    shorts = [key_of(short) for short in genus.short]
    name = key_of(genus.name)
    if key in shorts:
        return 0
    if any(short.startswith(key) for short in shorts):
        return 1
    return 2 if name.startswith(key) else None


def _offer(genus: Genus, key: str, before: str, genera: Genera) -> Offer:
    short = genera.short_of(genus.name)
    by_short = short != genus.name and key_of(short).startswith(key)
    in_full = key_of(genus.name).startswith(key) and len(key) >= len(key_of(short))
    taken = short if by_short and not in_full else genus.name
    if key_of(short) == key:
        taken = short
    return Offer(genus.name, told(genus), f"{before}{taken} ")


def told(genus: Genus) -> str:
    """Give a genus with its abbreviation, its parents and what it is today."""
    short = f" ({genus.short[0]})" if genus.short else ""
    parents = f": {' × '.join(genus.parents)}" if genus.parents else ""
    said = f"{genus.name}{short}{parents}"
    return (
        tr("{genus}, now {now}").format(genus=said, now=genus.now)
        if genus.now
        else said
    )
