"""Free words that the coach will read: said while one types, and checked for medical words."""

from PySide6.QtWidgets import QLineEdit

from teamrehab.desktop.entry.form import Form
from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _
from teamrehab.reports.disclosure import check_free_words


class CoachWords(QLineEdit):
    """A line of words for the coach; what tells something medical is complained about."""

    def __init__(self, form: Form, label: str, hint: str = "") -> None:
        super().__init__()
        said = _("The coach will read this.")
        told = _("{said} {hint}").format(said=said, hint=hint) if hint else said
        self.row = form.add(label, self, told)
        self.textChanged.connect(self._warn)

    @property
    def words(self) -> str:
        """Return the words typed."""
        return self.text().strip()

    def troubles(self) -> list[Implausible]:
        """Return what the coach must not read among these words."""
        found = check_free_words(self.words)
        if not found:
            return []
        return [
            Implausible(
                field=self.accessibleName(),
                value=", ".join(found),
                allowed=_("tells the coach something medical"),
                remedy=_("Say it without."),
            )
        ]

    def _warn(self) -> None:
        self.row.complain("\n".join(str(one) for one in self.troubles()))
