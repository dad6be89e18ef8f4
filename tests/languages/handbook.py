"""Put into the handbook's files what is read on a forge: commands, keys, cautions.

In the program they come from the tables when a page is shown; in the files the same
words stand inside the links, so that a page can be read anywhere.
``python -m tests.languages.handbook`` writes them anew, after a menu's word or a
shortcut has changed.
"""

from __future__ import annotations

import gettext
import os
from io import BytesIO
from typing import TYPE_CHECKING

from PySide6.QtCore import QLibraryInfo, QTranslator
from PySide6.QtWidgets import QApplication

from growdesk.domain import speech
from growdesk.domain.speech import Manner, tr
from growdesk.services.handbook import LISTS, MADE, escaped
from growdesk.ui import actions, handbook_text
from growdesk.ui.shortcut_table import plain_text
from tests.languages import catalogue
from tests.languages.texts import ROOT

if TYPE_CHECKING:
    import re
    from pathlib import Path

FOLDER = ROOT / "resources" / "handbook"
CAUTIONS = "<!-- cautions -->"


def pages(language: str) -> list[Path]:
    """Give the files of a language."""
    return sorted((FOLDER / language).glob("*.md"))


def readable(text: str) -> str:
    """Give a page with the words of the language spoken inside its links."""
    commands = {command.key: command for command in actions.declared()}

    def said(found: re.Match[str]) -> str:
        how, key = found["how"], found["key"]
        command = commands[key]
        shown = (
            escaped(plain_text(tr(command.text)))
            if how == "command"
            else f"`{handbook_text.key_of(command)}`"
        )
        return f"[{shown}]({how}:{key})"

    text = handbook_text.NAMED.sub(said, text)
    return LISTS.sub(_listed, text) if CAUTIONS in text else text


def _listed(found: re.Match[str]) -> str:
    what = found["what"]
    return f"<!-- {what} -->\n{MADE[what]()}\n<!-- end -->"


def main() -> None:
    """Write all pages of all languages anew."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    app = QApplication.instance() or QApplication(["handbook"])
    for folder in sorted(FOLDER.iterdir()):
        language = folder.name
        made = QTranslator()
        if language != "en":
            texts = gettext.GNUTranslations(BytesIO(catalogue.compiled(language)))
            speech.speak(Manner(texts, ","))
            where = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
            if made.load(f"qtbase_{language}", where):
                app.installTranslator(made)
        for page in pages(language):
            text = page.read_text(encoding="utf-8")
            page.write_text(readable(text), encoding="utf-8")
        app.removeTranslator(made)
        speech.speak()


if __name__ == "__main__":
    main()
