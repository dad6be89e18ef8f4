"""Read numbers as people type them: decimal commas, fractions, grouped thousands.

A separator that could be either a decimal mark or a thousands mark is asked back
instead of guessed at. Units are read elsewhere.
"""

from __future__ import annotations

import math
import re
import unicodedata
from typing import Final

from growdesk.domain.errors import InputError
from growdesk.domain.speech import manner, tr

LONGEST_TEXT: Final = 60
_VULGAR: Final = re.compile("[¼-¾⅐-⅞↉]")
_DIGITS: Final = r"[0-9](?:[0-9 ',.]*[0-9])?"
NUMBER: Final = (
    r"[-+−–]?\s*(?:[0-9]+\s+[0-9]+\s*/\s*[0-9]+|[0-9]+\s*/\s*[0-9]+"
    rf"|(?:{_DIGITS}|[.,][0-9]+)(?:[eE][-+]?[0-9]{{1,3}})?)"
)
"""A pattern for one number; what it matches may still be refused when read."""


def plain_text(text: str, field: str) -> str:
    """Give the text with spaces, fractions and wide letters made plain."""
    if len(text) > LONGEST_TEXT:
        raise InputError(
            field,
            shown(text),
            tr("is too long to be an amount"),
            tr('Write a number and a unit, for instance "5 L".'),
        )
    spaced = _VULGAR.sub(lambda found: " " + _flat(found[0]), text)
    return " ".join(_flat(spaced).replace("’", "'").split())


def with_unit(text: str, unit: str) -> str:
    """Give a bare number its unit, where only one unit can be meant."""
    return f"{text} {unit}" if re.fullmatch(NUMBER, text.strip()) else text


def shown(text: str) -> str:
    """Give the text as an error repeats it, cut short if it is long."""
    return text if len(text) <= LONGEST_TEXT else f"{text[:40]}…"


def read_number(typed: str, field: str, text: str, *, asks_groups: bool) -> float:
    """Give the value of a number that matches ``NUMBER``; ``text`` is for the error.

    With ``asks_groups`` a mark before exactly three digits ("1,500") is asked back.
    """
    sign = -1.0 if typed[0] in "-−–" else 1.0
    body = typed.lstrip("-+−–").strip()
    if "/" in body:
        return sign * _fraction(body, field, text)
    mantissa, _, exponent = body.lower().partition("e")
    plain = _plain_digits(mantissa, field, text, asks_groups=asks_groups)
    value = sign * float(f"{plain}e{exponent or 0}")
    if not math.isfinite(value):
        raise InputError(
            field, shown(text), tr("is far too large"), tr("Write fewer digits.")
        )
    return value


def _flat(text: str) -> str:
    return unicodedata.normalize("NFKC", text).replace("⁄", "/")


def _fraction(body: str, field: str, text: str) -> float:
    whole, _, rest = re.sub(r"\s*/\s*", "/", body).rpartition(" ")
    above, below = rest.split("/")
    if not int(below):
        raise InputError(
            field,
            shown(text),
            tr("divides by zero"),
            tr('Write for instance "1/2 tsp".'),
        )
    return float(whole or 0) + int(above) / int(below)


def _plain_digits(typed: str, field: str, text: str, *, asks_groups: bool) -> str:
    """Give digits with a decimal point, or ask where a mark could be either."""
    spaced = re.fullmatch(r"[0-9]{1,3}(?:[ '][0-9]{3})+(?:[.,][0-9]+)?", typed)
    if spaced:
        return re.sub(r"[ ']", "", typed).replace(",", ".")
    marks = [mark for mark in typed if mark in ",."]
    if not re.search(r"[ ']", typed):
        if not marks:
            return typed
        if len(marks) == 1:
            return _one_mark(typed, field, text, asks_groups=asks_groups)
        for group, decimal in ((",", "."), (".", ",")):
            form = rf"[0-9]{{1,3}}(?:\{group}[0-9]{{3}})+(?:\{decimal}[0-9]+)?"
            if re.fullmatch(form, typed):
                return typed.replace(group, "").replace(decimal, ".")
    raise InputError(
        field,
        shown(text),
        tr("is not a number that can be read"),
        tr('Write plain digits, for instance "1500" or "1.5".'),
    )


def _one_mark(typed: str, field: str, text: str, *, asks_groups: bool) -> str:
    whole, _, part = typed.replace(",", ".").partition(".")
    if asks_groups and len(part) == 3 and 1 <= len(whole) <= 3 and whole[0] != "0":
        short = part.rstrip("0") or "0"
        more = "0" if len(short) == 3 else ""
        decimal = f"{whole}{manner().decimal}{short}{more}"
        raise InputError(
            field,
            shown(text),
            tr("could mean {whole}{part} or {decimal}").format(
                whole=whole, part=part, decimal=decimal
            ),
            tr('Write "{whole}{part}" or "{decimal}" with its unit.').format(
                whole=whole, part=part, decimal=decimal
            ),
        )
    return f"{whole or 0}.{part}"
