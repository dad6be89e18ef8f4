"""Gives what stands on a command line as values: days, numbers, files.

Each slip names the option as it was typed. Files are opened here and nowhere else in
the commands.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range, read_day, read_number
from growdesk.domain.facts_file import parse_json, read_facts
from growdesk.domain.facts_kinds import fitted, read_kind_table
from growdesk.services import kinds

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import KindTable

STANDARD_INPUT = "-"
_PLAIN_NUMBER = re.compile(r"[+-]?([0-9]+[.,]?[0-9]*|[.,][0-9]+)")
_MOST_BYTES = 50_000_000


def day(option: str, text: str | None, today: date) -> date:
    """Give the day an option names, or today."""
    return today if text is None else read_day(option, text)


def number(option: str, text: str, allowed: Range) -> float:
    """Give the number an option names."""
    if not _PLAIN_NUMBER.fullmatch(text.strip()):
        hint = f"Give a plain number {allowed}."
        raise InputError(option, text, "is not a number", hint)
    return read_number(option, float(text.replace(",", ".")), allowed)


def facts(file: str) -> tuple[House, tuple[Plant, ...], KindTable]:
    """Give the house and plants of a facts file, and the kinds as it corrects them."""
    read = json_file("--facts", file)
    house, plants = read_facts(read)
    table = read_kind_table(read, kinds.table())
    for plant in plants:
        kind, _known = kinds.kind_of(replace(plant, kind_fields=()), table)
        where = f"plant {plant.tag}, kind_fields"
        fitted(where, kind, plant.kind_fields, here=True)
    return house, plants, table


def json_file(option: str, file: str, json_hint: str = "") -> object:
    """Give the decoded object of a JSON file, or of standard input."""
    source = "standard input" if file == STANDARD_INPUT else file
    raw = _read_input() if file == STANDARD_INPUT else _read_file(option, file)
    if len(raw) > _MOST_BYTES:
        hint = f"Give at most {_MOST_BYTES // 1_000_000} MB."
        raise InputError(option, source, "is too large", hint)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        hint = "Save it as UTF-8."
        raise InputError(option, source, "is not UTF-8 text", hint) from None
    return parse_json(text, source, option, json_hint)


def _read_input() -> bytes:
    """Give standard input, one byte beyond the limit at most."""
    buffer = getattr(sys.stdin, "buffer", None)
    raw = sys.stdin.read().encode() if buffer is None else buffer.read(_MOST_BYTES + 1)
    assert isinstance(raw, bytes)  # noqa: S101 -- standard input's buffer gives bytes
    return raw


def _read_file(option: str, file: str) -> bytes:
    """Give a file's content, one byte beyond the limit at most."""
    if not file:
        hint = "Name a file, or - for standard input."
        raise InputError(option, file, "names no file", hint)
    path = Path(file)
    try:
        if path.is_dir():
            hint = "Name a file."
            raise InputError(option, file, "is a folder", hint)
        with path.open("rb") as opened:
            return opened.read(_MOST_BYTES + 1)
    except FileNotFoundError:
        hint = "Check its name and folder."
        raise InputError(option, file, "is not there", hint) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        hint = "Check its name and whether you may read it."
        raise InputError(option, file, f"cannot be read ({reason})", hint) from None
