"""Gives a command the day and the collection it works on, opened only when asked for.

The demo is a throw-away copy in a folder of its own that is gone afterwards. Commands
that need no collection never load the store.
"""

from __future__ import annotations

import shutil
import tempfile
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.commands.output import complain
from growdesk.domain.errors import InputError, LookOnlyError, StoreError
from growdesk.domain.server_address import is_address, read_address

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.whereabouts import OnServer, Where


class Desk(Struct, frozen=True):
    """What every command stands on: today, and which collection was named."""

    today: date
    folder_given: str | None = None
    demo: bool = False
    photos_given: str | None = None
    _opened_files: list[Path] = field(default_factory=list)

    def damage_behind(self) -> StoreError | None:
        """Give the damage in the collection that was worked on, if there is any."""
        from growdesk.services.values_behind import behind_file  # noqa: PLC0415 -- for a fault

        return behind_file(self._opened_files[-1]) if self._opened_files else None

    @contextmanager
    def folder(self, on: date) -> Iterator[Path]:
        """Give the collection's folder; the demo is laid relative to ``on``."""
        if self._is_server:
            raise self._no_folder()
        if not self.demo:
            yield self._mended(self._folder())
            return
        from growdesk.services.demo import lay_demo  # noqa: PLC0415 -- the demo only

        with tempfile.TemporaryDirectory(prefix="growdesk-demo-") as made:
            folder = Path(made) / "collection"
            lay_demo(folder, on)
            yield folder

    @contextmanager
    def where(self, on: date) -> Iterator[Where]:
        """Give where the collection lies: in a folder, or on a server."""
        if self._is_server and not self.demo:
            yield self._server()
            return
        with self.folder(on) as folder:
            yield folder

    @contextmanager
    def where_at_rest(self, on: date) -> Iterator[Where]:
        """Give where it lies for who reads a collection without opening it."""
        if self._is_server and not self.demo:
            yield self._server()
            return
        with self.folder_at_rest(on) as folder:
            yield folder

    @contextmanager
    def folder_there(self, on: date) -> Iterator[Path]:
        """Give the collection's folder, or say how to start a collection."""
        with self.folder(on) as folder:
            if not folder.exists():
                raise StoreError(
                    f"There is no collection in {folder}.", self._way_out()
                )
            yield folder

    @contextmanager
    def folder_at_rest(self, on: date) -> Iterator[Path]:
        """Give the collection's folder for who reads its file without opening it."""
        from growdesk.services.clock import SystemClock  # noqa: PLC0415
        from growdesk.services.restoring import settled  # noqa: PLC0415 -- a few only

        with self.folder_there(on) as folder:
            said = settled(folder, SystemClock().now())
            if said:
                complain(said)
            yield folder

    @contextmanager
    def founding(self, on: date) -> Iterator[Collection]:
        """Give the open collection, made where there is none.

        One that was made goes again, with its folder, where the block fails. With the
        demo its clock stands at ``on``; otherwise it is the machine's.
        """
        with self.where(on) as where:
            made = _Made(where)
            try:
                with self._opened(where, on, create=True) as collection:
                    made.opened = True
                    self._keep_a_backup(collection)
                    yield collection
            except BaseException:
                made.take_back()
                raise

    @contextmanager
    def reading(self, on: date) -> Iterator[Collection]:
        """Give the collection to read, even while its window is open."""
        with (
            self._there(on) as where,
            self._opened(where, on, reading=True) as collection,
        ):
            yield collection

    @contextmanager
    def changing(self, on: date) -> Iterator[Collection]:
        """Give the collection to change, which has to be there."""
        with self._there(on) as where, self._opened(where, on) as collection:
            self._keep_a_backup(collection)
            yield collection

    @contextmanager
    def rehearsal(self, on: date) -> Iterator[Collection]:
        """Give the open collection, or an empty throw-away one where there is none."""
        with self.where(on) as where:
            if _holds_one(where):
                with self._opened(where, on) as collection:
                    yield collection
                return
        with (
            tempfile.TemporaryDirectory(prefix="growdesk-") as made,
            self._opened(Path(made), on, create=True) as collection,
        ):
            yield collection

    @contextmanager
    def _opened(
        self, where: Where, on: date, *, create: bool = False, reading: bool = False
    ) -> Iterator[Collection]:
        from growdesk.services.clock import FixedClock, SystemClock  # noqa: PLC0415
        from growdesk.services.collection import Collection  # noqa: PLC0415

        clock = FixedClock(on) if self.demo else SystemClock()
        opened = (
            Collection.open_to_read(where, clock)
            if reading
            else Collection.open(where, clock, create=create)
        )
        if (file := opened.ledger.store.file) is not None:
            self._opened_files.append(file)
        with closing(opened) as collection:
            if opened.looking and not reading:
                raise LookOnlyError(opened.looking)
            if opened.notice:
                complain(opened.notice)
            yield collection

    def _keep_a_backup(self, collection: Collection) -> None:
        """Make the day's backup where it is due, before anything is written."""
        if self.demo or collection.looking:
            return
        from growdesk.commands.output import complain  # noqa: PLC0415 -- with a write
        from growdesk.services.daily_backup import keep  # noqa: PLC0415 -- ditto

        for problem in keep(collection.where, collection.clock.now()).problems:
            complain(problem)

    @contextmanager
    def _there(self, on: date) -> Iterator[Where]:
        """Give where it lies, or say how to start a collection."""
        if self._is_server and not self.demo:
            yield self._server()
            return
        with self.folder_there(on) as folder:
            yield folder

    @property
    def _is_server(self) -> bool:
        return self.folder_given is not None and is_address(self.folder_given)

    def _server(self) -> OnServer:
        from growdesk.services.servers import find_server  # noqa: PLC0415 -- seldom

        return find_server(self.folder_given or "", self.photos_given)

    def _no_folder(self) -> InputError:
        """Give the refusal of what works on a collection's own file."""
        address = read_address(self.folder_given or "")
        return InputError(
            "--collection",
            address.bare,
            "lies on a server, and this works on a collection's own folder",
            "Carry it into one with: growdesk --collection "
            f"{address.bare} carry-over --to DIR.",
        )

    def _way_out(self) -> str:
        if self.folder_given is None:
            return (
                "Start one by opening the window with: growdesk, "
                "or name another folder with --collection DIR."
            )
        return (
            "Check the name, or start one there with: "
            "growdesk --collection DIR import FILE.csv."
        )

    def _mended(self, folder: Path) -> Path:
        """Put a collection back that a stopped restore left nameless, and say so."""
        if not folder.exists():
            from growdesk.services.restoring import mend  # noqa: PLC0415 -- hardly ever

            said = mend(folder)
            if said:
                complain(said)
        return folder

    def _folder(self) -> Path:
        if self.folder_given is not None:
            return Path(self.folder_given)
        from growdesk.services.collection import default_folder  # noqa: PLC0415 -- the store is slow to load

        return default_folder()


class _Made:
    """What stood in a collection's folder before, to know what was made since."""

    def __init__(self, where: Where) -> None:
        self._is_folder = isinstance(where, Path)
        self._folder = folder = where if isinstance(where, Path) else where.folder
        self._before = set(folder.iterdir()) if folder.is_dir() else set()
        self._new_folders = [
            path for path in (folder, *folder.parents) if not path.exists()
        ]
        self.opened = False

    def take_back(self) -> None:
        """Remove what was made since, unless the collection was there before."""
        database = self._folder / "collection.sqlite"
        if not self._is_folder or not self.opened or database in self._before:
            return
        for path in set(self._folder.iterdir()) - self._before:
            if path.is_dir():
                shutil.rmtree(path, ignore_errors=True)
            else:
                path.unlink(missing_ok=True)
        with suppress(OSError):  # one that others have put something into stays
            for path in self._new_folders:
                path.rmdir()


def _holds_one(where: Where) -> bool:
    """Tell whether something lies there that is to be opened."""
    if isinstance(where, Path):
        return where.exists() and not _is_empty(where)
    from growdesk.services.server_copy import holds_collection  # noqa: PLC0415 -- seldom

    return holds_collection(where)


def _is_empty(folder: Path) -> bool:
    return folder.is_dir() and not any(folder.iterdir())
