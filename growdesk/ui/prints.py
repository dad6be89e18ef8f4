"""Print tags, or save them as PDF: choose, then the pages.

The modules for printing are loaded on first use.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.domain.speech import mark, tr
from growdesk.ui.choosing import choose_pdf
from growdesk.ui.long_work import NOTHING_WRITTEN, Long
from growdesk.ui.preferences import preferences
from growdesk.ui.preview_over import open_preview

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from growdesk.domain.label_layouts import Layout
    from growdesk.services.collection import Collection
    from growdesk.services.long_work import Step
    from growdesk.services.tags import TagFacts
    from growdesk.ui.desk import Desk
    from growdesk.ui.dialogs.tags import TagsDialog, TagsDraft
    from growdesk.ui.faces import Faces
    from growdesk.ui.picking import Picked

    Prepared = tuple[tuple[TagFacts, ...], tuple[str, ...]]

_LAYOUT = "tags-layout"
_NAMED = 2
NO_TAGS = mark("No plant of that choice is there, so there is nothing to print.")


class TagPrints(QObject):
    """The tags of one window."""

    def __init__(self, desk: Desk, window: QWidget, faces: Faces) -> None:
        super().__init__(window)
        self._desk = desk
        self._window = window
        self._faces = faces

    def open(self) -> None:
        """Choose which plants get tags, and how."""
        picked = self._faces.picked
        self._desk.read(
            self._desk.collection.tags.places, partial(self._choose, picked)
        )

    def _choose(self, picked: Sequence[Picked], places: tuple[str, ...]) -> None:
        from growdesk.ui.dialogs.tags import (  # noqa: PLC0415 -- printing only
            TagsDialog,
            TagsStart,
        )

        start = TagsStart(
            tuple(each.plant_id for each in picked),
            places,
            self._desk.today,
            kept_layout(),
        )
        dialog = TagsDialog(self._window, start)
        dialog.saved.connect(partial(self._make, dialog, self._preview))
        dialog.add_way(tr("Save as PDF…"), partial(self._save, dialog))
        dialog.open()

    def _save(self, dialog: TagsDialog) -> None:
        """Ask for a file, once the choice can be meant."""
        try:
            draft = dialog.draft()
        except GrowdeskError as error:
            dialog.refused(error)
            return
        choose_pdf(
            dialog,
            tr("Save the tags"),
            f"tags-{self._desk.today.isoformat()}.pdf",
            lambda file: self.save_to(dialog, draft, file),
        )

    def save_to(self, dialog: TagsDialog, draft: TagsDraft, file: Path) -> None:
        """Save the tags that were chosen as a PDF."""
        self._make(dialog, partial(self._write, file), draft)

    def _make(
        self,
        dialog: TagsDialog,
        use: Callable[[Prepared, TagsDraft], object],
        draft: TagsDraft,
    ) -> None:
        def made(prepared: Prepared) -> None:
            if not prepared[0]:
                dialog.refused(InputError("place", "", tr("has no plant"), tr(NO_TAGS)))
                return
            preferences().setValue(_LAYOUT, draft.wish.layout.spec)
            dialog.close_saved()
            use(prepared, draft)

        work = partial(_prepared, self._desk.collection, draft)
        self._desk.read(work, made, dialog.refused)

    def _preview(self, prepared: Prepared, draft: TagsDraft) -> None:
        from growdesk.ui.dialogs.pages import PagesPreview  # noqa: PLC0415 -- ditto
        from growdesk.ui.printing import tag_pages  # noqa: PLC0415 -- printing only

        plants, notes = prepared
        wish = draft.wish
        preview = PagesPreview(
            tr(tag_pages.TITLE),
            partial(tag_pages.lay_out_tags, plants, wish),
            tr("the tags"),
            self._window,
            tag_pages.page_size(wish.layout),
        )
        open_preview(preview, self._desk)
        self._desk.told.emit(with_notes(f"{tag_pages.told(plants, wish)}.", notes))

    def _write(self, file: Path, prepared: Prepared, draft: TagsDraft) -> None:
        plants, notes = prepared
        saved = tr("Saved {file}").format(file=file)
        self._desk.long.begin(
            Long(
                tr("Saving the tags"),
                partial(_write_tags, plants, draft, file),
                lambda _done: self._desk.told.emit(with_notes(saved, notes)),
                self._desk.fail,
                lambda: self._desk.told.emit(tr(NOTHING_WRITTEN)),
            )
        )


def kept_layout() -> Layout:
    """Give the layout that was used last, else what the country's paper begins with."""
    from growdesk.domain.label_layouts import (  # noqa: PLC0415 -- printing only
        preset_for,
        read_layout,
    )
    from growdesk.ui.printing.paper import LETTER, choose_paper  # noqa: PLC0415 -- ditto

    try:
        return read_layout(str(preferences().value(_LAYOUT, "")))
    except InputError:
        return preset_for("Letter" if choose_paper(None) == LETTER else "A4")


def with_notes(line: str, notes: Sequence[str]) -> str:
    """Give a line with what did not go on paper as it should: the first, the count."""
    if not notes:
        return line
    more = len(notes) - _NAMED
    told = [f"{line.rstrip('.')}.", *notes[:_NAMED]]
    if more > 0:
        told.append(tr("And {more} more.").format(more=more))
    return " ".join(told)


def _prepared(collection: Collection, draft: TagsDraft) -> Prepared:
    """Give the plants chosen and what their labels cut, each label set once."""
    from growdesk.ui.printing import tag_pages  # noqa: PLC0415 -- printing only

    plants = collection.tags.chosen(draft.choice)
    return plants, tag_pages.notes_of(plants, draft.wish)


def _write_tags(
    plants: tuple[TagFacts, ...], draft: TagsDraft, file: Path, step: Step
) -> None:
    from growdesk.ui.printing import tag_pages  # noqa: PLC0415 -- printing only

    tag_pages.write_tags(plants, draft.wish, file, step)
