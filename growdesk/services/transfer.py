"""Plants in from CSV, and the whole collection out as CSV and JSON."""

from __future__ import annotations

from growdesk.services.collection_export import Exported, export
from growdesk.services.plant_import import PLANT_COLUMNS, ImportReport, import_csv

__all__ = ["PLANT_COLUMNS", "Exported", "ImportReport", "export", "import_csv"]
