"""The colours of the window, light and dark: warm paper, dark ink, one accent (aubergine)."""

from dataclasses import dataclass

from PySide6.QtGui import QColor, QPalette


@dataclass(frozen=True, slots=True, kw_only=True)
class Colours:
    """One set of colours. Text stands in ``ink``, ``muted``, ``accent`` or ``alarm``.

    ``paper`` lies behind everything, ``page`` under tables and fields, ``chosen`` under what
    is selected. ``accent_fill`` carries ``on_accent``. ``data`` are the colours of series in
    graphs, from the published Okabe-Ito set (jfly.uni-koeln.de/color, 2008) that people with
    any common colour vision tell apart; each column takes those that stand out from its paper.
    """

    paper: str
    page: str
    ink: str
    muted: str
    line: str
    accent: str
    accent_fill: str
    on_accent: str
    chosen: str
    alarm: str
    data: tuple[str, ...]


LIGHT = Colours(
    paper="#f5f0e6",
    page="#fdfbf6",
    ink="#2a2521",
    muted="#665c53",
    line="#d9cfbf",
    accent="#5d2a50",
    accent_fill="#5d2a50",
    on_accent="#fffdf9",
    chosen="#eadde5",
    alarm="#9c3a00",
    data=("#0072b2", "#d55e00", "#009e73", "#000000"),
)

DARK = Colours(
    paper="#1f1b1a",
    page="#282322",
    ink="#efe8dc",
    muted="#b8ab9e",
    line="#4a413d",
    accent="#d3a9c7",
    accent_fill="#7b4069",
    on_accent="#fffdf9",
    chosen="#4b3446",
    alarm="#f4a06a",
    data=("#56b4e9", "#e69f00", "#009e73", "#f0e442"),
)


def colours_of(palette: QPalette) -> Colours:
    """Return the set of colours that a widget's palette was made from."""
    return DARK if palette.color(QPalette.ColorRole.Window).lightness() < 128 else LIGHT


def palette_of(colours: Colours) -> QPalette:
    """Return the palette of a set of colours."""
    role = QPalette.ColorRole
    palette = QPalette(QColor(colours.paper))
    for names, colour in (
        ((role.Window, role.Button, role.AlternateBase), colours.paper),
        ((role.Base, role.ToolTipBase), colours.page),
        ((role.WindowText, role.Text, role.ButtonText, role.ToolTipText), colours.ink),
        ((role.PlaceholderText,), colours.muted),
        ((role.Highlight,), colours.chosen),
        ((role.HighlightedText,), colours.ink),
        ((role.Accent, role.Link, role.LinkVisited), colours.accent),
        ((role.Mid, role.Midlight), colours.line),
        ((role.BrightText,), colours.alarm),
    ):
        for name in names:
            palette.setColor(name, QColor(colour))
    for name in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, name, QColor(colours.muted))
    return palette
