"""Speak as the grower chose, and where nothing was chosen as this machine does.

The texts' language and the place's formats are two things: English texts on a German
machine still have a decimal comma. Figures are always 0 to 9, windows run left to
right: no language written otherwise is ready.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QLibraryInfo, QLocale, Qt, QTranslator

from growdesk.domain.speech import Manner, speak
from growdesk.services import catalogues
from growdesk.ui.preferences import COMMA, CUSTOMARY, SYSTEM, Regional

if TYPE_CHECKING:
    from collections.abc import Mapping

    from PySide6.QtWidgets import QApplication

    from growdesk.domain.speech import Catalogue

ISO: Final = "{y:04}-{m:02}-{d:02}"
DAY_FORMS: Final[Mapping[str, str]] = {
    "dmy-dots": "{d:02}.{m:02}.{y:04}",
    "dmy-slashes": "{d:02}/{m:02}/{y:04}",
    "mdy-slashes": "{m:02}/{d:02}/{y:04}",
    "ymd": ISO,
}
_PART: Final = re.compile(r"d{1,2}|M{1,2}|y{1,4}")
_translators: list[QTranslator] = []


def install(app: QApplication, wanted: Regional, system: QLocale | None = None) -> None:
    """Speak from now on as wanted: our texts, Qt's texts, figures, days and units."""
    place = system or QLocale.system()
    code = text_language(wanted, place)
    speak(manner_of(wanted, place))
    QLocale.setDefault(_mixed(code, place))
    app.setLayoutDirection(Qt.LayoutDirection.LeftToRight)
    while _translators:
        app.removeTranslator(_translators.pop())
    made = QTranslator()
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    ours = QLocale(code)
    if code != catalogues.ENGLISH and made.load(ours, "qtbase", "_", folder):
        app.installTranslator(made)
        _translators.append(made)


def text_language(wanted: Regional, system: QLocale) -> str:
    """Give the language of the texts: the one chosen, else the machine's if ready."""
    if wanted.language in catalogues.languages():
        return wanted.language
    return catalogues.spoken(system.uiLanguages())


def manner_of(wanted: Regional, system: QLocale) -> Manner:
    """Give how to speak."""
    units = wanted.units
    us = QLocale.MeasurementSystem.ImperialUSSystem
    is_us = system.measurementSystem() == us
    begins = wanted.week_begins
    texts = catalogues.catalogue(text_language(wanted, system))
    return Manner(
        catalogue=texts,
        decimal=_decimal(wanted, system, texts),
        day_form=DAY_FORMS.get(wanted.days) or day_form_of(system),
        week_begins=int(begins) if begins in set("0123456") else week_begins_of(system),
        customary=is_us if units == SYSTEM else units == CUSTOMARY,
    )


def own_name(code: str) -> str:
    """Give a language's name in itself: "Deutsch"."""
    name = QLocale(code).nativeLanguageName()
    return "English" if code == catalogues.ENGLISH else name[:1].upper() + name[1:]


def day_form_of(place: QLocale) -> str:
    """Give the form of a day in figures in a place, with the year in full."""
    form = place.dateFormat(QLocale.FormatType.ShortFormat)
    parts = [(part[0].lower(), len(part)) for part in _PART.findall(form)]
    between = re.search(r"[-./]", form)
    if between is None or sorted(name for name, _ in parts) != ["d", "m", "y"]:
        return ISO
    wide = {"y": 4}
    shown = (
        f"{{{name}:0{wide.get(name, 2)}}}"
        if name == "y" or signs > 1
        else f"{{{name}}}"
        for name, signs in parts
    )
    return between[0].join(shown)


def week_begins_of(place: QLocale) -> int:
    """Give the first day of a place's week, 0 for Monday."""
    return int(place.firstDayOfWeek().value) - 1


def _decimal(wanted: Regional, system: QLocale, texts: Catalogue | None) -> str:
    """Give the sign chosen, else the place's; where no place is set, the language's."""
    if wanted.decimal == SYSTEM and system.language() == QLocale.Language.C:
        return catalogues.decimal_of(texts)
    if wanted.decimal == SYSTEM:
        return "," if system.decimalPoint() == "," else "."
    return "," if wanted.decimal == COMMA else "."


def _mixed(code: str, place: QLocale) -> QLocale:
    """Give Qt the texts' language with the place's formats, or only these."""
    mixed = QLocale(QLocale(code).language(), place.territory())
    if mixed.territory() != place.territory():
        mixed = QLocale(place)
    mixed.setNumberOptions(
        QLocale.NumberOption.OmitGroupSeparator
        | QLocale.NumberOption.RejectGroupSeparator
    )
    return mixed
