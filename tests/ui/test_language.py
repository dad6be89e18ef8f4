"""Speaking as the machine does, or as was chosen: seven places that differ."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QApplication, QDialogButtonBox

from growdesk import assets
from growdesk.domain import day_words
from growdesk.domain.speech import fixed, manner, speak, tr
from growdesk.services import catalogues
from growdesk.ui import language
from growdesk.ui.preferences import (
    COMMA,
    CUSTOMARY,
    METRIC,
    POINT,
    Regional,
    keep_regional,
    kept_regional,
)
from growdesk.ui.printing import paper
from tests.catalogue_files import write_catalogue

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

DAY = date(2026, 3, 5)
PLACES = {
    "en_US": ("3/5/2026", "March 5, 2026", "1.5", 6, True, "Letter"),
    "en_GB": ("05/03/2026", "5 March 2026", "1.5", 0, False, "A4"),
    "de_DE": ("05.03.2026", "5. März 2026", "1,5", 0, False, "A4"),
    "fr_FR": ("05/03/2026", "5 March 2026", "1,5", 0, False, "A4"),
    "pt_BR": ("05/03/2026", "5 March 2026", "1,5", 6, False, "A4"),
    "ja_JP": ("2026/03/05", "5 March 2026", "1.5", 6, False, "A4"),
    "ar_EG": ("5/3/2026", "5 March 2026", "1.5", 5, False, "A4"),
    "en_CA": ("2026-03-05", "5 March 2026", "1.5", 6, False, "Letter"),
}
"""By CLDR, in figures 0 to 9: day in figures, in words, 1.5, week, units, paper."""


@pytest.fixture(autouse=True)
def _spoken_after(qapp: QApplication) -> Iterator[None]:
    before = QLocale()
    yield
    language.install(qapp, Regional(), QLocale("en_GB"))
    speak()
    QLocale.setDefault(before)


@pytest.fixture
def german(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Give a German catalogue of two texts, as the shipped one lies."""
    write_catalogue(
        tmp_path / "locale/de",
        {"": "Content-Type: text/plain; charset=UTF-8\n", "Feed.": "Düngen."},
        {("decimal sign", "."): ","},
    )
    monkeypatch.setattr(assets, "path", lambda name: tmp_path / name)


@pytest.mark.parametrize("place", list(PLACES))
def test_figures_days_weeks_units_and_paper_follow_the_place(place: str) -> None:
    figures, words, number, week, customary, sheet = PLACES[place]
    speak(language.manner_of(Regional(), QLocale(place)))
    assert day_words.figures(DAY) == figures
    assert day_words.dated_text(DAY) == words
    assert fixed(1.5, 1) == number
    assert (manner().week_begins, manner().customary) == (week, customary)
    assert paper.name_of(paper.paper_of(QLocale(place))) == sheet


def test_a_place_without_an_order_of_its_own_has_the_iso_form() -> None:
    assert language.day_form_of(QLocale.c()) == language.ISO


@pytest.mark.parametrize("place", list(PLACES))
def test_what_is_chosen_goes_before_the_place(place: str) -> None:
    wanted = Regional(
        decimal=COMMA, days="mdy-slashes", week_begins="5", units=CUSTOMARY
    )
    speak(language.manner_of(wanted, QLocale(place)))
    assert (fixed(1.5, 1), day_words.figures(DAY)) == ("1,5", "03/05/2026")
    assert (manner().week_begins, manner().customary) == (5, True)
    speak(language.manner_of(Regional(decimal=POINT, units=METRIC), QLocale(place)))
    assert (fixed(1.5, 1), manner().customary) == ("1.5", False)


@pytest.mark.usefixtures("german")
def test_the_language_is_of_the_texts_and_the_formats_are_of_the_place(
    qapp: QApplication,
) -> None:
    assert catalogues.languages() == ("en", "de")
    language.install(qapp, Regional(language="en"), QLocale("de_DE"))
    assert (tr("Feed."), fixed(1.5, 1)) == ("Feed.", "1,5")
    language.install(qapp, Regional(language="de"), QLocale("en_US"))
    assert (tr("Feed."), fixed(1.5, 1)) == ("Düngen.", "1.5")
    assert [language.own_name(code) for code in ("en", "de")] == ["English", "Deutsch"]


@pytest.mark.usefixtures("german")
def test_where_no_place_is_set_the_sign_is_that_of_the_language() -> None:
    for code, number in (("de", "1,5"), ("en", "1.5")):
        speak(language.manner_of(Regional(language=code), QLocale.c()))
        assert fixed(1.5, 1) == number
    speak(language.manner_of(Regional(language="de", decimal=POINT), QLocale.c()))
    assert fixed(1.5, 1) == "1.5"


@pytest.mark.usefixtures("german")
def test_the_system_language_is_taken_where_it_is_ready(qapp: QApplication) -> None:
    for place, said in (("de_AT", "Düngen."), ("fr_FR", "Feed."), ("en_US", "Feed.")):
        language.install(qapp, Regional(), QLocale(place))
        assert tr("Feed.") == said
    assert catalogues.spoken(("fr-FR", "de-CH")) == "de"


@pytest.mark.usefixtures("german")
def test_texts_of_qt_itself_are_said_in_the_language(qapp: QApplication) -> None:
    said = {}
    for code in ("de", "en"):
        language.install(qapp, Regional(language=code), QLocale("en_GB"))
        box = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        said[code] = box.buttons()[0].text().replace("&", "")
    assert said == {"de": "Abbrechen", "en": "Cancel"}


@pytest.mark.parametrize("kept", [b"no catalogue", b"\xde\x12\x04\x95", -1, -30, 40])
def test_a_catalogue_that_cannot_be_read_is_english(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kept: bytes | int
) -> None:
    file = write_catalogue(tmp_path / "locale/de", {"Feed.": "Düngen.", "One": "Eins"})
    file.write_bytes(kept if isinstance(kept, bytes) else file.read_bytes()[:kept])
    monkeypatch.setattr(assets, "path", lambda name: tmp_path / name)
    assert catalogues.languages() == ("en", "de")
    assert catalogues.catalogue("de") is None


def test_what_was_chosen_is_kept_and_let_go() -> None:
    keep_regional("decimal", COMMA)
    keep_regional("paper", "letter")
    assert kept_regional() == Regional(decimal=COMMA, paper="letter")
    assert paper.choose_paper(None) == paper.LETTER
    keep_regional("paper", "system")
    assert kept_regional() == Regional(decimal=COMMA)
