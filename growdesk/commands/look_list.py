"""Makes a look list with blanks as a PDF, in the order in which a round is walked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.commands import output, pdf_file, reading
from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the list of a place, or of all, for a day; without ``--on``, today."""
    on = reading.day("--on", arguments.on, desk.today)
    path = pdf_file.to_write(arguments.pdf, "look-list.pdf")
    with desk.reading(on) as collection:
        try:
            made = collection.look_lists.make(
                on, arguments.place, only_due=arguments.due
            )
        except InputError as error:
            raise InputError(
                "--place", error.value, error.problem, error.hint
            ) from None
    if not made.plants:
        hint = (
            "Leave out --due for all plants." if arguments.due else "Add plants first."
        )
        raise InputError("--pdf", arguments.pdf, "would hold no plant", hint)
    from growdesk.ui.printing.look_list import write_look_list  # noqa: PLC0415 -- Qt is slow to load

    write_look_list(made, path, arguments.paper)
    count = f"{made.plants} plant{'' if made.plants == 1 else 's'}"
    output.say(f"Wrote a look list of {count} to {path}.")
