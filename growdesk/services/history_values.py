"""Frozen values of the history of changes: its actions, a page of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime


@dataclass(frozen=True, slots=True)
class PastAsk:
    """What of the history is asked for; ``tag`` and ``text`` narrow it."""

    text: str = ""
    tag: str = ""
    before: int | None = None
    most: int = 200


@dataclass(frozen=True, slots=True)
class PastAction:
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


@dataclass(frozen=True, slots=True)
class PastPage:
    """Some of the history, the newest first; ``has_more`` older ones stand behind."""

    actions: tuple[PastAction, ...]
    has_more: bool
