"""The house rules and a few words of the grower's: declared once, checked, kept.

Only what the grower gave is kept; everything else follows the program's defaults.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import DamagedError, InputError
from growdesk.domain.facts import House
from growdesk.domain.facts_house import MONTH_DAYS, read_rule
from growdesk.domain.json_text import decoded
from growdesk.domain.speech import plain, tr
from growdesk.services import checking
from growdesk.services.house_rules import DECLARED
from growdesk.services.ledger import written
from growdesk.services.rule_declaring import said
from growdesk.services.rule_views import rule_views
from growdesk.services.shelf import house_with_water, read_waters
from growdesk.store.schema import SettingRow

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from growdesk.services.ledger import Ledger
    from growdesk.services.rule_views import RuleView
    from growdesk.services.values import Setting, Written
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

CURRENCY = "currency"
_WORD = "word."
_RULES = House.__struct_fields__


class Settings:
    """The settings of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def house(self) -> House:
        """Give the house rules as they hold."""
        with self._ledger.reading() as session:
            return read_house(session)

    def save_house(self, house: House, given: Collection[str] = ()) -> Written:
        """Keep the rules that differ from those that held, and those named as given.

        A save that changes nothing says that the latitude shown is the right one.
        """
        checked = checked_house(house)
        with self._ledger.reading() as session:
            before = read_house(session)
        new = {
            rule
            for rule in _RULES
            if rule in given or getattr(checked, rule) != getattr(before, rule)
        } or {"latitude"}
        title = _title(new)
        with self._ledger.writing(title) as writing:
            for rule in sorted(new):
                _keep(writing, rule, _json_value(rule, getattr(checked, rule)))
        return written(writing, title)

    def declared(self) -> tuple[Setting, ...]:
        """Give the rules that a settings page shows, in its order."""
        return tuple(map(said, DECLARED))

    def rules(self) -> tuple[RuleView, ...]:
        """Give the pages of the decision's rules with the house's numbers in them."""
        with self._ledger.reading() as session:
            house = house_with_water(read_house(session), read_waters(session))
        return rule_views(house)

    def is_set(self, key: str) -> bool:
        """Say whether the grower gave a rule or word, or a default holds."""
        with self._ledger.reading() as session:
            return is_kept(session, key)

    def word(self, key: str, default: str = "") -> str:
        """Give a word of the grower's, such as the collection's name."""
        with self._ledger.reading() as session:
            return read_word(session, key, default)

    def set_word(self, key: str, value: str) -> Written:
        """Keep a word of the grower's."""
        kept = checking.text(key, value)
        shown = key.replace("-", " ").replace("_", " ").capitalize()
        title = (
            tr("Currency set")
            if key == CURRENCY
            else tr("{word} set").format(word=shown)
        )
        with self._ledger.writing(title) as writing:
            _keep(writing, f"{_WORD}{key}", kept)
        return written(writing, title)


def is_kept(session: Session, key: str) -> bool:
    """Say whether a rule or word was given, inside another use case's session."""
    kept = _kept(session)
    return key in kept or f"{_WORD}{key}" in kept


def read_word(session: Session, key: str, default: str = "") -> str:
    """Give a word of the grower's, inside another use case's session."""
    return str(_kept(session).get(f"{_WORD}{key}", default))


def read_house(session: Session) -> House:
    """Give the house rules as they hold, inside another use case's session."""
    kept = {key: value for key, value in _kept(session).items() if key in _RULES}
    try:
        rules = {rule: _rule(rule, value) for rule, value in kept.items()}
    except InputError as error:
        raise DamagedError(
            tr("A house rule in the collection cannot be read: {message}").format(
                message=error.message
            ),
            tr("Bring back a backup with: growdesk restore FILE."),
        ) from error
    return replace(House(), **rules)


def checked_house(house: House) -> House:
    """Give the house rules as they are kept, or refuse the first slip in them."""
    rules: dict[str, Any] = {}
    for rule in _RULES:
        try:
            rules[rule] = _rule(rule, _json_value(rule, getattr(house, rule)))
        except InputError as error:
            raise InputError(rule, error.value, error.problem, error.hint) from error
    if rules["strength_floor_ppm_n"] > rules["strength_ceiling_ppm_n"]:
        raise InputError(
            "strength_floor_ppm_n",
            rules["strength_floor_ppm_n"],
            tr("is above the ceiling"),
            tr("Give at most {most_ppm_n} ppm N.").format(
                most_ppm_n=plain(rules["strength_ceiling_ppm_n"])
            ),
        )
    return replace(house, **rules)


def _rule(rule: str, value: object) -> Any:
    """Give one rule from its JSON value; only an optional one may be nothing."""
    if value is None and rule == "resume_root_mm":
        return None
    return read_rule(rule, value)


def _json_value(rule: str, value: Any) -> object:
    """Give a rule's value in the form the facts file has it in."""
    if rule in MONTH_DAYS:
        month, day = value
        return f"{month:02d}-{day:02d}"
    return list(value) if isinstance(value, tuple) else value


def _title(rules: Collection[str]) -> str:
    """Give a title that names the rule where it is only one."""
    if len(rules) > 1:
        return tr("{count} house rules changed").format(count=len(rules))
    named = {setting.key: tr(setting.title) for setting in DECLARED}
    rule = next(iter(rules))
    return tr("House rule changed: {rule}").format(rule=named.get(rule, rule))


def _kept(session: Session) -> Mapping[str, Any]:
    rows = session.execute(select(SettingRow.key, SettingRow.value))
    return {key: decoded(value) for key, value in rows}


def _keep(writing: Writing, key: str, value: object) -> None:
    there = writing.session.scalar(select(SettingRow.id).where(SettingRow.key == key))
    values = {"key": key, "value": json.dumps(value, ensure_ascii=False)}
    if there is None:
        writing.insert(SettingRow, values)
    else:
        writing.update(SettingRow, there, values)
