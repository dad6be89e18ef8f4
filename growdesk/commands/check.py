"""Looks the collection over for damage and changes nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import DamagedError
from growdesk.services.care_of_files import check

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:  # noqa: ARG001 -- commands share one form
    """Say that all is sound, or name what is not and end as bad input does."""
    with desk.folder_there(desk.today) as folder:
        found = check(folder)
        if found.problems:
            for problem in found.problems:
                output.say(problem)
            more = len(found.problems) - 1
            rest = f" There are {more} more problems above." if more else ""
            raise DamagedError(
                f"The collection in {folder} is damaged. {found.problems[0]}{rest}",
                "Bring back a backup with: growdesk restore FILE.",
            )
        output.say(
            f"The collection in {folder} is sound: "
            f"{output.counted(found.plants, 'plant')}, "
            f"{output.counted(found.photos, 'photo')}."
        )
