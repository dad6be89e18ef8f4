"""Give the window its colours, light and dark, and the style that carries them.

The only module with a colour in it. It follows the system's scheme or the grower's
choice, and knows nothing of plants beyond the five verdicts.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPalette
from PySide6.QtWidgets import QApplication

from growdesk.domain.facts import Verdict
from growdesk.ui import icons
from growdesk.ui.icons import resource_text

if TYPE_CHECKING:
    from collections.abc import Mapping


class Mode(StrEnum):
    """Which scheme the grower asked for."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class Colours(Struct, frozen=True):
    """One scheme. ``ink`` is read on ``page``, ``card`` and ``chosen`` alike."""

    page: str
    card: str
    band: str
    ink: str
    muted: str
    line: str
    edge: str
    accent: str
    on_accent: str
    chosen: str
    focus: str
    warn: str
    feed: str
    clear_water: str
    flush: str
    look_first: str
    keep_dry: str

    def verdict(self, verdict: Verdict) -> str:
        """Give the colour of a verdict's mark and word."""
        return self.by_verdict()[verdict]

    def by_verdict(self) -> Mapping[Verdict, str]:
        """Give all five verdict colours."""
        return {
            Verdict.FEED: self.feed,
            Verdict.CLEAR_WATER: self.clear_water,
            Verdict.FLUSH: self.flush,
            Verdict.LOOK_FIRST: self.look_first,
            Verdict.KEEP_DRY: self.keep_dry,
        }


LIGHT = Colours(
    page="#efece1",
    card="#fbfaf4",
    band="#e6e3d5",
    ink="#1d2721",
    muted="#525c55",
    line="#d9d5c5",
    edge="#7c7e72",
    accent="#2d5a45",
    on_accent="#fbfaf4",
    chosen="#d5e3d5",
    focus="#1d6b4a",
    warn="#8a2f1c",
    feed="#24613a",
    clear_water="#1f5f80",
    flush="#51429a",
    look_first="#7a4e00",
    keep_dry="#8f3420",
)
DARK = Colours(
    page="#121815",
    card="#1b2320",
    band="#26302b",
    ink="#e7ebe4",
    muted="#aab5ad",
    line="#323d37",
    edge="#82918a",
    accent="#94c9a8",
    on_accent="#10201a",
    chosen="#2b4236",
    focus="#a9dcbb",
    warn="#f2a48f",
    feed="#93d3a2",
    clear_water="#8fc8e6",
    flush="#bfb3f4",
    look_first="#e9bd68",
    keep_dry="#f6a994",
)


class Theme(QObject):
    """Keeps the scheme in force and tells when it turns."""

    turned = Signal()

    def __init__(self, app: QApplication, mode: Mode = Mode.SYSTEM) -> None:
        super().__init__(app)
        self._app = app
        self.mode = mode
        self.colours = LIGHT
        hints = QGuiApplication.styleHints()
        hints.colorSchemeChanged.connect(self._system_turned)
        app.setStyle("Fusion")
        app.setFont(_tabular(app.font()))
        self.choose(mode)

    @property
    def is_dark(self) -> bool:
        """Tell whether the dark scheme is in force."""
        return self.colours is DARK

    def choose(self, mode: Mode) -> None:
        """Take the grower's choice and show it at once."""
        self.mode = mode
        self.colours = DARK if self._wants_dark() else LIGHT
        self._app.setPalette(_palette(self.colours))
        self._app.setStyleSheet(_sheet(self.colours))
        self.turned.emit()

    def _wants_dark(self) -> bool:
        if self.mode is Mode.SYSTEM:
            scheme = QGuiApplication.styleHints().colorScheme()
            return scheme == Qt.ColorScheme.Dark
        return self.mode is Mode.DARK

    def _system_turned(self) -> None:
        if self.mode is Mode.SYSTEM:
            self.choose(Mode.SYSTEM)


_current: list[Theme] = []


def install(app: QApplication, mode: Mode = Mode.SYSTEM) -> Theme:
    """Give the one theme of this process, made on first use."""
    if not _current:
        _current.append(Theme(app, mode))
    return _current[0]


def current() -> Theme:
    """Give the theme in force."""
    app = QApplication.instance()
    if not isinstance(app, QApplication):
        raise TypeError("a theme needs a running QApplication")
    return install(app)


def colours() -> Colours:
    """Give the colours in force."""
    return current().colours


def contrast(one: str, other: str) -> float:
    """Give the WCAG contrast ratio of two colours, 1 to 21."""
    bright, dim = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (bright + 0.05) / (dim + 0.05)


def _luminance(colour: str) -> float:
    channels = (QColor(colour).redF(), QColor(colour).greenF(), QColor(colour).blueF())
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _tabular(font: QFont) -> QFont:
    """Give a font whose figures are of one width, so that columns of them align."""
    made = QFont(font)
    made.setFeature(QFont.Tag("tnum"), 1)
    return made


def _palette(c: Colours) -> QPalette:
    palette = QPalette()
    role = QPalette.ColorRole
    plain = {
        role.Window: c.page,
        role.WindowText: c.ink,
        role.Base: c.card,
        role.AlternateBase: c.band,
        role.Text: c.ink,
        role.Button: c.band,
        role.ButtonText: c.ink,
        role.BrightText: c.warn,
        role.Highlight: c.accent,
        role.HighlightedText: c.on_accent,
        role.Accent: c.accent,
        role.Link: c.accent,
        role.LinkVisited: c.accent,
        role.ToolTipBase: c.card,
        role.ToolTipText: c.ink,
        role.PlaceholderText: c.muted,
        role.Light: c.card,
        role.Midlight: c.band,
        role.Mid: c.line,
        role.Dark: c.edge,
        role.Shadow: c.edge,
    }
    for each, colour in plain.items():
        palette.setColor(each, QColor(colour))
    off = QPalette.ColorGroup.Disabled
    for each in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(off, each, QColor(c.edge))
    palette.setColor(off, role.Highlight, QColor(c.line))
    palette.setColor(off, role.HighlightedText, QColor(c.edge))
    return palette


def _sheet(c: Colours) -> str:
    text = resource_text("growdesk.qss")
    text = text.replace("@file-tick", icons.coloured_file("tick", c.on_accent))
    text = text.replace("@file-down", icons.coloured_file("down", c.ink))
    text = text.replace("@file-up", icons.coloured_file("up", c.ink))
    names = sorted(c.__struct_fields__, key=len, reverse=True)
    for name in names:
        text = text.replace(f"@{name}", str(getattr(c, name)))
    return text
