"""Runs growdesk by ``python -m growdesk``."""

from __future__ import annotations

import sys

from growdesk.app import main

if __name__ == "__main__":
    sys.exit(main())
