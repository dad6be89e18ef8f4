"""Meter readings: what a meter shows in a jug, kept beside what was to be expected."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain import meter_words
from growdesk.domain.day_words import day_text
from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import ExpectedEc
from growdesk.domain.facts_fields import Range, read_whole
from growdesk.domain.meter import (
    compare,
    parse_reading_ms_per_cm,
    reading_at_25,
    standing_of,
)
from growdesk.domain.speech import fixed, plain, tr
from growdesk.services import checking
from growdesk.services.ledger import written
from growdesk.services.meter_values import (
    JugToRead,
    MeterAnswer,
    MeterChart,
    MeterDraft,
    MeterView,
)
from growdesk.services.named_rows import GONE
from growdesk.services.watering_day import WateringDay
from growdesk.store.schema import MeterRow, RecipeRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import Jug, Written
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

CHART_DAYS = 365
_STRENGTH = Range(0, 2000, above=True)
_EXPECTED = Range(0, 100)
_LETTER_SIGNS = 4


class Meter:
    """The meter readings of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def jugs(self, on: date) -> tuple[JugToRead, ...]:
        """Give the jugs of a day, with the EC to expect of each.

        Where the ladder goes first its jugs come first, then the same dosed alone.
        """
        mix = WateringDay(self._ledger).view(on).mix
        alone = {jug.letter: _to_read(jug) for jug in mix.jugs}
        diluted = tuple(
            replace(
                alone[jug.letter],
                gives_ppm_n=jug.gives_ppm_n,
                expected=jug.ec,
                is_diluted=True,
            )
            for jug in mix.ladder_jugs
        )
        twice = {jug.letter for jug in diluted}
        return diluted + tuple(
            replace(jug, is_diluted=False) if letter in twice else jug
            for letter, jug in alone.items()
        )

    def all(self) -> tuple[MeterView, ...]:
        """Give all readings, the newest first."""
        with self._ledger.reading() as session:
            return tuple(reversed(_views(session)))

    def write(self, draft: MeterDraft) -> Written:
        """Write down what the meter read."""
        kept = self._checked(draft)
        title = tr("Jug {letter}: {read_ms_per_cm} mS/cm read").format(
            letter=kept.letter, read_ms_per_cm=fixed(kept.read_ms_per_cm, 2)
        )
        with self._ledger.writing(title) as writing:
            reading_id = writing.insert(MeterRow, _values(writing, kept))
        return written(writing, title, (reading_id,))

    def change(self, reading_id: int, draft: MeterDraft) -> Written:
        """Put a reading right."""
        kept = self._checked(draft)
        title = tr("Reading of jug {letter} changed").format(letter=kept.letter)
        with self._ledger.writing(title) as writing:
            _need(writing.session, reading_id)
            writing.update(MeterRow, reading_id, _values(writing, kept))
        return written(writing, title, (reading_id,))

    def remove(self, reading_id: int) -> Written:
        """Take a reading out."""
        with self._ledger.reading() as session:
            row = _need(session, reading_id)
            letter, day = row.letter, day_text(row.day, self._ledger.today())
        title = tr("Reading of jug {letter} of {day} removed").format(
            letter=letter, day=day
        )
        with self._ledger.writing(title) as writing:
            _need(writing.session, reading_id)
            writing.delete(MeterRow, reading_id)
        return written(writing, title)

    def chart(self, on: date) -> MeterChart:
        """Give the readings of a year up to a day."""
        since = on - timedelta(days=CHART_DAYS)
        with self._ledger.reading() as session:
            found = _views(session)
        inside = tuple(view for view in found if since <= view.draft.on <= on)
        return MeterChart(since, on, inside)

    def _checked(self, draft: MeterDraft) -> MeterDraft:
        checking.day_done("on", draft.on, self._ledger.today())
        reading_at_25(draft.read_ms_per_cm, draft.temperature_c)
        hint = tr('Give the letter that stands on the jug, for instance "A".')
        low, high = draft.expected_low_ms_per_cm, draft.expected_high_ms_per_cm
        if low is not None and high is not None and low > high:
            raise InputError(
                "expected",
                tr("{low} to {high}").format(low=plain(low), high=plain(high)),
                tr("is turned round"),
            )
        return replace(
            draft,
            letter=checking.needed_text("letter", draft.letter, hint, _LETTER_SIGNS),
            strength_ppm_n=read_whole(
                "strength_ppm_n", draft.strength_ppm_n, _STRENGTH
            ),
            expected_low_ms_per_cm=checking.number("expected", low, _EXPECTED),
            expected_high_ms_per_cm=checking.number("expected", high, _EXPECTED),
            note=checking.text("note", draft.note),
        )


def answer(jug: JugToRead, typed: str, temperature_c: float | None) -> MeterAnswer:
    """Hold a reading as it was typed against its jug, in words at once."""
    return answer_to(jug, parse_reading_ms_per_cm(typed), temperature_c)


def answer_to(
    jug: JugToRead, shown_ms_per_cm: float, temperature_c: float | None
) -> MeterAnswer:
    """Hold a reading against its jug."""
    if jug.expected is None:
        ec = reading_at_25(shown_ms_per_cm, temperature_c)
        return MeterAnswer(None, (meter_words.unexpected_text(ec),))
    compared = compare(shown_ms_per_cm, jug.expected, temperature_c, jug.gives_ppm_n)
    return MeterAnswer(
        compared, meter_words.reading_texts(compared), meter_words.check_texts(compared)
    )


def jug_of(view: MeterView) -> JugToRead:
    """Give the jug that a kept reading is of, with what was to be expected of it."""
    draft = view.draft
    return JugToRead(
        letter=draft.letter,
        strength_ppm_n=draft.strength_ppm_n,
        volume_l=0.0,
        recipe=view.recipe,
        recipe_id=draft.recipe_id,
        gives_ppm_n=None,
        expected=_expected(draft.expected_low_ms_per_cm, draft.expected_high_ms_per_cm),
    )


def _to_read(jug: Jug) -> JugToRead:
    expected = _expected(jug.ec_low_ms_per_cm, jug.ec_high_ms_per_cm)
    if expected is not None:
        expected = replace(
            expected,
            ec_ms_per_cm=jug.ec_ms_per_cm,
            why=jug.ec_why,
            water_ms_per_cm=jug.ec_water_ms_per_cm,
        )
    return JugToRead(
        letter=jug.letter,
        strength_ppm_n=jug.strength_ppm_n,
        volume_l=jug.volume_l + jug.spare_l,
        recipe=jug.recipe,
        recipe_id=jug.recipe_id,
        gives_ppm_n=jug.gives_ppm_n,
        expected=expected,
    )


def _expected(low: float | None, high: float | None) -> ExpectedEc | None:
    return None if low is None or high is None else ExpectedEc(low, high)


def _views(session: Session) -> list[MeterView]:
    """Give all readings, the oldest first, in one statement."""
    rows = session.execute(
        select(MeterRow.__table__, RecipeRow.name.label("recipe"))
        .outerjoin_from(MeterRow, RecipeRow, RecipeRow.id == MeterRow.recipe_id)
        .order_by(MeterRow.day, MeterRow.id)
    )
    return [_view(row) for row in rows]


def _view(row: Any) -> MeterView:
    draft = MeterDraft(
        on=row.day,
        letter=row.letter,
        strength_ppm_n=row.strength_ppm_n,
        read_ms_per_cm=row.read_ms_per_cm,
        temperature_c=row.temperature_c,
        expected_low_ms_per_cm=row.expected_low_ms_per_cm,
        expected_high_ms_per_cm=row.expected_high_ms_per_cm,
        recipe_id=row.recipe_id,
        note=row.note,
    )
    expected = _expected(row.expected_low_ms_per_cm, row.expected_high_ms_per_cm)
    standing, off = (
        (None, 0.0) if expected is None else standing_of(row.ec_ms_per_cm, expected)
    )
    return MeterView(
        reading_id=row.id,
        draft=draft,
        ec_ms_per_cm=row.ec_ms_per_cm,
        recipe=row.recipe or "",
        standing=standing,
        off_ms_per_cm=off,
    )


def _need(session: Session, reading_id: int) -> Any:
    wanted = select(MeterRow.__table__).where(MeterRow.id == reading_id)
    row = session.execute(wanted).one_or_none()
    if row is None:
        raise InputError("reading", reading_id, tr("is not there any more"), tr(GONE))
    return row


def _values(writing: Writing, draft: MeterDraft) -> dict[str, object]:
    recipe = draft.recipe_id
    there = select(RecipeRow.id).where(RecipeRow.id == recipe)
    if recipe is not None and writing.session.scalar(there) is None:
        raise InputError("recipe", recipe, tr("is not there any more"), tr(GONE))
    return {
        "day": draft.on,
        "letter": draft.letter,
        "strength_ppm_n": draft.strength_ppm_n,
        "recipe_id": recipe,
        "expected_low_ms_per_cm": draft.expected_low_ms_per_cm,
        "expected_high_ms_per_cm": draft.expected_high_ms_per_cm,
        "read_ms_per_cm": draft.read_ms_per_cm,
        "temperature_c": draft.temperature_c,
        "ec_ms_per_cm": reading_at_25(draft.read_ms_per_cm, draft.temperature_c),
        "note": draft.note,
    }
