"""Say what a plant that was picked in a list is, whichever list that was."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Protocol, Self

from growdesk.domain.speech import tr
from growdesk.ui.name_text import name_html, shown_name

if TYPE_CHECKING:
    from collections.abc import Sequence

_NAMED = 4


class Picked(Protocol):
    """A plant as commands for one or many take it; a line of the day is one."""

    @property
    def plant_id(self) -> int:
        """Give its number."""

    @property
    def tag(self) -> str:
        """Give its tag."""

    @property
    def name(self) -> str:
        """Give its name, or an empty text."""


class Whom(str):
    """Plants named in plain text; ``html`` is the same with names in italics."""

    __slots__ = ("html",)

    html: str

    def __new__(cls, text: str, html: str) -> Self:
        """Keep both ways of saying it."""
        made = super().__new__(cls, text)
        made.html = html
        return made


def whom(plants: Sequence[Picked]) -> Whom:
    """Name the first plants picked, and count the rest."""
    named = [whom_of(each.tag, each.name) for each in plants[:_NAMED]]
    more = len(plants) - _NAMED
    html = ", ".join(each.html for each in named)
    text = ", ".join(named)
    if more <= 0:
        return Whom(text, html)
    said = tr("{plants} and {more} more")
    return Whom(
        said.format(plants=text, more=more), said.format(plants=html, more=more)
    )


def whom_of(tag: str, name: str) -> Whom:
    """Name one plant."""
    text = f"{tag} {shown_name(name)}".strip()
    return Whom(text, f"{escape(tag)} {name_html(name)}".strip())
