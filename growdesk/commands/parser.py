"""Gives the command line's parser, whose slips are one plain line like all others.

Only the shape of the commands stands here. What the words mean, and whether a day or
a folder makes sense, is for the commands.
"""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, NoReturn

from typing_extensions import override

from growdesk import __version__
from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.server_address import is_address

if TYPE_CHECKING:
    from collections.abc import Sequence

    Commands = argparse._SubParsersAction["OneLineParser"]  # noqa: SLF001 -- argparse names this type only so


class UsageError(GrowdeskError):
    """The command line itself cannot be understood."""

    reference = "usage"


class OneLineParser(argparse.ArgumentParser):
    """A parser that raises its slips instead of printing a page of usage."""

    @override
    def error(self, message: str) -> NoReturn:
        way_out = f"See {self.prog} --help."
        if "expected one argument" in message:
            way_out = f"Write --option=VALUE where VALUE begins with a dash. {way_out}"
        raise UsageError(f"{self.prog}: {message}.", way_out)


def refuse_two_sources(arguments: argparse.Namespace) -> None:
    """Refuse a line that names two things to work on where only one can be meant."""
    named = {
        option: value
        for option, value in (
            ("--facts", getattr(arguments, "facts", None)),
            ("--collection", getattr(arguments, "collection", None)),
            ("--demo", getattr(arguments, "demo", None)),
        )
        if value is not None
    }
    if len(named) > 1:
        first, *others = named
        problem = f"stands beside {' and '.join(others)}"
        raise InputError(first, named[first], problem, "Choose one of them.")


def refuse_photos_beside_a_folder(arguments: argparse.Namespace) -> None:
    """Refuse a shared folder of photos for a collection that keeps its own."""
    photos: str | None = getattr(arguments, "photos", None)
    lies = [getattr(arguments, name, None) or "" for name in ("collection", "to")]
    if photos is not None and not any(map(is_address, lies)):
        hint = "Leave it out: a collection in a folder keeps its photos there."
        raise InputError("--photos", photos, "is for a collection on a server", hint)


def parsed(argv: Sequence[str] | None) -> argparse.Namespace:
    """Give the arguments; all commands are only made where more than a window is asked.

    Raises UsageError; ``--help`` and ``--version`` answer and end by SystemExit.
    """
    window = OneLineParser(prog="growdesk", add_help=False, allow_abbrev=False)
    _add_collection(window)
    try:
        found, more = window.parse_known_args(argv)
    except UsageError:
        return make_parser().parse_args(argv)
    if more:
        return make_parser().parse_args(argv)
    found.command = None
    return found


def make_parser() -> OneLineParser:
    """Give the parser for all of growdesk's command line."""
    parser = OneLineParser(
        prog="growdesk",
        description=(
            "Decides on each watering day which orchids are fed, how strong, and how "
            "to mix it in few jugs. Without a command it opens the window."
        ),
        allow_abbrev=False,
    )
    parser.add_argument(
        "--version", action="version", version=f"growdesk {__version__}"
    )
    _add_collection(parser)
    commands = parser.add_subparsers(
        dest="command", metavar="COMMAND", title="commands"
    )
    for add in (
        _add_decide,
        _add_looks,
        _add_calendar,
        _add_plan,
        _add_rules,
        _add_dose,
        _add_mix,
        _add_sheet,
        _add_look_list,
        _add_tags,
        _add_away,
        _add_year,
        _add_shelf,
        _add_sun,
        _add_ec,
        _add_stock,
        _add_kinds,
        _add_name,
        _add_import,
        _add_readings,
        _add_export,
        _add_backup,
        _add_backups,
        _add_restore,
        _add_carry_over,
        _add_check,
        _add_report,
        _add_rescue,
        _add_desktop_entry,
    ):
        add(commands)
    return parser


def _add_collection(parser: argparse.ArgumentParser) -> None:
    """Add what stands before or after a command alike."""
    parser.add_argument(
        "--collection",
        metavar="DIR|URL",
        default=argparse.SUPPRESS,
        help=(
            "the collection's folder (default: the platform's data folder), or its "
            "address on a server, as postgresql+psycopg://user@host/name; its password "
            "stands there, in PGPASSWORD or in ~/.pgpass"
        ),
    )
    parser.add_argument(
        "--photos",
        metavar="FOLDER",
        default=argparse.SUPPRESS,
        help=(
            "of a collection on a server: the folder of its photos and backups that "
            "all who use it share; it is remembered for that server on this computer"
        ),
    )
    parser.add_argument(
        "--language",
        metavar="CODE",
        default=argparse.SUPPRESS,
        help="the language of sentences, sheets and other PDFs, as de (default: en)",
    )
    parser.add_argument(
        "--demo",
        action="store_true",
        default=argparse.SUPPRESS,
        help="work on a throw-away copy of the demo collection",
    )


def _command(commands: Commands, name: str, summary: str) -> OneLineParser:
    parser = commands.add_parser(
        name, help=summary, description=summary, allow_abbrev=False
    )
    _add_collection(parser)
    return parser


def _add_day(parser: OneLineParser) -> None:
    parser.add_argument("--on", metavar="DATE", help="the day, as 2026-03-28")


def _add_json(parser: OneLineParser) -> None:
    parser.add_argument("--json", action="store_true", help="print JSON")


def _add_facts(parser: OneLineParser) -> None:
    parser.add_argument(
        "--facts",
        metavar="FILE",
        help="go by facts from a file instead of a collection; - reads standard input",
    )


def _add_decide(commands: Commands) -> None:
    parser = _command(commands, "decide", "tell each plant's verdict, and why")
    _add_facts(parser)
    _add_day(parser)
    parser.add_argument(
        "--tag", metavar="TAG", action="append", help="only this plant; may be repeated"
    )
    _add_json(parser)


def _add_looks(commands: Commands) -> None:
    parser = _command(commands, "looks", "tell which looks are worth taking, and why")
    _add_day(parser)
    parser.add_argument(
        "--count", metavar="N", default="10", help="how many plants (default: 10)"
    )
    _add_json(parser)


def _add_calendar(commands: Commands) -> None:
    parser = _command(
        commands, "calendar", "tell what is to be done beside watering, and when"
    )
    _add_day(parser)
    parser.add_argument(
        "--until", metavar="DATE", help="the last day (default: a year on)"
    )
    parser.add_argument(
        "--ics", metavar="FILE", help="write it as a calendar file (iCalendar)"
    )
    _add_json(parser)


def _add_plan(commands: Commands) -> None:
    parser = _command(commands, "plan", "tell the jugs of a watering day")
    _add_facts(parser)
    _add_day(parser)
    _add_json(parser)


def _add_rules(commands: Commands) -> None:
    parser = _command(commands, "rules", "explain the rules of the decision")
    parser.add_argument(
        "rule", metavar="RULE", nargs="?", help="only this one, for example unfed-rest"
    )
    _add_json(parser)


def _add_dose(commands: Commands) -> None:
    parser = _command(commands, "dose", "tell how much fertilizer makes a strength")
    parser.add_argument(
        "--analysis", metavar="N-P-K", required=True, help='as on the label: "20-20-20"'
    )
    parser.add_argument(
        "--target", metavar="STRENGTH", required=True, help='for example "150 ppm N"'
    )
    parser.add_argument(
        "--water", metavar="VOLUME", required=True, help='for example "5 L"'
    )
    parser.add_argument(
        "--density", metavar="DENSITY", help='of a liquid, for example "1.2 g/mL"'
    )
    parser.add_argument(
        "--scale", metavar="STEP", help='what your scale reads to, say "0.1 g"'
    )
    _add_json(parser)


def _add_mix(commands: Commands) -> None:
    parser = _command(commands, "mix", "tell what a recipe of several products makes")
    parser.add_argument(
        "--recipe", metavar="FILE", required=True, help="a JSON file; - reads input"
    )
    parser.add_argument(
        "--strength", metavar="STRENGTH", required=True, help='for example "120 ppm N"'
    )
    _add_json(parser)


def _add_sheet(commands: Commands) -> None:
    parser = _command(commands, "sheet", "make the weekly mixing sheet as a PDF")
    parser.add_argument("--week", metavar="DATE", help="a day of the week wanted")
    parser.add_argument("--pdf", metavar="FILE", required=True, help="the PDF to write")
    parser.add_argument(
        "--paper", choices=("A4", "Letter"), help="the paper (default: the printer's)"
    )


def _add_look_list(commands: Commands) -> None:
    parser = _command(commands, "look-list", "make a list with blanks to look by, PDF")
    parser.add_argument("--pdf", metavar="FILE", required=True, help="the PDF to write")
    parser.add_argument("--place", metavar="NAME", help="one place (default: all)")
    parser.add_argument(
        "--due", action="store_true", help="only plants whose look is too old, or none"
    )
    parser.add_argument(
        "--paper", choices=("A4", "Letter"), help="the paper (default: the printer's)"
    )
    _add_day(parser)


def _add_tags(commands: Commands) -> None:
    parser = _command(commands, "tags", "make tags to print as a PDF")
    parser.add_argument("--pdf", metavar="FILE", required=True, help="the PDF to write")
    parser.add_argument(
        "--tag", metavar="TAG", action="append", help="one plant; may be given again"
    )
    parser.add_argument("--place", metavar="NAME", help="one place (default: all)")
    parser.add_argument(
        "--since", metavar="DATE", help="only plants repotted or come since a day"
    )
    parser.add_argument(
        "--layout",
        metavar="TEXT",
        help='such as "A4 3x8 70x37 at 0,0.5 gap 0,0 cut" or "strip 90x12", in mm',
    )
    parser.add_argument(
        "--copies", metavar="N", default="2", help="labels a plant (default: 2)"
    )
    parser.add_argument(
        "--first", metavar="N", default="1", help="the first free label of a page begun"
    )
    parser.add_argument(
        "--no-code", action="store_true", help="leave the code to scan out"
    )
    parser.add_argument(
        "--with",
        dest="with_lines",
        metavar="LIST",
        default="",
        help="more lines: parentage, source, where",
    )


def _add_away(commands: Commands) -> None:
    parser = _command(commands, "away", "make a sheet for a helper as a PDF")
    parser.add_argument(
        "--from", dest="from_day", metavar="DATE", required=True, help="the first day"
    )
    parser.add_argument("--until", metavar="DATE", required=True, help="the last day")
    parser.add_argument("--pdf", metavar="FILE", required=True, help="the PDF to write")
    parser.add_argument("--place", metavar="NAME", help="one place (default: all)")
    parser.add_argument(
        "--call", metavar="TEXT", default="", help="whom to call (default: a blank)"
    )
    parser.add_argument(
        "--paper", choices=("A4", "Letter"), help="the paper (default: the printer's)"
    )


def _add_year(commands: Commands) -> None:
    parser = _command(commands, "year", "make a year in review as a PDF")
    which = parser.add_mutually_exclusive_group()
    which.add_argument("--year", metavar="YEAR", help="a calendar year, as 2026")
    which.add_argument(
        "--until", metavar="DATE", help="twelve months to a day (default: today)"
    )
    parser.add_argument("--pdf", metavar="FILE", required=True, help="the PDF to write")
    parser.add_argument(
        "--paper", choices=("A4", "Letter"), help="the paper (default: the printer's)"
    )


def _add_shelf(commands: Commands) -> None:
    parser = _command(
        commands, "shelf", "tell what is on hand, until when, and what it costs"
    )
    _add_json(parser)


def _add_sun(commands: Commands) -> None:
    parser = _command(commands, "sun", "tell the day length and the sun's radiation")
    parser.add_argument(
        "--latitude", metavar="DEGREES", required=True, help="south is negative"
    )
    _add_day(parser)
    _add_json(parser)


def _add_ec(commands: Commands) -> None:
    parser = _command(commands, "ec", "tell the conductivity of salts in water")
    parser.add_argument(
        "--salts", metavar="FILE", required=True, help="a JSON file; - reads input"
    )
    _add_json(parser)


def _add_stock(commands: Commands) -> None:
    parser = _command(
        commands, "stock", "tell whether salts stay clear together as a stock"
    )
    parser.add_argument(
        "--salts",
        metavar="FILE",
        required=True,
        help="a JSON file of grams in a litre of stock; - reads input",
    )
    parser.add_argument(
        "--coolest",
        metavar="DEGREES",
        help="the coolest it gets where the bottle stands, in °C (default: 15)",
    )
    _add_json(parser)


def _add_name(commands: Commands) -> None:
    parser = _command(commands, "name", "read a plant's name into its parts")
    parser.add_argument("text", metavar="TEXT", help="the name, as on the label")
    _add_json(parser)


def _add_kinds(commands: Commands) -> None:
    parser = _command(commands, "kinds", "tell the kinds of orchid, with their sources")
    parser.add_argument(
        "kind", metavar="KIND", nargs="?", help="a key, a genus or a plant's name"
    )
    _add_json(parser)


def _add_import(commands: Commands) -> None:
    parser = _command(
        commands, "import", "take rows from a CSV file, or an exported folder back"
    )
    parser.add_argument(
        "file",
        metavar="FILE.csv",
        help="a table; a folder of growdesk export goes into an empty collection",
    )
    parser.add_argument(
        "--as",
        dest="sort",
        choices=("plants", "looks", "care", "blooms"),
        help="what the rows are, where the header does not say",
    )
    parser.add_argument(
        "--columns",
        metavar="NAMES",
        help=(
            "what the columns hold, in the file's order, as growdesk export heads them:"
            ' "tag,name,place", with - for each to leave out'
        ),
    )
    parser.add_argument(
        "--dates",
        choices=("dmy", "mdy", "ymd"),
        help="the order of day, month and year, where the dates do not say",
    )
    parser.add_argument(
        "--change",
        action="store_true",
        help="let rows change plants that are there; an empty cell changes nothing",
    )
    parser.add_argument(
        "--dry-run", action="store_true", help="tell what would be taken; write nothing"
    )


def _add_readings(commands: Commands) -> None:
    parser = _command(
        commands, "readings", "take a place's readings from a logger's CSV file"
    )
    parser.add_argument("file", metavar="FILE.csv")
    parser.add_argument(
        "--place", metavar="NAME", required=True, help="the place it was read at"
    )
    parser.add_argument(
        "--columns",
        metavar="NAMES",
        help=(
            "what the columns hold, in the file's order, where the header does not "
            'say: "time,temperature_c,humidity,lux"; others are date, temperature_f, '
            "low_c, high_c, low_f, high_f, fc, ppfd, w_per_m2, dli, and - to leave out"
        ),
    )
    parser.add_argument(
        "--day-order",
        choices=("dmy", "mdy", "ymd"),
        help="the order of day, month and year, where the dates do not say",
    )
    parser.add_argument(
        "--dry-run", action="store_true", help="tell what would be taken; write nothing"
    )
    _add_json(parser)


def _add_export(commands: Commands) -> None:
    parser = _command(
        commands, "export", "write everything out as CSV tables, photos and JSON"
    )
    parser.add_argument("folder", metavar="DIR")
    parser.add_argument(
        "--keep-location",
        action="store_true",
        help="leave in the photos where they were taken (for a copy of your own)",
    )


def _add_backup(commands: Commands) -> None:
    parser = _command(
        commands, "backup", "keep a backup now, or write it all into one file"
    )
    parser.add_argument(
        "file",
        metavar="FILE",
        nargs="?",
        help="the zip to write; without it a backup is kept with the collection",
    )


def _add_backups(commands: Commands) -> None:
    parser = _command(commands, "backups", "tell which backups are kept")
    parser.add_argument(
        "--prove", action="store_true", help="read each of them through"
    )
    _add_json(parser)


def _add_carry_over(commands: Commands) -> None:
    parser = _command(
        commands, "carry-over", "carry the collection to a server, or back to a folder"
    )
    parser.add_argument(
        "--to",
        metavar="URL|DIR",
        required=True,
        help="an empty database on a server, or from a server a new folder",
    )


def _add_restore(commands: Commands) -> None:
    parser = _command(commands, "restore", "bring a collection back from a backup")
    parser.add_argument(
        "file", metavar="FILE", help="a backup's file or folder, or a day: 2026-11-24"
    )
    parser.add_argument(
        "--into",
        metavar="DIR",
        help="put it into a new folder and leave the collection alone",
    )


def _add_check(commands: Commands) -> None:
    parser = _command(commands, "check", "look the whole collection through for damage")
    parser.add_argument("--quick", action="store_true", help="only a quick look")
    parser.add_argument(
        "--mend",
        action="store_true",
        help="set back what the history has otherwise, and photos that a backup has",
    )


def _add_rescue(commands: Commands) -> None:
    parser = _command(
        commands, "rescue", "save what can be read of a damaged collection anew"
    )
    parser.add_argument(
        "folder",
        metavar="DIR",
        nargs="?",
        help="the damaged collection's folder (default: the collection's)",
    )
    parser.add_argument(
        "--into", metavar="DIR", help="the new folder (default: beside it, -rescued)"
    )


def _add_report(commands: Commands) -> None:
    parser = _command(
        commands, "report", "write a report of a fault, without any plant in it"
    )
    parser.add_argument("file", metavar="FILE", help="the text file to write")


def _add_desktop_entry(commands: Commands) -> None:
    parser = _command(
        commands, "desktop-entry", "put growdesk into the desktop's menu (Linux)"
    )
    parser.add_argument(
        "--remove", action="store_true", help="take the menu entry away again"
    )
