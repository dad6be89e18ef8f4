"""What lies in a collection's folder, by name."""

from __future__ import annotations

FILE_NAME = "collection.sqlite"
PHOTOS = "photos"
THUMBNAILS = "thumbnails"
