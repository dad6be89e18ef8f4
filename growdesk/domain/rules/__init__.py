"""The gates of the decision, one file per family. The order stands in ``judging``."""
