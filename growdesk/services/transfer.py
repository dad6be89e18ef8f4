"""Plants in from CSV; the whole collection out as tables and photos, and back."""

from __future__ import annotations

from growdesk.services.collection_export import Exported, export
from growdesk.services.collection_import import FolderTaken, take_folder
from growdesk.services.folder_reading import FolderRead, read_folder
from growdesk.services.plant_import import (
    ImportReport,
    import_csv,
    read_plants,
    take_in,
)
from growdesk.services.plant_taking import PLANT_COLUMNS

__all__ = [
    "PLANT_COLUMNS",
    "Exported",
    "FolderRead",
    "FolderTaken",
    "ImportReport",
    "export",
    "import_csv",
    "read_folder",
    "read_plants",
    "take_folder",
    "take_in",
]
