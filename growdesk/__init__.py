"""growdesk: which orchids are fed this watering day, how strong, and why."""

__version__ = "0.1.0"

# Names the menu entry, the icons and the windows to a desktop: all three must agree.
APPLICATION_ID = "arpa.home.growdesk"
