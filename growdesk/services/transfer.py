"""Plants in from CSV, and the whole collection out as CSV and JSON."""

from __future__ import annotations

from growdesk.services.collection_export import Exported, export
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
    "ImportReport",
    "export",
    "import_csv",
    "read_plants",
    "take_in",
]
