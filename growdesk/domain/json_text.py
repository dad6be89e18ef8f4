"""Decode JSON of any origin: whatever is wrong with it is a ``ValueError``."""

from __future__ import annotations

import json
from typing import Any


def decoded(text: str | bytes) -> Any:
    """Give what a JSON text holds; one nested too deeply is refused like any other."""
    try:
        return json.loads(text)
    except RecursionError as error:
        problem = "nested too deeply"
        raise ValueError(problem) from error
