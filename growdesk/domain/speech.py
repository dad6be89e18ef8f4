"""Say every text in the language chosen, and every number in the manner of the place.

Texts stand in English where they are used, whole sentences with named fields, and are
found in a catalogue by themselves (GNU gettext's way). No file is read here: whoever
starts the program hands the catalogue in with ``speak``. Without one, English is said;
so it is where a catalogue's text has a field that the English has not.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from string import Formatter
from typing import TYPE_CHECKING, Protocol, TypeVar, overload

from msgspec import Struct
from typing_extensions import override

if TYPE_CHECKING:
    from collections.abc import Iterator

K = TypeVar("K")
_KEPT = 8192


class Catalogue(Protocol):
    """What is asked of a language; ``gettext.NullTranslations`` has it."""

    def gettext(self, message: str, /) -> str:
        """Give a text in the language, or the text itself."""

    def ngettext(self, one: str, many: str, count: int, /) -> str:
        """Give the form of a text for a count."""

    def pgettext(self, context: str, message: str, /) -> str:
        """Give a text as it is said in a context."""


class Manner(Struct, frozen=True):
    """How this grower is spoken to: language, decimal sign, days, weeks, units.

    ``day_form`` writes a day in figures, of ``y``, ``m`` and ``d``; ``week_begins``
    is 0 for Monday. With ``customary`` temperatures are told in °F, volumes in US
    gallons, quarts and fluid ounces, lengths in inches; all is kept in °C, L and mm.
    """

    catalogue: Catalogue | None = None
    decimal: str = "."
    day_form: str = "{y:04}-{m:02}-{d:02}"
    week_begins: int = 0
    customary: bool = False

    @property
    def month_first(self) -> bool:
        """Tell whether the month stands before the day, as in 11/25/2026."""
        return self.day_form.startswith("{m")


_ENGLISH = Manner()
_now: list[Manner] = [_ENGLISH]


def speak(manner: Manner = _ENGLISH) -> None:
    """Speak in a manner from now on, on all threads; plain English without one."""
    _now[0] = manner


def manner() -> Manner:
    """Give the manner spoken in."""
    return _now[0]


def tr(text: str, context: str = "") -> str:
    """Give a text in the language chosen; ``context`` tells two uses of it apart."""
    catalogue = _now[0].catalogue
    if catalogue is None or not text:
        return text
    if not context:
        return _sound(catalogue.gettext(text), text)
    said = catalogue.pgettext(context, text)
    return _sound(said if said != text else catalogue.gettext(text), text)


def trn(one: str, many: str, count: float) -> str:
    """Give the text for a count; what is no whole number is said as many."""
    number = int(count) if count == int(count) else 2
    catalogue = _now[0].catalogue
    english = one if number == 1 else many
    if catalogue is None:
        return english
    return _sound(catalogue.ngettext(one, many, number), english, one + many)


def mark(text: str, context: str = "") -> str:  # noqa: ARG001 -- the catalogues read it
    """Mark a text for the catalogues where it is declared; ``tr`` says it later."""
    return text


class Phrases(Mapping[K, str]):
    """A table of texts declared in English and said in the language when looked up."""

    __slots__ = ("_context", "_texts")

    def __init__(self, texts: Mapping[K, str], context: str = "") -> None:
        self._texts = dict(texts)
        self._context = context

    @override
    def __getitem__(self, key: K) -> str:
        return tr(self._texts[key], self._context)

    @override
    def __iter__(self) -> Iterator[K]:
        return iter(self._texts)

    @override
    def __len__(self) -> int:
        return len(self._texts)


class Lines(Sequence[str]):
    """Texts in a row declared in English and said in the language when taken.

    ``texts`` are the English ones.
    """

    __slots__ = ("_context", "texts")

    def __init__(self, *texts: str, context: str = "") -> None:
        self.texts = texts
        self._context = context

    @overload
    def __getitem__(self, index: int) -> str: ...

    @overload
    def __getitem__(self, index: slice) -> tuple[str, ...]: ...

    @override
    def __getitem__(self, index: int | slice) -> str | tuple[str, ...]:
        if isinstance(index, slice):
            return tuple(tr(text, self._context) for text in self.texts[index])
        return tr(self.texts[index], self._context)

    @override
    def __len__(self) -> int:
        return len(self.texts)


def fixed(value: float, digits: int) -> str:
    """Give a number with so many digits after the decimal sign of the place."""
    return _with_sign(f"{value:.{digits}f}")


def trimmed(value: float, digits: int) -> str:
    """Give a number with so many digits at most, without needless zeros."""
    text = f"{value:.{digits}f}"
    return _with_sign(text.rstrip("0").rstrip(".") if "." in text else text)


def plain(value: float) -> str:
    """Give a number in up to six digits, as ``:g`` does."""
    return _with_sign(f"{value:g}")


@lru_cache(maxsize=_KEPT)
def _sound(said: str, english: str, filled: str = "") -> str:
    """Give what is said where every field of it will be filled, else the English.

    ``filled`` holds all fields there are, where that is more than the English text.
    """
    if "{" not in said and "}" not in said:
        return said
    given = _fields(filled or english)
    wanted = _fields(said)
    if given is None or (wanted is not None and wanted <= given):
        return said
    return english


def _fields(text: str) -> set[tuple[str, str | None, str | None]] | None:
    """Give the fields of a template; None where it is no template at all."""
    try:
        parts = [part[1:] for part in Formatter().parse(text)]
    except ValueError:
        return None
    return {(name, form, turned) for name, form, turned in parts if name is not None}


def _with_sign(text: str) -> str:
    decimal = _now[0].decimal
    return text if decimal == "." else text.replace(".", decimal)
