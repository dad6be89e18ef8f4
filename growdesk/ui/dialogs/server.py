"""Ask for a collection on a server: where it is, who opens it, where its photos lie.

The password is asked for here and kept nowhere: what is left of the form is no draft.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QDialogButtonBox, QFileDialog, QLineEdit
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.server_address import ServerAddress
from growdesk.domain.speech import tr
from growdesk.ui import sizes
from growdesk.ui.dialogs.base import FormDialog
from growdesk.ui.widgets.parts import button, label

if TYPE_CHECKING:
    from PySide6.QtWidgets import QPushButton, QWidget

    from growdesk.services.whereabouts import OnServer

_WIDE_PX = 560
_PORTS = range(1, 65536)
_SSL = "sslmode"


class ServerDraft(Struct, frozen=True):
    """What was asked for: ``photos`` is the shared folder, empty for none named."""

    address: ServerAddress
    photos: str
    next_start: bool
    create: bool


class ServerDialog(FormDialog):
    """One server. At the start it also leads to the folder here, or out."""

    try_wanted = Signal(object)
    folder_wanted = Signal()

    def __init__(
        self,
        parent: QWidget | None,
        known: OnServer | None,
        *,
        next_start: bool = True,
        line: str = "",
        at_start: bool = False,
        back: bool = False,
    ) -> None:
        super().__init__(parent, tr("A collection on a server"), tr("&Open"))
        self._known = known
        told = tr(
            "For a second computer that writes, or several people who tick. Who keeps"
            " the server tells you these; the handbook says when it is worth it (F1)."
        )
        self.top.insertWidget(0, label(told, tone="muted"))
        self._fields()
        if known is not None:
            self._show(known)
        self.next_start.setChecked(next_start)
        self._foot(at_start=at_start, back=back)
        sizes.least_wide(self, _WIDE_PX)
        self.begin()
        if line:
            self.complain(line)
        first = self.password if known is not None else self.host
        first.setFocus()

    @override
    def draft(self) -> ServerDraft:
        host = self._needed("host", self.host, tr("Such as bench.local, or 10.0.0.7."))
        name = self._needed("database", self.database, tr("Such as orchids."))
        port = self.port.text().strip()
        if port and (not port.isdecimal() or int(port) not in _PORTS):
            hint = tr("Leave it empty for the usual one, 5432.")
            raise InputError("port", port, tr("is no port"), hint)
        before = () if self._known is None else self._known.address.options
        kept = [(key, value) for key, value in before if key != _SSL]
        mode = str(self.secured.currentData())
        return ServerDraft(
            ServerAddress(
                host,
                name,
                self.user.text().strip(),
                int(port) if port else None,
                self.password.text(),
                (*kept, *([(_SSL, mode)] if mode else [])),
            ),
            self.photos.text().strip(),
            self.next_start.isChecked(),
            self.make_new.isChecked(),
        )

    @override
    def kept(self) -> object:
        """Keep nothing: a password is in it."""
        return {}

    def say(self, text: str) -> None:
        """Say what a try came to; all can be pressed again."""
        self.complain("")
        self._said.setText(text)
        self._said.setVisible(bool(text))
        self.save_button.setEnabled(True)
        self.try_button.setEnabled(True)

    @override
    def refused(self, error: Exception) -> None:
        self.say("")
        super().refused(error)

    # -- building -------------------------------------------------------------------

    def _fields(self) -> None:
        form = self.form
        self.host = form.line("host", tr("&Server"), "bench.local")
        self.port = form.line("port", tr("Por&t"), "5432")
        self.database = form.line("database", tr("Data&base"), "orchids")
        self.user = form.line("user", tr("&User"))
        self.password = form.line("password", tr("&Password"))
        self.password.setEchoMode(QLineEdit.EchoMode.Password)
        form.note(tr("Only where the server asks for one; it is not kept."))
        modes = (
            ("", tr("where the server offers it")),
            ("require", tr("always")),
            ("verify-full", tr("always, and the server proves who it is")),
        )
        self.secured = form.combo("secured", tr("&Encrypted"), modes)
        self.photos = form.line("photos", tr("Shared &folder of the photos"))
        self.choose_button = button(tr("&Choose…"), self._choose)
        form.under(self.choose_button)
        form.note(
            tr(
                "All who use the collection reach it; backups lie there too. Left"
                " empty, photos are kept on this computer only."
            )
        )
        self.next_start = QCheckBox(tr("Open it at the &next start too"))
        self.make_new = QCheckBox(tr("&Make a new collection if the database is empty"))
        form.wide(self.next_start)
        form.wide(self.make_new)
        form.end()
        self.body.addWidget(form)
        self._said = label("")
        self._said.hide()
        self.body.addWidget(self._said)

    def _show(self, known: OnServer) -> None:
        address = known.address
        self.host.setText(address.host)
        self.port.setText("" if address.port is None else str(address.port))
        self.database.setText(address.database)
        self.user.setText(address.user)
        mode = dict(address.options).get(_SSL, "")
        self.secured.setCurrentIndex(max(self.secured.findData(mode), 0))
        self.photos.setText(str(known.folder))

    def _foot(self, *, at_start: bool, back: bool) -> None:
        role = QDialogButtonBox.ButtonRole.ActionRole
        self.try_button: QPushButton = button(tr("T&ry the connection"), self._try)
        self.buttons.addButton(self.try_button, role)
        if at_start or back:
            here = button(tr("The collection on t&his computer"), self._go_here)
            self.buttons.addButton(here, role)
        if at_start:
            quits = self.buttons.button(QDialogButtonBox.StandardButton.Cancel)
            quits.setText(tr("&Quit"))

    def _needed(self, field: str, editor: QLineEdit, hint: str) -> str:
        text = editor.text().strip()
        if not text:
            raise InputError(field, text, tr("is empty"), hint)
        return text

    def _choose(self) -> None:
        begin = self.photos.text() or str(Path.home())
        chooser = QFileDialog(self, tr("Shared folder of the photos"), begin)
        chooser.setFileMode(QFileDialog.FileMode.Directory)
        chooser.setOption(QFileDialog.Option.ShowDirsOnly)
        chooser.fileSelected.connect(self.photos.setText)
        chooser.open()

    def _go_here(self) -> None:
        self.folder_wanted.emit()

    def _try(self) -> None:
        self.complain("")
        self.form.clear_errors()
        try:
            draft = self.draft()
        except InputError as error:
            self.refused(error)
            return
        self.try_button.setEnabled(False)
        self.try_wanted.emit(draft)
