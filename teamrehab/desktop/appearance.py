"""How the window looks: sizes, type, one style sheet, light and dark."""

from enum import IntEnum, StrEnum
from html import escape
from string import Template

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QFont, QFontDatabase
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from teamrehab.desktop.colours import DARK, LIGHT, Colours, palette_of
from teamrehab.locations import RESOURCES

FAMILY = "Noto Sans"
"""The font that travels with the program; the system's own where it is absent."""


class Space(IntEnum):
    """Distances in device-independent pixels; nothing in the window uses another."""

    HAIR = 2
    TIGHT = 4
    NEAR = 8
    APART = 16
    WIDE = 24
    PAGE = 40


class Type(StrEnum):
    """The roles a text can have; the value is the ``type`` property the style sheet reads."""

    DISPLAY = "display"
    TITLE = "title"
    LEAD = "lead"
    BODY = "body"
    SMALL = "small"
    COMPLAINT = "complaint"


SCALE_PT = {
    Type.DISPLAY: 22.0,
    Type.TITLE: 15.0,
    Type.LEAD: 12.0,
    Type.BODY: 10.5,
    Type.SMALL: 9.0,
}
"""Size of each role in points."""

ROW_HEIGHT = 1.9
"""Height of a table row, in heights of its font."""

_STAND_APART = '<p style="margin: 0; line-height: 115%">{words}</p>'
"""How lines of running text stand; our font is generous by itself."""


class Scheme(StrEnum):
    """What a person can choose in the View menu."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"


class Appearance(QObject):
    """Dresses the application and follows the system's light and dark.

    ``changed`` comes after palette and style sheet are in place, for what paints itself.
    """

    changed = Signal()

    def __init__(self, application: QApplication, scheme: Scheme = Scheme.SYSTEM) -> None:
        super().__init__(application)
        self._application = application
        self.scheme = scheme
        self._worn: Colours | None = None
        application.setStyle("fusion")
        application.setFont(body_font())
        application.styleHints().colorSchemeChanged.connect(self._dress)
        self._dress()

    def choose(self, scheme: Scheme) -> None:
        """Use another choice from now on."""
        self.scheme = scheme
        if self.colours() is not self._worn:
            self._dress()

    def colours(self) -> Colours:
        """Return the colours that the choice and the system ask for now."""
        if self.scheme is Scheme.SYSTEM:
            system = self._application.styleHints().colorScheme()
            return DARK if system is Qt.ColorScheme.Dark else LIGHT
        return DARK if self.scheme is Scheme.DARK else LIGHT

    def _dress(self) -> None:
        """Put on palette and style sheet.

        The old sheet comes off first: with one sheet in another's place Qt dresses every
        widget once for each widget it lies in.
        """
        colours = self._worn = self.colours()
        self._application.setStyleSheet("")
        self._application.setPalette(palette_of(colours))
        self._application.setStyleSheet(style_sheet(colours))
        self.changed.emit()


def register_fonts() -> bool:
    """Make the fonts that travel with the program known to Qt; False if none is there."""
    files = sorted((RESOURCES / "fonts").glob("NotoSans-*.ttf"))
    known = [QFontDatabase.addApplicationFont(str(file)) for file in files]
    return any(number >= 0 for number in known)


def body_font() -> QFont:
    """Return the font of running text and tables, in our family or the system's."""
    font = QFont(QApplication.font())
    if register_fonts():
        font.setFamilies([FAMILY, *font.families()])
    font.setPointSizeF(SCALE_PT[Type.BODY])
    font.setFeature(QFont.Tag("tnum"), 1)
    return font


def style_sheet(colours: Colours) -> str:
    """Return the style sheet of the whole application in these colours."""
    sizes = {f"{role}_pt": f"{size}pt" for role, size in SCALE_PT.items()}
    spaces = {space.name.lower(): f"{space.value}px" for space in Space}
    names = {name: getattr(colours, name) for name in Colours.__slots__ if name != "data"}
    file = RESOURCES / "window.qss"
    return Template(file.read_text(encoding="utf-8")).substitute(sizes | spaces | names)


def prose(words: str, role: Type = Type.BODY) -> QLabel:
    """Return a label for running text: it wraps, and its lines stand well apart."""
    label = QLabel(_STAND_APART.format(words=escape(words)))
    label.setTextFormat(Qt.TextFormat.RichText)
    label.setWordWrap(True)
    as_type(label, role)
    return label


def as_type(widget: QWidget, role: Type) -> None:
    """Give a widget the size and weight of a role."""
    widget.setProperty("type", role.value)
    widget.style().unpolish(widget)
    widget.style().polish(widget)


def text(words: str, role: Type = Type.BODY) -> QLabel:
    """Return a label; it shows its words as they are, never as markup."""
    label = QLabel(words)
    label.setTextFormat(Qt.TextFormat.PlainText)
    as_type(label, role)
    return label
