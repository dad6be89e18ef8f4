"""Wires growdesk together and gives the exit code; the only place that does so.

Whatever goes wrong, a person sees one plain line on standard error: a slip of theirs or
the world's ends with code 2, a fault of ours with code 1 and its details in the log.
"""

from __future__ import annotations

import gc
import importlib
import os
import sys
from contextlib import suppress
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

from growdesk.commands.desk import Desk
from growdesk.commands.output import complain, set_up_streams
from growdesk.commands.parser import (
    parsed,
    refuse_photos_beside_a_folder,
    refuse_two_sources,
)
from growdesk.commands.screen import screen_there
from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import speak, tr

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Callable, Sequence

QT_PACKAGES = (
    "libegl1 libgl1 libxkbcommon0 libdbus-1-3 libfontconfig1 libglib2.0-0 "
    "fonts-dejavu-core"
)
GOOD, OUR_FAULT, BAD_INPUT = 0, 1, 2
INTERRUPTED, NOBODY_READS = 130, 141


class NoScreenError(GrowdeskError):
    """The window was asked for where there is no screen."""

    reference = "no-screen"


def main(argv: Sequence[str] | None = None) -> int:
    """Run growdesk with these arguments and give its exit code."""
    set_up_streams()
    try:
        return _answer(argv)
    except GrowdeskError as error:
        complain(error.line())
        return BAD_INPUT
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        _close_output()
        return NOBODY_READS
    except OSError as error:
        _close_output()
        complain(_told_world(error))
        return BAD_INPUT
    except Exception as error:  # noqa: BLE001 -- no traceback reaches a person
        return _give_up(error)


def _answer(argv: Sequence[str] | None) -> int:
    try:
        arguments = parsed(argv)
    except SystemExit as stop:  # --help and --version have answered
        code = stop.code if isinstance(stop.code, int) else GOOD
    else:
        code = _run(arguments)
    if sys.stdout is not None:
        sys.stdout.flush()
    return code


def _run(arguments: Namespace) -> int:
    folder_given: str | None = getattr(arguments, "collection", None)
    demo: bool = getattr(arguments, "demo", False)
    photos_given: str | None = getattr(arguments, "photos", None)
    refuse_two_sources(arguments)
    refuse_photos_beside_a_folder(arguments)
    _speak(arguments)
    desk = Desk(_today(), folder_given, demo, photos_given)
    if arguments.command is None:
        return _open_window(desk)
    name = f"growdesk.commands.{arguments.command.replace('-', '_')}"
    command: Any = importlib.import_module(
        f"{name}_" if name.endswith("import") else name
    )
    try:
        code = command.run(arguments, desk)
    except (GrowdeskError, OSError, ImportError, KeyboardInterrupt):
        raise
    except Exception as error:
        raise _behind(desk, error) from error
    return code if isinstance(code, int) else GOOD


def _behind(desk: Desk, error: Exception) -> Exception:
    """Give the damage in the collection that a fault comes of, else the fault."""
    found = desk.damage_behind()
    if found is not None:
        _log_fault(error)
    return found or error


def _speak(arguments: Namespace) -> None:
    """Speak English, or the language asked for; the machine's own changes nothing."""
    language: str | None = getattr(arguments, "language", None)
    if language is None:
        speak()
        return
    if arguments.command is None:
        hint = tr("Choose the window's language in View, Preferences.")
        raise InputError("--language", language, tr("is for commands"), hint)
    from growdesk.services.catalogues import manner_of  # noqa: PLC0415 -- seldom asked

    speak(manner_of(language))


def _open_window(desk: Desk) -> int:
    if not screen_there():
        raise NoScreenError(
            tr("growdesk: there is no screen to open the window on."),
            tr("The week's sheet needs none: {command}").format(
                command=f"growdesk --demo sheet --week {desk.today.isoformat()} "
                "--pdf sheet.pdf"
            ),
        )
    run_window = _loaded()
    with desk.where(desk.today) as where:
        return run_window(where, desk.demo, named=desk.folder_given is not None)


def _loaded() -> Callable[..., int]:
    """Load the window, quickly.

    The collector would go through all that is loaded again and again; the window takes
    collecting over. What is loaded after Qt has its source read by Qt's import hook, so
    what knows no Qt comes first.
    """
    gc.disable()
    from growdesk.services import (  # noqa: F401, PLC0415 -- what the first day reads
        collection,
        history,
        mixed_with,
    )
    from growdesk.ui.start import run_window  # noqa: PLC0415 -- Qt is for the window only

    return run_window


def _today() -> date:
    """Give the day on the wall calendar where this machine stands."""
    return datetime.now(tz=UTC).astimezone().date()


def _close_output() -> None:
    """Send what is still to be written nowhere, so that closing stays quiet."""
    with suppress(OSError, ValueError):
        descriptor = sys.stdout.fileno()
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, descriptor)
        os.close(nowhere)


def _told_world(error: OSError) -> str:
    """Give the line for a file or disk that would not do what was asked."""
    shown = "" if error.filename is None else f" ({error.filename})"
    return f"growdesk: {error.strerror or type(error).__name__}{shown}."


def _give_up(error: Exception) -> int:
    """Tell which of the system's libraries Qt lacks; anything else is our fault."""
    library = str(error).partition(":")[0]
    if not isinstance(error, ImportError) or ".so" not in library:
        complain(_log_fault(error))
        return OUR_FAULT
    complain(
        tr(
            "growdesk: Qt cannot start without {library}. On Debian or Ubuntu install "
            "it with: apt install {packages}"
        ).format(library=library, packages=QT_PACKAGES)
    )
    return BAD_INPUT


def _log_fault(error: Exception) -> str:
    """Keep the fault in the log and give the line for a person."""
    from growdesk.services import log_file  # noqa: PLC0415 -- for a fault

    fault = type(error).__name__
    path = log_file.keep_fault(error)
    if path is None:
        return tr(
            "growdesk met a fault of its own ({fault}) and stopped. The log could not "
            "be written."
        ).format(fault=fault)
    return tr(
        "growdesk met a fault of its own ({fault}) and stopped. What was entered "
        "before is kept; the details are in {path}."
    ).format(fault=fault, path=path)
