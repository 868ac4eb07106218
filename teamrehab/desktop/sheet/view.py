"""The sheet's preview with what can be done about it beside."""

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import main_button, plain_button, quiet_button
from teamrehab.desktop.forms import form_layout, row
from teamrehab.desktop.sheet.drawing import Drawn
from teamrehab.desktop.sheet.preview import Preview
from teamrehab.desktop.trouble import Notice
from teamrehab.language import _
from teamrehab.reports.disclosure import signature_sentences
from teamrehab.reports.findings import CoachSheet
from teamrehab.reports.wording import day_words
from teamrehab.reports.wording_closing import misled_words
from teamrehab.tasks.sheets import kept_off


class SheetView(QObject):
    """Shows one drawn sheet; its signals ask for what the buttons say."""

    printing = Signal()
    saving_pdf = Signal()
    saving_text = Signal()
    disclosing = Signal()

    def __init__(self, dialog: QWidget, me: str) -> None:
        super().__init__(dialog)
        self._me = me
        self._drawn: Drawn | None = None
        self.preview, self.notice = Preview(), Notice()
        self.signature = QLineEdit()
        self.signature.setPlaceholderText(me)
        words = _("&Sign as {name}").format(name=me.replace("&", "&&"))
        self.sign = quiet_button(words, self._sign)
        self.about, self.told = text("", Type.SMALL), text("", Type.BODY)
        self.kept_off, self.misled = text("", Type.COMPLAINT), text("", Type.COMPLAINT)
        self._warned_of: tuple[str, ...] = ()
        for label in (self.about, self.told, self.kept_off, self.misled):
            label.setWordWrap(True)
        self.print = main_button(_("&Print..."), self.printing.emit)
        self.pdf = plain_button(_("Save as P&DF..."), self.saving_pdf.emit)
        self.plain_text = plain_button(_("Save as &text..."), self.saving_text.emit)
        self.disclose = plain_button(
            _("Add what an &athlete agreed to..."), self.disclosing.emit
        )
        self._lay_out(dialog)

    def show_sheet(self, drawn: Drawn) -> None:
        """Show a sheet as it would go out now."""
        self._drawn, sheet = drawn, drawn.sheet
        self.preview.show_pages(drawn.pages, drawn.words)
        self.about.setText(_about(drawn))
        lines = kept_off(drawn.board)
        self.kept_off.setText("\n".join(lines))
        self.kept_off.setVisible(bool(lines))
        self.misled.setText(misled_words(drawn.misled))
        self.misled.setVisible(bool(drawn.misled))
        if sheet.signed == self.signed:
            self._judge()

    @property
    def signed(self) -> str:
        """Return the signature typed."""
        return self.signature.text().strip()

    def may_go_out(self, sheet: CoachSheet | None) -> bool:
        """Return whether a sheet is signed as it stands here; else say at the field why not.

        Who is stopped while the sheet lets them train is said first: the same button again
        hands it out all the same.
        """
        trouble = self._trouble()
        if not self.signed:
            trouble = _("A sheet goes out signed: type who signs it.")
        elif not trouble and (sheet is None or sheet.signed != self.signed):
            trouble = _("The sheet is being drawn with this name. Press the button again.")
        trouble = trouble or self._warning()
        self._row.complain(trouble)
        if trouble:
            self.signature.setFocus(Qt.FocusReason.OtherFocusReason)
        return not trouble

    def tell(self, words: str) -> None:
        """Say what became of the sheet."""
        self.told.setText(words)
        self.told.setAccessibleName(words)

    def _sign(self) -> None:
        self.signature.setText(self._me)

    def _judge(self) -> None:
        """Say while one types what the coach must not read."""
        self._row.complain(self._trouble())

    def _trouble(self) -> str:
        """Return what the coach must not read in the signature; names of staff are free."""
        if self._drawn is None:
            return ""
        return "\n".join(signature_sentences(self._drawn.board.squad, self.signed))

    def _warning(self) -> str:
        """Return who is stopped while this sheet lets them train, once for the same names."""
        names = () if self._drawn is None else self._drawn.misled
        if not names or names == self._warned_of:
            return ""
        self._warned_of = names
        ask = _("State their availability first, or press the button again.")
        return "\n".join((misled_words(names), ask))

    def _lay_out(self, dialog: QWidget) -> None:
        beside = QWidget()
        beside.setMaximumWidth(320)
        column = QVBoxLayout(beside)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(text(_("Coach's sheet"), Type.TITLE))
        column.addWidget(self.about)
        fields = QWidget()
        hint = _("Nothing medical stands on this sheet. Look it through before it goes out.")
        self._row = row(form_layout(fields), _("&Signed by"), self.signature, hint)
        self.signature.textChanged.connect(self._judge)
        column.addWidget(fields)
        column.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(self.misled)
        column.addWidget(self.kept_off)
        for button in (self.print, self.pdf, self.plain_text, self.disclose):
            column.addWidget(button)
        column.addWidget(self.notice)
        column.addWidget(self.told)
        column.addStretch(1)
        line = QHBoxLayout(dialog)
        line.setContentsMargins(Space.APART, Space.APART, Space.APART, Space.APART)
        line.setSpacing(Space.APART)
        line.addWidget(self.preview, 1)
        line.addWidget(beside)


def _about(drawn: Drawn) -> str:
    sheet = drawn.sheet
    fields = {"number": sheet.number, "until": day_words(sheet.valid_until)}
    if sheet.replaces is None:
        return _("Sheet {number}, valid until {until}.").format(**fields)
    return _("Sheet {number}, replaces {old}, valid until {until}.").format(
        old=sheet.replaces, **fields
    )
