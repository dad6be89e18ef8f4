"""The collection on disk: one folder, one SQLite file, photos by content."""
