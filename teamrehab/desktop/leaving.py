"""Asked before what was typed is lost; keeping on typing is the default."""

from PySide6.QtWidgets import QMessageBox, QWidget

from teamrehab.language import _


class Leaving(QMessageBox):
    """``clickedButton()`` is ``leave`` where a person lets go of what was typed."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(_("What you typed is not saved yet."))
        self.keep = self.addButton(_("&Keep typing"), QMessageBox.ButtonRole.RejectRole)
        self.leave = self.addButton(
            _("Leave &without saving"), QMessageBox.ButtonRole.DestructiveRole
        )
        self.setDefaultButton(self.keep)
        self.setEscapeButton(self.keep)
