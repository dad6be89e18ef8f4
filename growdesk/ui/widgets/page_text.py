"""A page of text to read that loads nothing and leads nowhere by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtWidgets import QTextBrowser
from typing_extensions import override

if TYPE_CHECKING:
    from PySide6.QtCore import QUrl


class PageText(QTextBrowser):
    """The text of a page; it fetches no picture, no file and no address."""

    @override
    def loadResource(self, type: int, name: QUrl | str) -> Any:
        return None
