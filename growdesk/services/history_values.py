"""Frozen values of the history of changes: its actions, a page of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import datetime


class PastAsk(Struct, frozen=True):
    """What of the history is asked for; ``tag`` and ``text`` narrow it."""

    text: str = ""
    tag: str = ""
    before: int | None = None
    most: int = 200


class PastAction(Struct, frozen=True):
    """One action of the history, with the tags of the plants it touched.

    ``steps`` is how many actions are undone with it, or done again with it where it is
    ``undone``. What is not ``is_kept`` stands before the bin was last emptied; a note
    tells what nothing undoes. ``who`` is the account's name on the computer, empty
    where it was not kept.
    """

    action_id: int
    at: datetime
    title: str
    tags: tuple[str, ...]
    undone: bool
    is_kept: bool
    steps: int
    who: str = ""
    is_note: bool = False


class PastPage(Struct, frozen=True):
    """Some of the history, the newest first; ``has_more`` older ones stand behind."""

    actions: tuple[PastAction, ...]
    has_more: bool
