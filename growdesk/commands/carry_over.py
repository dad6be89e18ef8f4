"""Carries the whole collection over to a server, or from a server into a new folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.domain.server_address import is_address
from growdesk.services.carrying_over import carry_over
from growdesk.services.clock import SystemClock
from growdesk.services.servers import find_server

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk
    from growdesk.services.whereabouts import Where


def run(arguments: Namespace, desk: Desk) -> None:
    """Carry it over, and say what went and what is to be used from now on."""
    if desk.demo:
        hint = "Leave --demo out."
        raise InputError("--demo", "", "is thrown away, and is not carried over", hint)
    target: Where = Path(arguments.to)
    if is_address(arguments.to):
        target = find_server(arguments.to, desk.photos_given, "--to")
    with desk.where_at_rest(desk.today) as source:
        went = carry_over(source, target, SystemClock())
    output.say(
        f"Carried over to {went.called}: {output.counted(went.plants, 'plant')}, "
        f"{output.counted(went.rows, 'row')} in all, "
        f"{output.counted(went.actions, 'step')} of the history and "
        f"{output.counted(went.photos, 'photo')}. "
        "All was read back and is as it was."
    )
    for problem in went.problems:
        output.say(problem)
    output.say(
        "What it came from is left as it was, with its kept backups: "
        "write into one of the two only from now on."
    )
