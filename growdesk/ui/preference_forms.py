"""Open the preferences, say what the system gives, and put each choice into force.

What changes how texts read builds the window anew, on the same collection: that is
asked for with ``anew_wanted``. A form that was left unsaved would be lost by it, and
its figures could be read in other units, so that it has to be saved first; long work
would be cancelled by it, so that it has to end first.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtCore import QLocale, QObject, Signal
from PySide6.QtWidgets import QApplication

from growdesk.domain import day_words, quantity_words, volume_words
from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr
from growdesk.services import catalogues
from growdesk.ui import eye_forms, language, preferences, theme
from growdesk.ui.backup_place_forms import BackupPlaceForms
from growdesk.ui.dialogs.preferences import PreferencesDialog, Row
from growdesk.ui.drafts import Drafts
from growdesk.ui.preferences import SYSTEM, Regional
from growdesk.ui.theme import Mode

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from PySide6.QtGui import QAction
    from PySide6.QtWidgets import QWidget

    from growdesk.domain.speech import Manner
    from growdesk.ui.desk import Desk

LIGHT: Final = "light"
_NOT_KEPT: Final = mark("The choice cannot be kept: {file} may not be written.")
WEEKS: Final = ("0", "5", "6")
"""Monday, Saturday and Sunday, with which weeks begin somewhere."""


class PreferenceForms(QObject):
    """The preferences of one window."""

    anew_wanted = Signal(str)

    def __init__(
        self,
        window: QWidget,
        commands: Mapping[str, QAction],
        desk: Desk,
    ) -> None:
        super().__init__(window)
        self._window = window
        self._commands = commands
        self._desk = desk
        self.backup_place = BackupPlaceForms(desk, self)

    def open(self, at: str = "") -> PreferencesDialog:
        """Show the preferences, with the focus on one of them where it is named."""
        kept = preferences.kept_regional()
        shown = (
            *rows(kept, self._desk.today),
            *eye_forms.rows(),
            *self.backup_place.rows(),
        )
        dialog = PreferencesDialog(self._window, shown)
        dialog.say_example(example(self._desk.today))
        dialog.chosen.connect(lambda key, value: self._take(dialog, key, value))
        dialog.open()
        self.backup_place.look(dialog)
        if at:
            dialog.go_to(at)
        return dialog

    def _take(self, dialog: PreferencesDialog, key: str, value: str) -> None:
        if key == LIGHT:
            self._commands[f"light-{value}"].trigger()
            return
        if eye_forms.take(key, value) or self.backup_place.take(dialog, key, value):
            return
        refusal = self._refusal()
        if key != "paper" and refusal:
            dialog.refuse(key, refusal)
            return
        preferences.keep_regional(key, value)
        if getattr(preferences.kept_regional(), key) != value:
            file = preferences.preferences().fileName()
            dialog.refuse(key, tr(_NOT_KEPT).format(file=file))
            return
        app = QApplication.instance()
        if key != "paper" and isinstance(app, QApplication):
            language.install(app, preferences.kept_regional())
            dialog.accept()
            self.anew_wanted.emit(key)

    def _refusal(self) -> str:
        """Say what would be lost if the window were built anew now."""
        drafts = Drafts.of(self._window).titles
        return unsaved(drafts) if drafts else self._desk.long.in_the_way


def rows(kept: Regional, today: date) -> tuple[Row, ...]:
    """Give all preferences as they stand, each with what the system gives."""
    place = QLocale.system()
    system = language.manner_of(Regional(language=kept.language), place)
    regional = tr("Language and region")
    light = tr("Light")
    return (
        Row(regional, "language", tr("&Language"), _languages(place), kept.language),
        Row(regional, "decimal", tr("&Decimal sign"), _signs(system), kept.decimal),
        Row(regional, "days", tr("Da&tes"), _days(system, today), kept.days),
        Row(
            regional,
            "week_begins",
            tr("&Week begins on"),
            _weeks(system),
            kept.week_begins,
        ),
        Row(regional, "units", tr("&Units"), _units(system), kept.units),
        Row(regional, "paper", tr("&Paper"), _papers(), kept.paper),
        Row(
            light,
            LIGHT,
            tr("L&ight or dark"),
            (
                (Mode.SYSTEM.value, tr("As the system")),
                (Mode.LIGHT.value, tr("Light")),
                (Mode.DARK.value, tr("Dark")),
            ),
            theme.current().mode.value,
        ),
    )


def example(today: date) -> str:
    """Give a day and some amounts as they read now."""
    return tr("So it reads: {day}, {figures}; {warm}, {volume}, {length}.").format(
        day=day_words.dated_text(today),
        figures=day_words.figures(today),
        warm=quantity_words.temperature_text(21.5),
        volume=volume_words.volume_text(2.35),
        length=quantity_words.length_text(85),
    )


def unsaved(titles: tuple[str, ...]) -> str:
    """Say what has to be saved before texts can read otherwise."""
    return tr(
        "Not saved yet: {forms}. Save it, or throw its draft away, then choose again."
    ).format(forms=listed(list(titles)))


def _as_system(what: str) -> tuple[str, str]:
    return SYSTEM, tr("As the system: {what}").format(what=what)


def _languages(place: QLocale) -> list[tuple[str, str]]:
    given = language.own_name(language.text_language(Regional(), place))
    found = [_as_system(given)]
    found += [(code, language.own_name(code)) for code in catalogues.languages()]
    return found


def _signs(system: Manner) -> list[tuple[str, str]]:
    return [
        _as_system(f"1{system.decimal}5"),
        (preferences.COMMA, tr("Comma: 1,5")),
        (preferences.POINT, tr("Point: 1.5")),
    ]


def _days(system: Manner, today: date) -> list[tuple[str, str]]:
    def shown(form: str) -> str:
        return form.format(y=today.year, m=today.month, d=today.day)

    forms = [(key, shown(form)) for key, form in language.DAY_FORMS.items()]
    return [_as_system(shown(system.day_form)), *forms]


def _weeks(system: Manner) -> list[tuple[str, str]]:
    named = [(number, day_words.WEEKDAYS[int(number)]) for number in WEEKS]
    return [_as_system(day_words.WEEKDAYS[system.week_begins]), *named]


def _units(system: Manner) -> list[tuple[str, str]]:
    metric = tr("Metric: °C, litres, cm")
    customary = tr("US customary: °F, gallons, inches")
    return [
        _as_system(tr("US customary") if system.customary else tr("metric")),
        (preferences.METRIC, metric),
        (preferences.CUSTOMARY, customary),
    ]


def _papers() -> list[tuple[str, str]]:
    from growdesk.ui.printing import paper  # noqa: PLC0415 -- printing is not for start

    given = paper.name_of(paper.paper_given())
    return [
        (SYSTEM, tr("As the printer: {paper}").format(paper=given)),
        ("a4", "A4"),
        ("letter", tr("Letter")),
    ]
