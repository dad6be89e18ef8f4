"""Show one kind field by field: what holds, what it stands on, and a way to correct it.

The page is built anew for each kind shown; an editor, where one is open, stands under
its field.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from growdesk.domain.kind_fields import FIELDS, GROUPS, NAME
from growdesk.domain.speech import tr
from growdesk.ui import kind_texts, sizes
from growdesk.ui.tips import as_typed
from growdesk.ui.widgets.parts import clear, column, enlarge, label, link

if TYPE_CHECKING:
    from growdesk.services.kind_values import FieldView, KindView

_TITLE_PX = 142
_MEMORY_PX = 84
_LINKS_PX = 84
_DOWN_PX = 8
_TOP, _RIGHT = Qt.AlignmentFlag.AlignTop, Qt.AlignmentFlag.AlignRight


class KindPage(QWidget):
    """The right side of the browser."""

    correct_wanted = Signal(str)
    restore_wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._column = column(spacing=4)
        self._column.setContentsMargins(4, 0, 10, 8)
        self.setLayout(self._column)

    def show_kind(self, view: KindView, editing: str, editor: QWidget | None) -> None:
        """Show a kind, with the editor under the field that it is for."""
        if editor is not None:
            editor.setParent(None)
        clear(self._column)
        head = label(view.title, scale=1.3)
        enlarge(head, 1.0, strong=True)
        head.setObjectName("kind-title")
        self._column.addWidget(head)
        self._column.addWidget(label(kind_texts.under(view), tone="muted"))
        for group in (*(each for each in GROUPS if each != NAME), NAME):
            self._add_group(view, group, editing, editor)
        self._add_names(view)
        self._add_source(view)
        self._column.addStretch(1)

    def _add_group(
        self, view: KindView, group: str, editing: str, editor: QWidget | None
    ) -> None:
        fields = [
            field
            for field in view.fields
            if field.group == group
            and (field.bears or field.corrected or field.name == editing)
        ]
        self._head(tr(group))
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(0)
        grid.setColumnMinimumWidth(0, sizes.px(_TITLE_PX))
        grid.setColumnMinimumWidth(2, sizes.px(_MEMORY_PX))
        grid.setColumnMinimumWidth(3, sizes.px(_LINKS_PX))
        grid.setColumnStretch(1, 1)
        self._column.addLayout(grid)
        for field in fields:
            self._add_field(grid, view, field)
            if field.name == editing and editor is not None:
                grid.addWidget(editor, grid.rowCount(), 0, 1, 4)

    def _add_field(self, grid: QGridLayout, view: KindView, field: FieldView) -> None:
        row = grid.rowCount()
        title = label(field.title, tone="muted")
        title.setToolTip(tr(FIELDS[field.name].meaning))
        text = label(kind_texts.value(field))
        text.setObjectName(f"value-{field.name}")
        for each in (title, text):
            each.setContentsMargins(0, _DOWN_PX, 0, 2)
        correct = link(tr("Change…"), lambda: self.correct_wanted.emit(field.name))
        correct.setObjectName(f"correct-{field.name}")
        correct.setAccessibleName(
            tr("Change {title}, now {text}").format(title=field.title, text=field.text)
        )
        grid.addWidget(title, row, 0, _TOP)
        grid.addWidget(text, row, 1, 1, 1 if field.from_memory else 2, _TOP)
        grid.addWidget(correct, row, 3, _TOP | _RIGHT)
        backing = kind_texts.backing(field, of_plant=view.plant_id is not None)
        said = label(backing, tone="head" if field.corrected else "muted")
        said.setObjectName(f"backing-{field.name}")
        said.setContentsMargins(0, _DOWN_PX, 0, 2)
        if field.corrected:
            back = link(
                tr("Back to default"), lambda: self.restore_wanted.emit(field.name)
            )
            back.setToolTip(as_typed(field.below_text))
            back.setObjectName(f"restore-{field.name}")
            back.setAccessibleName(
                tr("{title}: back to default, {below_text}").format(
                    title=field.title, below_text=field.below_text
                )
            )
            grid.addWidget(said, row + 1, 1, 1, 2, _TOP)
            grid.addWidget(back, row + 1, 3, _TOP | _RIGHT)
        elif backing:
            grid.addWidget(said, row, 2, _TOP)

    def _add_names(self, view: KindView) -> None:
        if view.names:
            self._column.addWidget(
                label(
                    tr("Led to by: {list}").format(list=", ".join(view.names)),
                    tone="muted",
                )
            )
        if view.short:
            self._column.addWidget(
                label(
                    tr("Abbreviated: {list}").format(list=", ".join(view.short)),
                    tone="muted",
                )
            )

    def _add_source(self, view: KindView) -> None:
        self._head(tr("Source"))
        for line in view.source.split("; "):
            shown = label(line)
            shown.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            self._column.addWidget(shown)
        self._column.addWidget(
            label(
                tr(
                    "“{from_memory}”: no source was read for it, or it is our "
                    "own reading across sources."
                ).format(from_memory=tr(kind_texts.FROM_MEMORY)),
                tone="muted",
            )
        )

    def _head(self, text: str) -> None:
        self._column.addSpacing(8)
        self._column.addWidget(label(text, tone="head"))
