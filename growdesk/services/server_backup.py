"""Keeps a backup of a server before a program of a newer form changes its tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.thinning import Why
from growdesk.services.long_work import quietly
from growdesk.services.place_file import folder_there
from growdesk.services.server_copy import copy_server
from growdesk.store import backup_sets
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.whole_files import passing

if TYPE_CHECKING:
    from datetime import datetime

    from growdesk.services.whereabouts import OnServer

_IN_PASSING = "growdesk-form-"


def keep_before_form(where: OnServer, form: int, now: datetime) -> None:
    """Keep it, or give the one that an earlier try has left of the same state."""
    folder = folder_there(where)
    with passing(_IN_PASSING) as made:
        copy = made / FILE_NAME
        copy_server(where, copy, quietly, form)
        backup_sets.make(copy, Why.BEFORE_FORM, now, anew=False, folder=folder)
