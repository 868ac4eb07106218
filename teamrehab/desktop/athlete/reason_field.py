"""The reason for what a person decides: a line in the form, kept beside the fact."""

from PySide6.QtWidgets import QLineEdit

from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.typed import Reading
from teamrehab.language import _


class ReasonField(QLineEdit):
    """Adds itself to a form; ``words`` is what was typed."""

    def __init__(self, form: Form, hint: str = "") -> None:
        super().__init__()
        self._label = _("&Reason")
        form.add(self._label, self, hint)

    @property
    def words(self) -> str:
        """Return the reason typed."""
        return self.text().strip()

    def insist(self, reading: Reading) -> None:
        """Make an empty reason trouble."""
        reading.words(self, self._label)
