"""Find every text that is said through the catalogue, with where it stands.

Read from the syntax tree of the sources, and from the columns of shipped tables that
people read. A text found here and not in a language's catalogue is missing there.
"""

from __future__ import annotations

import ast
import csv
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct, field

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parents[2]
SAID_ONCE = frozenset({"tr", "mark"})
SAID_BY_COUNT = {"trn": 0, "counted": 1}
CSV_COLUMNS = {
    "resources/kinds.csv": ("title", "repot_moment", "advice", "source"),
    "resources/salts.csv": ("names", "use", "caution"),
    "resources/solubility.csv": ("name",),
}


class Text(Struct, frozen=True):
    """A text as it stands in English; ``many`` is its form for other counts."""

    one: str
    many: str = ""
    context: str = ""


class Found(Struct):
    """All texts, each with the files it stands in."""

    where: dict[Text, list[str]] = field(default_factory=dict)

    def add(self, text: Text, place: str) -> None:
        """Keep a text with one more place."""
        places = self.where.setdefault(text, [])
        if place not in places:
            places.append(place)


@cache
def all_texts() -> dict[Text, list[str]]:
    """Give every text of the program with the files it stands in."""
    found = Found()
    for path in sorted((ROOT / "growdesk").rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                for text in _of_call(node):
                    found.add(text, path.relative_to(ROOT).as_posix())
    for name, columns in CSV_COLUMNS.items():
        for cell in _cells(name, columns):
            found.add(Text(cell), name)
    return found.where


def _cells(name: str, columns: tuple[str, ...]) -> Iterator[str]:
    with (ROOT / name).open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            yield from (row[column] for column in columns if row[column])


def _of_call(call: ast.Call) -> Iterator[Text]:
    name = _name(call.func)
    if name in SAID_BY_COUNT:
        first = SAID_BY_COUNT[name]
        pair = [_text(each) for each in call.args[first : first + 2]]
        if len(pair) == 2 and all(pair):
            yield Text(pair[0], pair[1])
        return
    values, context = _values(name, call)
    for value in values:
        for text in _branches(value):
            yield Text(text, context=context)


def _values(name: str, call: ast.Call) -> tuple[list[ast.expr], str]:
    """Give what a call says, and in which context."""
    if name == "Lines":
        return call.args, _context(call, len(call.args))
    if not call.args:
        return [], ""
    first = call.args[0]
    if name in SAID_ONCE:
        return [first], _context(call, 1)
    if name == "Phrases" and isinstance(first, ast.Dict):
        return first.values, _context(call, 1)
    return [], ""


def _name(function: ast.expr) -> str:
    if isinstance(function, ast.Attribute):
        return function.attr
    return function.id if isinstance(function, ast.Name) else ""


def _branches(value: ast.expr) -> Iterator[str]:
    """Give a text, or both texts of a choice between two."""
    if isinstance(value, ast.IfExp):
        yield from _branches(value.body)
        yield from _branches(value.orelse)
    elif text := _text(value):
        yield text


def _text(value: ast.expr) -> str:
    if isinstance(value, ast.Constant) and isinstance(value.value, str):
        return value.value
    return ""


def _context(call: ast.Call, place: int) -> str:
    for keyword in call.keywords:
        if keyword.arg == "context":
            return _text(keyword.value)
    return _text(call.args[place]) if len(call.args) > place else ""
