"""A wanted N:P:K:Ca:Mg as a person types it, as elements or as labels print them."""

from __future__ import annotations

import re
from typing import Final

from growdesk.domain.chemistry import LABEL_OXIDE, as_element
from growdesk.domain.errors import InputError
from growdesk.domain.recipe import Wanted
from growdesk.domain.speech import mark, tr

ORDER: Final = ("N", "P", "K", "Ca", "Mg")
ANY: Final = "x"
"""Written where an element does not matter."""

_NUMBER: Final = re.compile(r"[0-9]{1,4}(?:[.,][0-9]{1,4})?")
_PLACED: Final = re.compile(r"\s*[:/]\s*")
_RUN: Final = re.compile(r"\s*[-–—]\s*|\s+")
_HINT: Final = mark(
    'Write N:P:K:Ca:Mg, for instance "3:1:2:1:0.5"; x where it does not matter.'
)
_FIELD: Final = "wanted"
_LONGEST: Final = 60
LEAST_N: Final = 0.0001
"""The least nitrogen that can be written."""


def parse_wanted(text: str, *, oxides: bool = False) -> Wanted:
    """Give what is wanted of each element; those left out do not matter.

    Understood: "3:1:2", "3:1:2:1:0.5", "15-5-15", "3:x:2" and decimal commas. With
    ``oxides`` all but nitrogen are read as P2O5, K2O, CaO and MgO.
    """
    typed = text.strip()
    split = _PLACED if _PLACED.search(typed) else _RUN
    tokens = split.split(typed) if 0 < len(typed) <= _LONGEST else []
    if not tokens or len(tokens) > len(ORDER):
        raise InputError(_FIELD, _cut(text), tr("is no N:P:K:Ca:Mg"), tr(_HINT))
    told = [_number(token, text) for token in tokens]
    n, *rest = told
    if not n:
        raise InputError(
            _FIELD,
            _cut(text),
            tr("wants no nitrogen, by which a feed's strength goes"),
            tr(_HINT),
        )
    found = {
        element: as_element(LABEL_OXIDE[element], amount)[1] if oxides else amount
        for element, amount in zip(ORDER[1:], rest, strict=False)
        if amount is not None
    }
    return Wanted(n, found.get("P"), found.get("K"), found.get("Ca"), found.get("Mg"))


def wanted_text(wanted: Wanted) -> str:
    """Give what is wanted as it is typed, to four digits."""
    parts = []
    for amount in (wanted.n, wanted.p, wanted.k, wanted.ca, wanted.mg):
        if amount is None:
            parts.append(ANY)
        else:
            parts.append(_shown(amount))
    while parts[-1] == ANY:
        parts.pop()
    return ":".join(parts)


def _number(token: str, text: str) -> float | None:
    if token.lower() in ("", ANY, "*", "?"):
        return None
    if not _NUMBER.fullmatch(token):
        raise InputError(
            _FIELD,
            _cut(text),
            tr("has {token} where a number belongs").format(token=token[:20]),
            tr(_HINT),
        )
    return float(token.replace(",", "."))


def _shown(amount: float) -> str:
    return f"{float(f'{amount:.4g}'):.10g}"


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[:40]}…"
