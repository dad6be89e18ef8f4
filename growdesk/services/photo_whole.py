"""Whether a photo of the collection is still the file that was taken in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.errors import StoreError
from growdesk.domain.speech import tr
from growdesk.store.photos import whole_content
from growdesk.store.pictures import UnreadableError

if TYPE_CHECKING:
    from pathlib import Path


def check(path: Path) -> None:
    """Refuse a photo that is missing, cut short or replaced, with the way out.

    It reads the whole file: not for the thread that paints.
    """
    try:
        whole_content(path)
    except UnreadableError as error:
        raise StoreError(
            tr("The file of this photo is missing or damaged."),
            tr("Add the photo again, or bring back a backup."),
        ) from error
