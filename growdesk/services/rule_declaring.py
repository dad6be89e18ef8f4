"""Makes declarations of house rules: one heading for many, ranges from the domain.

It knows how a rule is declared and none of the rules.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.facts import House
from growdesk.domain.facts_house import NUMBERS, WHOLE_NUMBERS
from growdesk.domain.speech import mark, tr
from growdesk.services.values import Setting, SettingKind

OURS = mark("A house rule, ours.")
CURVE = mark("A house curve, ours.")
PRACTICE = mark("Common practice, no source.")
YOURS = mark("Yours to say; the program cannot know it.")

_DEFAULTS = House()
_BEFORE_OF = (mark("days"), "%")


def said(setting: Setting) -> Setting:
    """Give a rule as it was declared, its texts in the language chosen."""
    return replace(
        setting,
        title=tr(setting.title),
        unit=tr(setting.unit),
        text=tr(setting.text),
        group=tr(setting.group),
        source=tr(setting.source),
        short_unit=tr(setting.short_unit),
    )


class Group(Struct, frozen=True):
    """Rules that stand under one heading."""

    heading: str

    def number(
        self, key: str, named: tuple[str, str], text: str, source: str = OURS
    ) -> Setting:
        """Declare a number; ``named`` holds its title and its unit."""
        whole = key in WHOLE_NUMBERS
        return self._made(
            key, named, SettingKind.INT if whole else SettingKind.FLOAT, text, source
        )

    def share(
        self, key: str, named: tuple[str, str], text: str, source: str = OURS
    ) -> Setting:
        """Declare a part of one, which people write in per cent."""
        return self._made(key, named, SettingKind.SHARE, text, source)

    def day(self, key: str, title: str, text: str, source: str) -> Setting:
        """Declare a day of the year."""
        return self._made(key, (title, ""), SettingKind.DAY, text, source)

    def flag(self, key: str, title: str, text: str, source: str) -> Setting:
        """Declare a switch."""
        return self._made(key, (title, ""), SettingKind.BOOL, text, source)

    def weekdays(self, key: str, title: str, text: str, source: str) -> Setting:
        """Declare days of the week."""
        return self._made(key, (title, ""), SettingKind.WEEKDAYS, text, source)

    def _made(
        self,
        key: str,
        named: tuple[str, str],
        kind: SettingKind,
        text: str,
        source: str,
    ) -> Setting:
        allowed = WHOLE_NUMBERS.get(key) or NUMBERS.get(key)
        default = getattr(_DEFAULTS, key)
        return Setting(
            key=key,
            title=named[0],
            unit=named[1],
            kind=kind,
            minimum=None if allowed is None else allowed.low,
            maximum=None if allowed is None else allowed.high,
            text=text,
            group=self.heading,
            source=source,
            default=default,
            optional=default is None,
            above=allowed is not None and allowed.above,
            short_unit=next(
                (unit for unit in _BEFORE_OF if named[1].startswith(f"{unit} ")), ""
            ),
        )
