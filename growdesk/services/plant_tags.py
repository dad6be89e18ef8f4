"""Propose tags: free ones that go on from the newest plant's."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.services.plant_rows import all_tags
from growdesk.store.schema import PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.store.session import Session

_TAG = re.compile(r"(?P<head>.*?)(?P<digits>[0-9]+)")


def next_tags(session: Session, count: int) -> tuple[str, ...]:
    """Give free tags that go on from the newest one."""
    newest = session.scalar(select(PlantRow.tag).order_by(PlantRow.id.desc()).limit(1))
    return following(newest or "", all_tags(session), count)


def following(newest: str, taken: Iterable[str], count: int) -> tuple[str, ...]:
    """Give tags after one that are not taken in any case; A1 where it has no number.

    ``taken`` may name tags that are about to be given, as those of a file to be read.
    """
    folded = {tag.casefold() for tag in taken}
    found = _TAG.fullmatch(newest)
    head, digits = (found["head"], found["digits"]) if found else ("A", "0")
    number = int(digits)
    tags: list[str] = []
    while len(tags) < count:
        number += 1
        tag = f"{head}{number:0{len(digits)}d}"
        if tag.casefold() not in folded:
            tags.append(tag)
    return tuple(tags)
