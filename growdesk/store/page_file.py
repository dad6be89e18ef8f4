"""A SQLite file as pages: its trees walked as far as they hold, its rows read.

A page that cannot be read costs only the rows in it; a row that cannot be read costs
only itself. Rows whose pointer is gone are looked for in the room that no other row
takes. SQLite itself is not asked, so that no damage stops the reading.
"""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.store.page_layout import (
    adds_up,
    apart,
    freed_room,
    in_order,
    page_size,
    pointers_of,
    room_left,
)
from growdesk.store.page_records import (
    INDEX_INTERIOR,
    INDEX_LEAF,
    INTERIOR,
    LEAF,
    Cell,
    Unfit,
    index_cell,
    interior_cell,
    leaf_cell,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    Fits = Callable[[Cell], bool]

_HEADER = 100
_DEEPEST = 24
_FIRST = -(1 << 63)
_LAST = (1 << 63) - 1
_LEAST_LIKE = 0.5


class Losses(Struct):
    """What could not be read of one table: ranges of keys, and single rows."""

    ranges: list[tuple[int, int]] = field(default_factory=list)
    cells: int = 0

    def __bool__(self) -> bool:
        return bool(self.ranges or self.cells)


class _Walk(Struct, frozen=True):
    """What a walk through one table's tree goes by."""

    fits: Fits
    losses: Losses

    def lose(self, low: int, high: int) -> None:
        self.losses.ranges.append((low, high))

    def is_like(self, cells: list[Cell]) -> bool:
        like = sum(self.fits(cell) for cell in cells)
        return not cells or like >= _LEAST_LIKE * len(cells)


class PageFile:
    """The pages of one file, opened for reading."""

    def __init__(self, path: Path) -> None:
        self._file = path.open("rb")
        head = self._file.read(_HEADER)
        length = path.stat().st_size
        self.size = page_size(head, length)
        self.count = -(-length // self.size)
        self.seen: set[int] = set()

    def close(self) -> None:
        """Close the file."""
        self._file.close()

    def page(self, number: int) -> bytes:
        """Give a page; what lies beyond the file's end is zeros."""
        if not 1 <= number <= self.count:
            raise Unfit
        self._file.seek((number - 1) * self.size)
        return self._file.read(self.size).ljust(self.size, b"\0")

    def rows(self, root: int, fits: Fits, losses: Losses) -> Iterator[Cell]:
        """Give all rows that the tree of a table leads to.

        A page most of whose rows do not fit the table is another's, and is lost here.
        """
        walk = _Walk(fits, losses)
        yield from self._below(root, _FIRST, _LAST, walk, 0)

    def entries(self, root: int) -> Iterator[Cell]:
        """Give all entries that the tree of an index leads to."""
        yield from self._index_below(root, 0)

    def free(self) -> set[int]:
        """Give the pages that the file says are free."""
        head = self.page(1)
        trunk = int.from_bytes(head[32:36], "big")
        found: set[int] = set()
        while 1 < trunk <= self.count and trunk not in found:
            found.add(trunk)
            page = self.page(trunk)
            many = min(int.from_bytes(page[4:8], "big"), self.size // 4 - 2)
            for number in range(many):
                leaf = int.from_bytes(page[8 + 4 * number : 12 + 4 * number], "big")
                if 1 < leaf <= self.count:
                    found.add(leaf)
            trunk = int.from_bytes(page[:4], "big")
        return found

    def stray_leaves(self) -> Iterator[tuple[int, list[Cell]]]:
        """Give the rows of pages that no tree led to and that are not free."""
        free = self.free()
        for number in range(2, self.count + 1):
            if number in self.seen or number in free:
                continue
            page = self.page(number)
            if page[0] == LEAF:
                cells, _lost = self._leaf(page, 0)
                if cells:
                    yield number, cells

    # -- trees ------------------------------------------------------------------------

    def _below(
        self, number: int, low: int, high: int, walk: _Walk, depth: int
    ) -> Iterator[Cell]:
        if number in self.seen or depth > _DEEPEST or not 1 <= number <= self.count:
            walk.lose(low, high)
            return
        page = self.page(number)
        start = _HEADER if number == 1 else 0
        kind = self._kind(page, start)
        if kind == INTERIOR:
            self.seen.add(number)
            yield from self._children(page, start, low, high, walk, depth)
            return
        cells, lost = self._leaf(page, start) if kind == LEAF else ([], 0)
        if kind != LEAF or not walk.is_like(cells):
            walk.lose(low, high)
            return
        self.seen.add(number)
        if lost:
            walk.losses.cells += lost
            walk.lose(low, high)
        yield from cells

    def _children(
        self, page: bytes, start: int, low: int, high: int, walk: _Walk, depth: int
    ) -> Iterator[Cell]:
        cells: list[Cell] = []
        pointers = pointers_of(page, start, 12, self.size)
        for at in pointers:
            with suppress(Unfit):
                cell = interior_cell(page, at)
                if 1 < cell.child <= self.count:
                    cells.append(cell)
        if len(cells) < len(pointers):
            walk.lose(low, high)
        last = int.from_bytes(page[start + 8 : start + 12], "big")
        for cell in cells:
            yield from self._below(cell.child, low, cell.key, walk, depth + 1)
            low = cell.key
        yield from self._below(last, low, high, walk, depth + 1)

    def _index_below(self, number: int, depth: int) -> Iterator[Cell]:
        if number in self.seen or depth > _DEEPEST:
            return
        try:
            page = self.page(number)
        except Unfit:
            return
        if page[0] not in {INDEX_LEAF, INDEX_INTERIOR}:
            return
        self.seen.add(number)
        inner = page[0] == INDEX_INTERIOR
        for at in pointers_of(page, 0, 12 if inner else 8, self.size):
            with suppress(Unfit):
                if inner:
                    child = int.from_bytes(page[at : at + 4], "big")
                    yield from self._index_below(child, depth + 1)
                yield index_cell(page, at + 4 * inner, self.size, self._more)
        if inner:
            last = int.from_bytes(page[8:12], "big")
            yield from self._index_below(last, depth + 1)

    # -- one page ---------------------------------------------------------------------

    def _kind(self, page: bytes, start: int) -> int:
        """Give what a page is; where its first byte is none, what it reads like."""
        kind = page[start]
        if kind in {LEAF, INTERIOR}:
            return kind
        if kind in {INDEX_LEAF, INDEX_INTERIOR} and start == 0:
            return 0
        pointers = pointers_of(page, start, 8, self.size)
        cells, _lost = self._leaf(page, start)
        if pointers and len(cells) >= max(1, _LEAST_LIKE * len(pointers)):
            return LEAF
        return 0

    def _leaf(self, page: bytes, start: int) -> tuple[list[Cell], int]:
        """Give the rows of a page in order, and how many are surely lost."""
        pointers = pointers_of(page, start, 8, self.size)
        cells: list[Cell] = []
        for at in pointers:
            with suppress(Unfit):
                cells.append(leaf_cell(page, at, self.size, self._more))
        fit = in_order(apart(cells))
        freed = freed_room(page, start, self.size)
        if len(fit) == len(pointers) and adds_up(page, start, fit, freed):
            return fit, 0
        found = self._carved(
            room_left(page, start, len(pointers), fit, freed), page, fit
        )
        both = sorted([*fit, *found], key=lambda cell: cell.key)
        return both, max(1, len(pointers) - len(both))

    def _carved(
        self, room: list[tuple[int, int]], page: bytes, known: list[Cell]
    ) -> list[Cell]:
        """Give rows in room that no known row takes, their numbers near the known."""
        keys = [cell.key for cell in known]
        reach = 2 * len(keys) + 8
        low, high = (min(keys) - reach, max(keys) + reach) if keys else (1, _LAST)
        taken = set(keys)
        found: list[Cell] = []
        for begin, end in room:
            at = begin
            while at < end:
                with suppress(Unfit):
                    cell = leaf_cell(page, at, end, self._more)
                    fits = low <= cell.key <= high and cell.key not in taken
                    if fits and cell.key > 0 and len(cell.values) > 1:
                        found.append(cell)
                        taken.add(cell.key)
                        at = cell.end
                        continue
                at += 1
        return found

    def _more(self, number: int, length: int) -> bytes:
        """Give so many bytes of an overflow chain, or as many as it still has."""
        found: list[bytes] = []
        have = 0
        steps = 0
        while have < length and 1 < number <= self.count and steps <= self.count:
            page = self.page(number)
            self.seen.add(number)
            found.append(page[4:])
            have += self.size - 4
            number = int.from_bytes(page[:4], "big")
            steps += 1
        return b"".join(found)[:length]
