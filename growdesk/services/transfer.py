"""Tables in from CSV; the whole collection out as tables and photos, and back."""

from __future__ import annotations

from growdesk.services.collection_export import Exported, export
from growdesk.services.collection_import import FolderTaken, take_folder
from growdesk.services.folder_reading import FolderRead, read_folder
from growdesk.services.intake_choosing import choose, survey_of
from growdesk.services.intake_fields import Sort
from growdesk.services.intake_taking import dry_run, take
from growdesk.services.intake_values import Choices, DryRun, Survey

__all__ = [
    "Choices",
    "DryRun",
    "Exported",
    "FolderRead",
    "FolderTaken",
    "Sort",
    "Survey",
    "choose",
    "dry_run",
    "export",
    "read_folder",
    "survey_of",
    "take",
    "take_folder",
]
