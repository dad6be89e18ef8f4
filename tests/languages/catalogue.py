"""Keep the catalogues of a language: bring texts in, tell what is missing, compile.

``python -m tests.languages.catalogue update de`` writes each text that is missing into
the area its file belongs to and takes out what is said no more; ``compile de`` makes
the catalogue that the program reads. ``missing de [AREA]`` prints what is not said yet.
"""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING

from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from tests.languages.texts import ROOT, Text, all_texts

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from pathlib import Path

WRITTEN = datetime(2026, 11, 26, tzinfo=UTC)
"""One day for all, so that a catalogue written twice is the same."""

FOLDER = ROOT / "resources" / "locale"
AREAS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "handbook",
        (
            "growdesk/services/handbook",
            "growdesk/services/program",
            "growdesk/ui/handbook",
            "growdesk/ui/dialogs/handbook",
            "growdesk/ui/dialogs/about",
        ),
    ),
    (
        "rules",
        (
            "growdesk/domain/pages_",
            "growdesk/domain/rule_pages",
            "growdesk/domain/rules/",
            "growdesk/services/house_rules",
            "growdesk/services/rule",
            "growdesk/ui/rule",
            "growdesk/ui/dialogs/rule",
            "growdesk/ui/dialogs/settings",
        ),
    ),
    (
        "decision",
        (
            "growdesk/domain/templates",
            "growdesk/domain/wording",
            "growdesk/domain/change",
            "growdesk/domain/worth",
            "growdesk/domain/sights",
            "growdesk/domain/week",
            "growdesk/domain/job",
            "growdesk/domain/strength",
            "growdesk/domain/salt_balance",
            "growdesk/domain/salt_words",
            "growdesk/domain/salt_course",
            "growdesk/domain/performance",
            "growdesk/domain/growth",
            "growdesk/domain/away",
            "growdesk/domain/bloom",
        ),
    ),
    (
        "mixing",
        (
            "growdesk/domain/water",
            "growdesk/domain/stock",
            "growdesk/domain/mix",
            "growdesk/domain/meter",
            "growdesk/domain/measur",
            "growdesk/domain/recipe",
            "growdesk/domain/quick",
            "growdesk/domain/analysis",
            "growdesk/domain/salt",
            "growdesk/domain/dose",
            "growdesk/domain/ec_",
            "growdesk/domain/expected_ec",
            "growdesk/domain/label",
            "growdesk/domain/caution",
            "growdesk/domain/bottle",
            "growdesk/domain/from_bottle",
            "growdesk/domain/keeping",
            "growdesk/domain/precip",
            "growdesk/domain/solub",
            "growdesk/domain/crystals",
            "growdesk/domain/wanted",
            "growdesk/domain/ladder",
            "growdesk/domain/unit",
            "growdesk/domain/volume",
            "resources/salts.csv",
            "resources/solubility.csv",
        ),
    ),
    ("plants", ("growdesk/domain/", "resources/kinds.csv")),
    ("services", ("growdesk/services/", "growdesk/store/")),
    ("paper", ("growdesk/ui/printing/", "growdesk/ui/charts/", "growdesk/commands/")),
    ("dialogs", ("growdesk/ui/dialogs/",)),
    ("window", ("growdesk/",)),
)


def area_of(places: Iterable[str]) -> str:
    """Give the area of a text: the first that one of its files belongs to."""
    files = tuple(places)
    for area, starts in AREAS:
        if any(file.startswith(starts) for file in files):
            return area
    raise ValueError(f"no area has {files}")


def by_area() -> dict[str, dict[Text, list[str]]]:
    """Give all texts, each in its area."""
    areas: dict[str, dict[Text, list[str]]] = {area: {} for area, _starts in AREAS}
    for text, places in all_texts().items():
        areas[area_of(places)][text] = places
    return areas


def po_path(language: str, area: str) -> Path:
    """Give the file of an area of a language."""
    return FOLDER / language / f"{area}.po"


def mo_path(language: str) -> Path:
    """Give the compiled catalogue of a language."""
    return FOLDER / language / "LC_MESSAGES" / "growdesk.mo"


def read(language: str, area: str) -> Catalog:
    """Read what an area says so far; nothing where there is no file yet."""
    path = po_path(language, area)
    if not path.exists():
        return Catalog(locale=language, domain="growdesk", fuzzy=False)
    with path.open("rb") as file:
        return read_po(file, locale=language, domain="growdesk")


def said(language: str) -> dict[Text, str | tuple[str, ...]]:
    """Give what every area says, by text."""
    told: dict[Text, str | tuple[str, ...]] = {}
    for area, _starts in AREAS:
        for message in read(language, area):
            if message.id and message.string and not message.fuzzy:
                string = message.string
                told[_as_text(message.id, message.context)] = (
                    string if isinstance(string, str) else tuple(string)
                )
    return told


def missing(language: str, area: str = "") -> list[Text]:
    """Give the texts that a language does not say, or not in every form."""
    told = said(language)
    return [
        text
        for name, texts in by_area().items()
        for text in texts
        if area in ("", name) and not _whole(told.get(text))
    ]


def update(language: str, only: str = "") -> None:
    """Write each area anew: what it says of the texts there are, and what it lacks."""
    told = said(language)
    for area, texts in by_area().items():
        if only in ("", area):
            _write(language, area, texts, told)


def compiled(language: str) -> bytes:
    """Give the compiled catalogue of all areas."""
    whole = Catalog(locale=language, domain="growdesk", fuzzy=False)
    whole.creation_date = whole.revision_date = WRITTEN
    now = all_texts()
    for text, string in sorted(said(language).items(), key=lambda each: _key(each[0])):
        if text in now and _whole(string):
            whole.add(_id(text), string, context=text.context or None)
    out = BytesIO()
    write_mo(out, whole)
    return out.getvalue()


def _write(
    language: str,
    area: str,
    texts: Mapping[Text, list[str]],
    told: Mapping[Text, str | tuple[str, ...]],
) -> None:
    catalogue = Catalog(
        locale=language,
        domain="growdesk",
        header_comment=f"# What growdesk says, {area}: {language}.",
        project="growdesk",
        version="1",
        msgid_bugs_address="see README.md",
        last_translator="growdesk",
        language_team=language,
        fuzzy=False,
    )
    catalogue.creation_date = catalogue.revision_date = WRITTEN
    for text in sorted(texts, key=lambda each: (texts[each][0], _key(each))):
        string = told.get(text) or (("", "") if text.many else "")
        catalogue.add(
            _id(text),
            string,
            locations=[(place, 0) for place in texts[text]],
            context=text.context or None,
        )
    path = po_path(language, area)
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as file:
        write_po(file, catalogue, width=88, omit_header=False, include_lineno=False)


def _id(text: Text) -> str | tuple[str, str]:
    return (text.one, text.many) if text.many else text.one


def _as_text(given: str | Sequence[str], context: str | None) -> Text:
    one, many = (given, "") if isinstance(given, str) else (given[0], given[1])
    return Text(one, many, context or "")


def _whole(string: str | tuple[str, ...] | None) -> bool:
    if string is None or isinstance(string, str):
        return bool(string)
    return all(string)


def _key(text: Text) -> tuple[str, str, str]:
    return text.one, text.many, text.context


def main(what: str, language: str, area: str = "") -> None:
    """Do what was asked for."""
    if what == "update":
        update(language, area)
    elif what == "compile":
        path = mo_path(language)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(compiled(language))
    else:
        for text in missing(language, area):
            print(repr(text.one), repr(text.many) if text.many else "")  # noqa: T201 -- a tool


if __name__ == "__main__":
    main(*sys.argv[1:])
