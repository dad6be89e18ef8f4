"""A disk as a power cut leaves it, built from what a program did to its files.

Model, after the crash tests of SQLite (public domain, src/test6.c; sqlite.org has
testing.html and atomiccommit.html): what was synced stays. Of what was written since,
each write is kept (40 %), torn at sectors of 512 bytes (20 %) or gone (40 %). A name
made, changed or taken away is durable once its folder was synced; of the names not
synced yet either all up to one moment are kept, as a disk with a journal keeps them, or
those of each folder up to a moment of its own. A rename is never half.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import random
    from collections.abc import Callable

SECTOR = 512
_KEPT, _TORN = 0.4, 0.2
Event = tuple[Any, ...]


@dataclass(slots=True, eq=False)
class File:
    """A file's synced content, and what was done to it since."""

    synced: bytearray = field(default_factory=bytearray)
    pending: list[Event] = field(default_factory=list)

    def sync(self) -> None:
        """Make all that was done durable."""
        for done in self.pending:
            _apply(self.synced, done)
        self.pending.clear()

    def cut(self, chance: random.Random) -> bytes:
        """Give the content as a cut may leave it."""
        content = bytearray(self.synced)
        for done in self.pending:
            dice = chance.random()
            if dice < _KEPT:
                _apply(content, done)
            elif dice < _KEPT + _TORN:
                _tear(content, done, chance)
        return bytes(content)


@dataclass(slots=True, eq=False)
class Folder:
    """A folder's names as they are, and as they are durable."""

    names: dict[str, File | Folder] = field(default_factory=dict)
    durable: dict[str, File | Folder] = field(default_factory=dict)
    pending: list[Move] = field(default_factory=list)


@dataclass(slots=True, eq=False)
class Move:
    """Names changed at once: what each name of each folder stands for afterwards."""

    number: int
    sets: list[tuple[Folder, str, File | Folder | None]]


class Disk:
    """All files below one folder. Feed it events in order, and cut it between two."""

    def __init__(self) -> None:
        self.root = Folder()
        self._count = 0

    def feed(self, event: Event) -> None:
        """Take one event: its kind and what it is about."""
        kind, *rest = event
        doing: dict[str, Callable[..., None]] = {
            "create": self._create,
            "write": self._data,
            "truncate": self._data,
            "sync": self._sync,
            "sync-folder": self._sync_folder,
            "rename": self._rename,
            "link": self._link,
            "remove": self._remove,
            "mkdir": self._mkdir,
        }
        if kind in {"write", "truncate"}:
            self._data(event)
        elif kind != "said":
            doing[kind](*rest)

    def cut(self, target: Path, chance: random.Random) -> None:
        """Write the disk into an empty folder as a cut at this moment leaves it."""
        moves = {move for folder in self._folders() for move in folder.pending}
        ordered = sorted(moves, key=lambda move: move.number)
        if chance.random() < 0.5:
            kept = set(ordered[: chance.randint(0, len(ordered))])
        else:
            kept = self._kept_by_folder(chance)
        self._write(self.root, target, kept, chance)

    def _kept_by_folder(self, chance: random.Random) -> set[Move]:
        """Give what is kept where each folder has a moment of its own.

        A rename between two folders goes by the one that it led to.
        """
        kept: set[Move] = set()
        for folder in self._folders():
            most = chance.randint(0, len(folder.pending))
            led_to = [move for move in folder.pending if move.sets[-1][0] is folder]
            kept.update(led_to[:most])
        return kept

    def _folders(self) -> list[Folder]:
        """Give all folders that a cut may leave, whichever names it keeps."""
        found: dict[int, Folder] = {}
        waiting = [self.root]
        while waiting:
            folder = waiting.pop()
            if id(folder) in found:
                continue
            found[id(folder)] = folder
            nodes = [*folder.names.values(), *folder.durable.values()]
            nodes += [n for move in folder.pending for _, _, n in move.sets if n]
            waiting += [node for node in nodes if isinstance(node, Folder)]
        return list(found.values())

    def _write(
        self, folder: Folder, target: Path, kept: set[Move], chance: random.Random
    ) -> None:
        names = dict(folder.durable)
        for move in folder.pending:
            if move in kept:
                for owner, name, node in move.sets:
                    if owner is folder:
                        _set(names, name, node)
        for name, node in names.items():
            path = target / name
            if isinstance(node, Folder):
                path.mkdir()
                self._write(node, path, kept, chance)
            else:
                path.write_bytes(node.cut(chance))

    def _create(self, at: str) -> None:
        folder, name = self._place(at)
        if name not in folder.names:
            self._move([(folder, name, File())])

    def _mkdir(self, at: str) -> None:
        folder, name = self._place(at)
        self._move([(folder, name, Folder())])

    def _remove(self, at: str) -> None:
        folder, name = self._place(at)
        if name in folder.names:
            self._move([(folder, name, None)])

    def _rename(self, at: str, to: str) -> None:
        (folder, name), (into, new) = self._place(at), self._place(to)
        node = folder.names[name]
        self._move([(folder, name, None), (into, new, node)])

    def _link(self, at: str, to: str) -> None:
        (folder, name), (into, new) = self._place(at), self._place(to)
        self._move([(into, new, folder.names[name])])

    def _data(self, event: Event) -> None:
        self._file(event[1]).pending.append(event)

    def _sync(self, at: str) -> None:
        self._file(at).sync()

    def _sync_folder(self, at: str) -> None:
        folder = self.root if at in {"", "."} else self._node(at)
        assert isinstance(folder, Folder)
        for move in list(folder.pending):
            for owner, name, node in move.sets:
                _set(owner.durable, name, node)
            for owner in {id(o): o for o, _, _ in move.sets}.values():
                owner.pending.remove(move)

    def _move(self, sets: list[tuple[Folder, str, File | Folder | None]]) -> None:
        self._count += 1
        move = Move(self._count, sets)
        for folder, name, node in sets:
            _set(folder.names, name, node)
        for folder in {id(folder): folder for folder, _, _ in sets}.values():
            folder.pending.append(move)

    def _file(self, at: str) -> File:
        node = self._node(at)
        assert isinstance(node, File), at
        return node

    def _node(self, at: str) -> File | Folder:
        folder, name = self._place(at)
        return folder.names[name]

    def _place(self, at: str) -> tuple[Folder, str]:
        *above, name = PurePosixPath(at).parts
        folder = self.root
        for each in above:
            node = folder.names[each]
            assert isinstance(node, Folder), at
            folder = node
        return folder, name


def _set(
    names: dict[str, File | Folder], name: str, node: File | Folder | None
) -> None:
    if node is None:
        names.pop(name, None)
    else:
        names[name] = node


def _apply(content: bytearray, done: Event) -> None:
    if done[0] == "truncate":
        _resize(content, done[2])
        return
    _, _, offset, data = done
    if len(content) < offset:
        _resize(content, offset)
    content[offset : offset + len(data)] = data


def _resize(content: bytearray, size: int) -> None:
    del content[size:]
    content.extend(bytes(size - len(content)))


def _tear(content: bytearray, done: Event, chance: random.Random) -> None:
    """Keep some sectors of a write; cutting a file is never torn."""
    if done[0] == "truncate":
        return
    _, at, offset, data = done
    first = offset - offset % SECTOR
    for start in range(first, offset + len(data), SECTOR):
        begin, end = max(start, offset), min(start + SECTOR, offset + len(data))
        if chance.random() < 0.5:
            _apply(content, ("write", at, begin, data[begin - offset : end - offset]))
