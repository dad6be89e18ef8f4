"""A view of the collection as the text that is kept of it, and the way back.

The text is JSON with a version. What a later version, or a hand, made of it is told and
never guessed at.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Verdict
from growdesk.domain.json_text import decoded
from growdesk.domain.speech import mark, tr
from growdesk.services.roster_values import Only, ViewDraft, Whose

if TYPE_CHECKING:
    from collections.abc import Callable

VERSION = 1
_HINT = mark("Remove it, or save another view under its name.")


def text_of(view: ViewDraft) -> str:
    """Give what is kept of a view, its name apart."""
    return json.dumps(
        {
            "version": VERSION,
            "find": view.find,
            "columns": list(view.columns),
            "order": view.order,
            "downwards": view.downwards,
            "whose": view.whose,
            "place": view.place,
            "kind": view.kind,
            "verdict": view.verdict,
            "only": sorted(view.only),
        },
        ensure_ascii=False,
    )


def view_of(name: str, text: str) -> ViewDraft:
    """Give the view that a text holds; ``InputError`` where it holds none."""
    try:
        kept = decoded(text)
    except ValueError:
        raise _damaged(name) from None
    if not isinstance(kept, dict):
        raise _damaged(name)
    version = kept.get("version")
    if isinstance(version, int) and version > VERSION:
        hint = tr("Open the collection with a newer growdesk.")
        raise InputError("view", name, tr("was kept by a newer growdesk"), hint)
    try:
        return ViewDraft(
            name=name,
            find=_as(str, kept["find"]),
            columns=tuple(_as(str, each) for each in _as(list, kept["columns"])),
            order=_as(str, kept["order"]),
            downwards=_as(bool, kept["downwards"]),
            whose=Whose(kept["whose"]),
            place=_or_none(_number, kept["place"]),
            kind=_or_none(_text, kept["kind"]),
            verdict=_or_none(Verdict, kept["verdict"]),
            only=frozenset(Only(each) for each in _as(list, kept["only"])),
        )
    except (KeyError, TypeError, ValueError):
        raise _damaged(name) from None


def without_place(text: str, place_id: int) -> str | None:
    """Give the text of a view without this place; nothing where it asks for another.

    Numbers of places are given out again, so that no view may keep that of one gone.
    """
    try:
        kept = decoded(text)
    except ValueError:
        return None
    asks = kept.get("place") if isinstance(kept, dict) else None
    if isinstance(asks, bool) or asks != place_id:
        return None
    return json.dumps({**kept, "place": None}, ensure_ascii=False)


def _damaged(name: str) -> InputError:
    return InputError("view", name, tr("cannot be read any more"), tr(_HINT))


def _as(kind: type[Any], value: object) -> Any:
    if not isinstance(value, kind):
        raise TypeError(value)
    return value


def _number(value: object) -> Any:
    if isinstance(value, bool):
        raise TypeError(value)
    return _as(int, value)


def _text(value: object) -> Any:
    return _as(str, value)


def _or_none(made: Callable[[Any], Any], value: object) -> Any:
    return None if value is None else made(value)
