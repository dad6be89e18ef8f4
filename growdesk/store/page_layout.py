"""Where the rows of a table's page lie, and where room is left between them.

After the file format's own description (sqlite.org/fileformat2.html, section 1.6). All
is read from the bytes of one page, and what cannot be is left out.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from growdesk.store.page_records import Cell

_USUAL = 4096


def page_size(head: bytes, length: int) -> int:
    """Give the size of pages by the header where it can be, else the usual."""
    said = int.from_bytes(head[16:18], "big")
    said = 65536 if said == 1 else said
    fits = said >= 512 and said & (said - 1) == 0
    return said if fits and (length % said == 0 or length % _USUAL != 0) else _USUAL


def pointers_of(page: bytes, start: int, header: int, size: int) -> list[int]:
    """Give where the cells of a page begin, as far as that can be."""
    many = int.from_bytes(page[start + 3 : start + 5], "big")
    first = start + header
    many = min(many, (size - first) // 2)
    found = []
    for number in range(many):
        at = int.from_bytes(page[first + 2 * number : first + 2 * number + 2], "big")
        found.append(at if first < at < size else size)
    return found


def freed_room(page: bytes, start: int, size: int) -> list[tuple[int, int]]:
    """Give the room in a page that rows gave back."""
    at = int.from_bytes(page[start + 1 : start + 3], "big")
    found: list[tuple[int, int]] = []
    while at and at + 4 <= size and len(found) < size // 4:
        length = int.from_bytes(page[at + 2 : at + 4], "big")
        if length < 4 or at + length > size:
            break
        found.append((at, at + length))
        following = int.from_bytes(page[at : at + 2], "big")
        if following <= at:
            break
        at = following
    return found


def adds_up(
    page: bytes, start: int, cells: list[Cell], freed: list[tuple[int, int]]
) -> bool:
    """Tell whether rows, freed room and crumbs make up all that a page has in use."""
    content = int.from_bytes(page[start + 5 : start + 7], "big") or len(page)
    taken = sum(max(4, cell.end - cell.start) for cell in cells)
    given = sum(end - begin for begin, end in freed)
    return taken + given + page[start + 7] == len(page) - content


def room_left(
    page: bytes,
    start: int,
    pointers: int,
    cells: list[Cell],
    freed: list[tuple[int, int]],
) -> list[tuple[int, int]]:
    """Give the room of a page that neither rows nor freed room take."""
    size = len(page)
    content = int.from_bytes(page[start + 5 : start + 7], "big")
    least = start + 8
    at = content if least < content < size else least + 2 * pointers
    at = min([at, *(cell.start for cell in cells)])
    found: list[tuple[int, int]] = []
    for begin, end in sorted([*((c.start, c.end) for c in cells), *freed]):
        if begin > at:
            found.append((at, begin))
        at = max(at, end)
    if at < size:
        found.append((at, size))
    return found


def apart(cells: list[Cell]) -> list[Cell]:
    """Leave out a cell that begins inside another one, and keys that cannot be."""
    ends = sorted((cell.start, cell.end) for cell in cells)
    inside = {after[0] for before, after in pairwise(ends) if after[0] < before[1]}
    return [cell for cell in cells if cell.key > 0 and cell.start not in inside]


def in_order(cells: list[Cell]) -> list[Cell]:
    """Leave out rows whose number stands against their neighbours' order."""
    if all(a.key < b.key for a, b in pairwise(cells)):
        return cells
    best = [1] * len(cells)
    before = [-1] * len(cells)
    for at, cell in enumerate(cells):
        for earlier in range(at):
            if cells[earlier].key < cell.key and best[earlier] >= best[at]:
                best[at], before[at] = best[earlier] + 1, earlier
    at = max(range(len(cells)), key=best.__getitem__)
    kept: list[Cell] = []
    while at >= 0:
        kept.append(cells[at])
        at = before[at]
    return kept[::-1]
