"""Find the languages that texts are ready in, and read their catalogues.

A language is a folder ``locale/<code>/LC_MESSAGES`` of the shipped files with a
``growdesk.mo``; English needs none. Nothing is read until a language is asked for.
"""

from __future__ import annotations

import gettext
import struct
from typing import TYPE_CHECKING, Final

from growdesk import assets
from growdesk.domain.errors import InputError
from growdesk.domain.speech import Manner, mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from growdesk.domain.speech import Catalogue

ENGLISH: Final = "en"
_DECIMAL: Final = mark(".", "decimal sign")
"""The sign of the language itself, for where no place is known."""


def languages() -> tuple[str, ...]:
    """Give the codes of the languages that can be spoken, English first."""
    found = sorted(path.parent.parent.name for path in _files())
    return (ENGLISH, *(code for code in found if code != ENGLISH))


def catalogue(language: str) -> Catalogue | None:
    """Give the texts of a language; English has no catalogue.

    One that cannot be read is as good as none: English is said.
    """
    for path in _files():
        if path.parent.parent.name == language:
            try:
                with path.open("rb") as file:
                    return gettext.GNUTranslations(file)
            except (OSError, ValueError, LookupError, struct.error):
                return None
    return None


def spoken(wanted: Iterable[str]) -> str:
    """Give the first language that is wanted and can be spoken, else English."""
    known = languages()
    for tag in wanted:
        code = tag.replace("-", "_")
        for each in (code, code.partition("_")[0]):
            if each in known:
                return each
    return ENGLISH


def manner_of(language: str) -> Manner:
    """Give how a language is spoken where no place is known: days stay in ISO form."""
    code = language.strip().casefold()
    if code not in languages():
        ready = ", ".join(languages())
        hint = tr("Give {ready}.").format(ready=ready)
        raise InputError("--language", language, tr("is not known"), hint)
    texts = catalogue(code)
    if texts is None:
        return Manner()
    return Manner(texts, decimal_of(texts))


def decimal_of(texts: Catalogue | None) -> str:
    """Give the decimal sign of a language, a comma or a point."""
    said = texts.pgettext("decimal sign", _DECIMAL) if texts else _DECIMAL
    return "," if said == "," else "."


def _files() -> list[Path]:
    try:
        folder = assets.path("locale")
    except FileNotFoundError:
        return []
    return sorted(folder.glob("*/LC_MESSAGES/growdesk.mo"))
