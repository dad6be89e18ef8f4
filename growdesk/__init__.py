"""growdesk: which orchids are fed this watering day, how strong, and why."""

__version__ = "0.1.0"
