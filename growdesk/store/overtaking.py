"""Whether others changed, since a form was opened, what is to be written from it.

A form hands out all its fields, also those that nobody touched in it; written as they
are, they would take back what another computer had changed meanwhile.
"""

from __future__ import annotations

import json
from collections import defaultdict
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.errors import OvertakenError
from growdesk.domain.speech import tr
from growdesk.store.images import READ
from growdesk.store.schema import ActionRow, ChangeRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.store.journal import Change
    from growdesk.store.session import Session
    from growdesk.store.states import OwnSteps, State

_EVERY = "*"


def refuse_overtaken(
    session: Session, changes: Sequence[Change], since: State, own: OwnSteps, now: State
) -> None:
    """Refuse changes of columns that others changed since a state.

    Raises OvertakenError, which carries the state that stands now.
    """
    ours = {
        (each.table, each.row_id): _columns(each.before, each.after)
        for each in changes
        if each.before is not None
    }
    if not ours or since == now:
        return
    theirs: dict[tuple[str, int], set[str]] = defaultdict(set)
    found = session.execute(
        select(
            ChangeRow.table_name,
            ChangeRow.row_id,
            ChangeRow.before,
            ChangeRow.after,
            ActionRow.title,
            ActionRow.who,
            ActionRow.digest,
        )
        .join(ActionRow, ActionRow.id == ChangeRow.action_id)
        .where(
            ActionRow.id > since.newest,
            ActionRow.undone.is_(False),
            ChangeRow.table_name.in_({table for table, _ in ours}),
        )
        .order_by(ChangeRow.id)
    )
    for table, row_id, before, after, title, who, digest in found:
        wanted = ours.get((table, row_id))
        if wanted is None or own.wrote(digest):
            continue
        theirs[table, row_id] |= _columns(
            before and json.loads(before), after and json.loads(after)
        )
        if _EVERY in theirs[table, row_id] | wanted or theirs[table, row_id] & wanted:
            raise _overtaken(title, who, now)


def _columns(before: object, after: object) -> set[str]:
    """Give the columns that a change is of; all where the row came or went."""
    if not isinstance(before, dict) or not isinstance(after, dict):
        return {_EVERY}
    keys = before.keys() | after.keys()
    differ = {name for name in keys if before.get(name) != after.get(name)}
    return differ - {name for name in READ if name not in before}


def _overtaken(title: str, who: str, now: State) -> OvertakenError:
    did = tr("{who}: {title}").format(who=who, title=title) if who else title
    return OvertakenError(
        tr("This was changed on another computer meanwhile ({did}).").format(did=did),
        tr("Look at it there first; done once more, yours stands."),
        now,
    )
