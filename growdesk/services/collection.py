"""One open collection: its folder, its clock, and the services that work on it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from growdesk.domain.errors import DamagedError, StoreError
from growdesk.domain.server_address import read_address
from growdesk.domain.speech import tr
from growdesk.services.account import account_name
from growdesk.services.clock import SystemClock
from growdesk.services.ledger import Ledger
from growdesk.services.log_file import log
from growdesk.services.watering_day import WateringDay
from growdesk.services.whereabouts import OnServer, called
from growdesk.store.migrations import SCHEMA
from growdesk.store.store import Store

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.away import AwaySheets
    from growdesk.services.benches import Benches
    from growdesk.services.bin import Bin
    from growdesk.services.blooms import Blooms
    from growdesk.services.calendar import Calendar
    from growdesk.services.care import Care
    from growdesk.services.charts import Charts
    from growdesk.services.clock import Clock
    from growdesk.services.clock_doubt import ClockDoubt
    from growdesk.services.hindsight import Hindsight
    from growdesk.services.history import History
    from growdesk.services.kind_book import Kinds
    from growdesk.services.look_list import LookLists
    from growdesk.services.looks import Looks
    from growdesk.services.measures import Measures
    from growdesk.services.meter import Meter
    from growdesk.services.mixing import Mixing
    from growdesk.services.nights import Nights
    from growdesk.services.photos import Photos
    from growdesk.services.place_readings import PlaceReadings
    from growdesk.services.places import Places
    from growdesk.services.plants import Plants
    from growdesk.services.rain import Rain
    from growdesk.services.recipes import Recipes
    from growdesk.services.roster import Roster
    from growdesk.services.rule_effects import RuleEffects
    from growdesk.services.settings import Settings
    from growdesk.services.sheet import Sheets
    from growdesk.services.stocks import Stocks
    from growdesk.services.stocktaking import Stocktaking
    from growdesk.services.tags import Tags
    from growdesk.services.views import Views
    from growdesk.services.walk import Walks
    from growdesk.services.waters import Waters
    from growdesk.services.whereabouts import Where
    from growdesk.services.year_review import YearReviews
    from growdesk.store.transactions import Transactions


def default_folder() -> Path:
    """Give the folder of the grower's own collection on this machine."""
    import platformdirs  # noqa: PLC0415 -- only where no folder was named

    return platformdirs.user_data_path("growdesk", appauthor=False) / "collection"


class Collection:
    """An open collection. Close it to let another program in."""

    def __init__(
        self, store: Transactions, clock: Clock, on_server: OnServer | None = None
    ) -> None:
        self.folder = store.folder
        self.clock = clock
        self.ledger = Ledger(store, clock, on_server)
        store.who = account_name
        log.info("opened a collection of form %s", SCHEMA)

    @classmethod
    def open(
        cls, where: Where, clock: Clock | None = None, *, create: bool = False
    ) -> Collection:
        """Open the collection that lies there; make an empty one where told to."""
        ticking = clock or SystemClock()
        if isinstance(where, OnServer):
            from growdesk.services.servers import open_server  # noqa: PLC0415 -- seldom

            return cls(open_server(where, ticking, create=create), ticking, where)
        return cls(Store.open(where, ticking.now, create=create), ticking)

    @classmethod
    def open_on_server(
        cls,
        address: str,
        photos_folder: Path,
        clock: Clock | None = None,
        *,
        create: bool = False,
    ) -> Collection:
        """Open the collection at a server's address, its photos in a shared folder."""
        from growdesk.store.server import ServerStore  # noqa: PLC0415 -- seldom used

        ticking = clock or SystemClock()
        now = ticking.now
        store = ServerStore.open(address, photos_folder, now, create=create)
        return cls(store, ticking, OnServer(read_address(address), photos_folder))

    @classmethod
    def open_to_read(cls, where: Where, clock: Clock | None = None) -> Collection:
        """Open a collection to read it, even while another program has it open."""
        if isinstance(where, OnServer):
            return cls.open(where, clock)
        ticking = clock or SystemClock()
        return cls(Store.open_to_read(where, ticking.now), ticking)

    @classmethod
    def open_again(cls, folder: Path, clock: Clock) -> Collection:
        """Open a collection that was let go of; one that is damaged, to look at."""
        try:
            return cls.open(folder, clock)
        except DamagedError:
            why = tr(
                "The collection is damaged. It can be looked at; nothing is written"
                " until a backup is brought back or what can be read is saved."
            )
        except StoreError as error:
            why = error.line()
        return cls(Store.open_as_it_is(folder, clock.now, why), clock)

    @property
    def where(self) -> Where:
        """Give where it lies: its folder, or its server."""
        return self.ledger.where

    @property
    def called(self) -> str:
        """Give what a person knows it by: its folder, or its name on a server."""
        return called(self.where)

    @property
    def looking(self) -> str:
        """Say why nothing may be written here, and the way out; empty where it may."""
        return self.ledger.store.looking

    @property
    def notice(self) -> str:
        """Say what was found about the file at its opening; empty where all is well."""
        return self.ledger.store.notice

    @property
    def full_check_due(self) -> bool:
        """Tell whether the file is to be checked in depth."""
        store = self.ledger.store
        return store.full_check_due or store.is_long_unchecked(self.clock.now())

    def note_full_check(self) -> None:
        """Note that the file was checked in depth now and found whole."""
        self.ledger.store.note_full_check(self.clock.now())

    @property
    def is_open(self) -> bool:
        """Tell whether it has not been closed."""
        return self.ledger.store.is_open

    def note_damage(self) -> None:
        """Note that the file was found damaged, so that its next opening looks."""
        self.ledger.store.note_damage()

    def keep_reserve(self) -> None:
        """Keep some room on the disk, to be let go when it is full."""
        self.ledger.store.keep_reserve()

    def close(self) -> None:
        """Close the file and let go of the folder."""
        self.ledger.store.close()
        log.info("closed a collection")

    @cached_property
    def day(self) -> WateringDay:
        """Give the watering day."""
        return WateringDay(self.ledger)

    @cached_property
    def clock_doubt(self) -> ClockDoubt:
        """Give what doubts this machine's clock."""
        from growdesk.services.clock_doubt import ClockDoubt  # noqa: PLC0415 -- when asked

        return ClockDoubt(self.ledger)

    @cached_property
    def looks(self) -> Looks:
        """Give the looks."""
        from growdesk.services.looks import Looks  # noqa: PLC0415 -- only when asked

        return Looks(self.ledger)

    @cached_property
    def walks(self) -> Walks:
        """Give the walks from plant to plant."""
        from growdesk.services.walk import Walks  # noqa: PLC0415 -- only when asked

        return Walks(self.ledger)

    @cached_property
    def look_lists(self) -> LookLists:
        """Give the look lists to print."""
        from growdesk.services.look_list import LookLists  # noqa: PLC0415 -- printing

        return LookLists(self.ledger)

    @cached_property
    def away(self) -> AwaySheets:
        """Give the away sheets for a helper."""
        from growdesk.services.away import AwaySheets  # noqa: PLC0415 -- printing

        return AwaySheets(self.ledger)

    @cached_property
    def years(self) -> YearReviews:
        """Give the years in review."""
        from growdesk.services.year_review import YearReviews  # noqa: PLC0415 -- ditto

        return YearReviews(self.ledger)

    @cached_property
    def tags(self) -> Tags:
        """Give the tags to print."""
        from growdesk.services.tags import Tags  # noqa: PLC0415 -- printing

        return Tags(self.ledger)

    @cached_property
    def plants(self) -> Plants:
        """Give the plants."""
        from growdesk.services.plants import Plants  # noqa: PLC0415 -- only when asked

        return Plants(self.ledger)

    @cached_property
    def places(self) -> Places:
        """Give the places."""
        from growdesk.services.places import Places  # noqa: PLC0415 -- only when asked

        return Places(self.ledger)

    @cached_property
    def benches(self) -> Benches:
        """Give the benches of the places."""
        from growdesk.services.benches import Benches  # noqa: PLC0415 -- when asked

        return Benches(self.ledger)

    @cached_property
    def readings(self) -> PlaceReadings:
        """Give what was read at the places."""
        from growdesk.services.place_readings import PlaceReadings  # noqa: PLC0415 -- only when asked

        return PlaceReadings(self.ledger)

    @cached_property
    def photos(self) -> Photos:
        """Give the photos."""
        from growdesk.services.photos import Photos  # noqa: PLC0415 -- only when asked

        return Photos(self.ledger)

    @cached_property
    def care(self) -> Care:
        """Give the care."""
        from growdesk.services.care import Care  # noqa: PLC0415 -- only when asked

        return Care(self.ledger)

    @cached_property
    def blooms(self) -> Blooms:
        """Give the blooms."""
        from growdesk.services.blooms import Blooms  # noqa: PLC0415 -- only when asked

        return Blooms(self.ledger)

    @cached_property
    def mixing(self) -> Mixing:
        """Give the shelf and the calculator."""
        from growdesk.services.mixing import Mixing  # noqa: PLC0415 -- only when asked

        return Mixing(self.ledger)

    @cached_property
    def waters(self) -> Waters:
        """Give the waters at hand."""
        from growdesk.services.waters import Waters  # noqa: PLC0415 -- with the shelf

        return Waters(self.ledger)

    @cached_property
    def recipes(self) -> Recipes:
        """Give the recipes."""
        from growdesk.services.recipes import Recipes  # noqa: PLC0415 -- only when asked

        return Recipes(self.ledger)

    @cached_property
    def sheet(self) -> Sheets:
        """Give the weekly sheets."""
        from growdesk.services.sheet import Sheets  # noqa: PLC0415 -- only for printing

        return Sheets(self.ledger)

    @cached_property
    def calendar(self) -> Calendar:
        """Give the dated jobs."""
        from growdesk.services.calendar import Calendar  # noqa: PLC0415 -- when asked

        return Calendar(self.ledger, self.day.known)

    @cached_property
    def charts(self) -> Charts:
        """Give the charts."""
        from growdesk.services.charts import Charts  # noqa: PLC0415 -- only when asked

        return Charts(self.ledger)

    @cached_property
    def kinds(self) -> Kinds:
        """Give the kinds and their corrections."""
        from growdesk.services.kind_book import Kinds  # noqa: PLC0415 -- only when asked

        return Kinds(self.ledger)

    @cached_property
    def measures(self) -> Measures:
        """Give the grower's measures and vessels."""
        from growdesk.services.measures import Measures  # noqa: PLC0415 -- when asked

        return Measures(self.ledger)

    @cached_property
    def meter(self) -> Meter:
        """Give what meters read in jugs."""
        from growdesk.services.meter import Meter  # noqa: PLC0415 -- only when asked

        return Meter(self.ledger)

    @cached_property
    def hindsight(self) -> Hindsight:
        """Give what decisions should have been, by the grower's own marks."""
        from growdesk.services.hindsight import Hindsight  # noqa: PLC0415 -- when asked

        return Hindsight(self.ledger)

    @cached_property
    def stocktaking(self) -> Stocktaking:
        """Give what is on hand, and the counts that it goes by."""
        from growdesk.services.stocktaking import Stocktaking  # noqa: PLC0415 -- ditto

        return Stocktaking(self.ledger)

    @cached_property
    def stocks(self) -> Stocks:
        """Give the bottles of stock solution."""
        from growdesk.services.stocks import Stocks  # noqa: PLC0415 -- only when asked

        return Stocks(self.ledger)

    @cached_property
    def roster(self) -> Roster:
        """Give the table of all plants."""
        from growdesk.services.roster import Roster  # noqa: PLC0415 -- only when asked

        return Roster(self.ledger)

    @cached_property
    def views(self) -> Views:
        """Give the views of that table that were kept."""
        from growdesk.services.views import Views  # noqa: PLC0415 -- only when asked

        return Views(self.ledger)

    @cached_property
    def nights(self) -> Nights:
        """Give the nights to come, as expected."""
        from growdesk.services.nights import Nights  # noqa: PLC0415 -- only when asked

        return Nights(self.ledger)

    @cached_property
    def rain(self) -> Rain:
        """Give the rain on what stands outdoors."""
        from growdesk.services.rain import Rain  # noqa: PLC0415 -- only when asked

        return Rain(self.ledger)

    @cached_property
    def settings(self) -> Settings:
        """Give the house rules and words."""
        from growdesk.services.settings import Settings  # noqa: PLC0415 -- only when asked

        return Settings(self.ledger)

    @cached_property
    def rule_effects(self) -> RuleEffects:
        """Give the preview of house rules."""
        from growdesk.services.rule_effects import RuleEffects  # noqa: PLC0415 -- ditto

        return RuleEffects(self.ledger)

    @cached_property
    def bin(self) -> Bin:
        """Give what was removed."""
        from growdesk.services.bin import Bin  # noqa: PLC0415 -- only when asked

        return Bin(self.ledger)

    @cached_property
    def history(self) -> History:
        """Give undo and redo."""
        from growdesk.services.history import History  # noqa: PLC0415 -- only when asked

        return History(self.ledger)
