"""Offer the size of text and how much may move, and put a choice into force at once."""

from __future__ import annotations

from growdesk.domain.speech import tr
from growdesk.ui import motion, sizes
from growdesk.ui.dialogs.preferences import Row
from growdesk.ui.motion import Motion
from growdesk.ui.preferences import keep_motion, keep_text_per_cent

TEXT, MOTION = "text-size", "motion"


def rows() -> tuple[Row, ...]:
    """Give both as they stand."""
    section = tr("Text and motion")
    per_cent = tuple(
        (str(each), tr("{per_cent} %").format(per_cent=each)) for each in sizes.PER_CENT
    )
    moving = (
        (Motion.SYSTEM.value, tr("As the system")),
        (Motion.LESS.value, tr("Less: nothing fades, blinks or runs")),
        (Motion.USUAL.value, tr("As usual")),
    )
    now = str(sizes.current().per_cent)
    return (
        Row(section, TEXT, tr("Text si&ze"), per_cent, now),
        Row(section, MOTION, tr("&Motion"), moving, motion.current().motion.value),
    )


def take(key: str, value: str) -> bool:
    """Put a choice into force and keep it; tell whether it is one of these."""
    if key == TEXT:
        sizes.current().choose(int(value))
        keep_text_per_cent(sizes.current().per_cent)
    elif key == MOTION:
        motion.current().choose(Motion(value))
        keep_motion(Motion(value))
    return key in {TEXT, MOTION}
