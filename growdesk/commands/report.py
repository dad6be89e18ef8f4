"""Writes a report of a fault as text: versions, counts and the log, no plant."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.services import bug_report
from growdesk.services.clock import SystemClock

if TYPE_CHECKING:
    from argparse import Namespace

    from growdesk.commands.desk import Desk


def run(arguments: Namespace, desk: Desk) -> None:
    """Write the report, and say that it went nowhere."""
    file = Path(arguments.file)
    with desk.where(desk.today) as where:
        bug_report.save(bug_report.report(where, SystemClock().now()), file)
    output.say(
        f"The report is in {file}. Read it and cut what you would rather keep; "
        "nothing was sent."
    )
