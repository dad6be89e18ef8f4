"""Brings a collection back from a kept backup: a folder, its manifest, and the pool.

A photo that is gone from the pool or damaged there is looked for in the collection in
use, since a photo is named by what it holds; one that is nowhere is left out and told.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.errors import DamagedError
from growdesk.domain.speech import tr
from growdesk.services.restore_sources import (
    Content,
    copy_file,
    place_photo,
)
from growdesk.services.zip_opening import ANOTHER
from growdesk.store.backup_manifest import DATABASE, read_manifest
from growdesk.store.store import FILE_NAME, PHOTOS

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.store.backup_manifest import Manifest


class KeptSource(Struct, frozen=True):
    """The folder of one kept backup; ``home`` is the collection in use."""

    path: Path
    home: Path

    def needs_bytes(self) -> int:
        """Give how much room its files take where none can be linked."""
        return sum(held.length_bytes for held in self._manifest().files)

    def lay(self, new: Path, step: Step) -> Content:
        """Copy its database and take its photos, each proved by its SHA-256."""
        manifest = self._manifest()
        database = self.path / DATABASE
        if not database.is_file() or database.is_symlink():
            raise self._damaged(tr("{source} is damaged: its records are gone."))
        step(0, len(manifest.files))
        if copy_file(database, new / FILE_NAME) != manifest.database.sha256:
            raise self._damaged(tr("{source} is damaged: its records have changed."))
        pools = self.path.parent, self.home / "backups", self.home
        for done, held in enumerate(manifest.photos):
            step(done + 1, len(manifest.files))
            place_photo((pool.joinpath(held.name) for pool in pools), new, held.name)
        return Content(
            manifest.made_at,
            manifest.rows,
            tuple(pool / PHOTOS for pool in pools),
        )

    def _damaged(self, said: str) -> DamagedError:
        return DamagedError(said.format(source=self.path), tr(ANOTHER))

    def _manifest(self) -> Manifest:
        try:
            return read_manifest(self.path)
        except DamagedError as error:
            raise DamagedError(error.message, tr(ANOTHER)) from error
