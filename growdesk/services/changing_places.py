"""Lets go of an open collection, does something to its folder, and stands on it again.

Whatever fails or is stopped in between, the one who had it open has one again: the same
where it did not change, else what took its place. What cannot be opened whole is opened
to look at.
"""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING, Generic, TypeVar

from msgspec import Struct

from growdesk.domain.errors import GrowdeskError
from growdesk.store.trouble import plainly

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.collection import Collection

T = TypeVar("T")
log = logging.getLogger(__name__)


class Standing(Struct, Generic[T], frozen=True):
    """The collection to stand on now, what was done, or else why it was not.

    ``collection`` is nothing only where the folder holds none that opens at all.
    """

    collection: Collection | None
    done: T | None
    error: Exception | None = None


def change(old: Collection, do: Callable[[], T]) -> Standing[T]:
    """Close a collection, do it, and open what is in its folder then."""
    done: T | None = None
    failed: Exception | None = None
    try:
        with plainly(old.folder):
            old.close()
            done = do()
    except GrowdeskError as error:
        failed = error
    except Exception as error:  # a fault of ours must not leave nothing open
        log.exception("a collection could not change places")
        failed = error
    try:
        return Standing(type(old).open_again(old.folder, old.clock), done, failed)
    except GrowdeskError as error:
        return Standing(None, done, failed or error)
