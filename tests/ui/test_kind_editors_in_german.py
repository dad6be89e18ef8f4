"""A kind's words in an editor: told in German, kept in English until changed."""

from __future__ import annotations

from gettext import GNUTranslations
from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit

from growdesk.domain.kind_fields import FIELDS
from growdesk.domain.speech import Manner, speak, tr
from growdesk.services.kinds import table
from growdesk.ui.widgets import kind_editors
from tests.languages.catalogue import compiled

if TYPE_CHECKING:
    from collections.abc import Iterator

KIND = table().kinds["dendrobium-nobile"]


@pytest.fixture(autouse=True)
def german() -> Iterator[None]:
    speak(Manner(GNUTranslations(BytesIO(compiled("de"))), ","))
    yield
    speak()


@pytest.mark.parametrize("name", ["title", "repot_moment", "advice"])
@pytest.mark.usefixtures("qapp")
def test_a_text_left_alone_keeps_the_english_cell(name: str) -> None:
    english = str(getattr(KIND, name))
    editor = kind_editors.make(FIELDS[name], english)
    assert _text(editor) == tr(english) != english
    assert kind_editors.cell_in(name, editor) == english


@pytest.mark.parametrize("name", ["repot_moment", "advice"])
@pytest.mark.usefixtures("qapp")
def test_a_text_changed_is_kept_as_typed(name: str) -> None:
    editor = kind_editors.make(FIELDS[name], str(getattr(KIND, name)))
    assert isinstance(editor, QLineEdit | QPlainTextEdit)
    if isinstance(editor, QLineEdit):
        editor.setText("im Herbst")
    else:
        editor.setPlainText("im Herbst")
    assert kind_editors.cell_in(name, editor) == "im Herbst"


@pytest.mark.usefixtures("qapp")
def test_a_number_is_typed_with_its_german_unit() -> None:
    editor = kind_editors.make(FIELDS["growth_weeks"], "30")
    assert isinstance(editor, QLineEdit)
    assert kind_editors.title_of(FIELDS["growth_weeks"]) == "Trieb braucht, Wochen"
    editor.setText("32,5 Wochen")
    assert kind_editors.cell_in("growth_weeks", editor) == "32.5"


def _text(editor: object) -> str:
    if isinstance(editor, QLineEdit):
        return editor.text()
    assert isinstance(editor, QPlainTextEdit)
    return editor.toPlainText()
