"""The frame of every page: size, colours, type, numbering; from drawn parts to PDF bytes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Flowable, Frame, PageTemplate, Paragraph
from typing_extensions import override

from teamrehab.language import _
from teamrehab.reports.paper.letters import HEAVY, REGULAR, marked, register_fonts

WIDTH, HEIGHT = A4
MARGIN = 30.0
FOOT = 16.0
BODY_WIDTH = WIDTH - 2 * MARGIN
BODY_HEIGHT = HEIGHT - 2 * MARGIN - FOOT

INK = "#1F1B18"
MUTED = "#5A524C"
RULE = "#BDB3A8"
TINT = "#F1ECE6"
ACCENT = "#5B2A4E"
PAPER = "#FFFFFF"

_TRIES = 4
_FULL_ENOUGH = 1.05
"""A page that is full to one part in twenty is not worth another try."""

Command = tuple[str, tuple[int, int], tuple[int, int], *tuple[Any, ...]]
Style = list[Command]
"""What a table of the paper library takes as its style."""


@dataclass(frozen=True, slots=True)
class Size:
    """The type of a sheet at one scale, in points; 1.0 is meant for a wall."""

    scale: float = 1.0

    def of(self, points: float) -> float:
        """Return a length at this scale."""
        return points * self.scale

    def style(
        self,
        points: float,
        *,
        heavy: bool = False,
        colour: str = INK,
        lead: float = 1.28,
        align: Any = TA_LEFT,
    ) -> ParagraphStyle:
        """Return a style of so many points."""
        register_fonts()
        return ParagraphStyle(
            "sheet",
            fontName=HEAVY if heavy else REGULAR,
            fontSize=self.of(points),
            leading=self.of(points) * lead,
            textColor=HexColor(colour),
            alignment=align,
            splitLongWords=1,
        )


def words(text: str, style: ParagraphStyle) -> Paragraph:
    """Return a text as a paragraph. The only place where one is made: all text is escaped."""
    return Paragraph(marked(text), style)


def height_of(parts: Sequence[Flowable]) -> float:
    """Return the height that drawn parts take one below the other."""
    total = 0.0
    for part in parts:
        total += part.wrap(BODY_WIDTH, 10 * HEIGHT)[1]
        total += part.getSpaceBefore() + part.getSpaceAfter()
    return total


def fitted(
    build: Callable[[Size], list[Flowable]], largest: float, smallest: float
) -> list[Flowable]:
    """Return the parts at about the largest scale that fits on one page.

    Where even the smallest scale needs more, the parts for several pages, at full size.
    """
    parts, room = _tried(build, largest)
    if room >= 1:
        return parts
    best, room_at_smallest = _tried(build, smallest)
    if room_at_smallest < 1:
        return build(Size())
    fits, too_large, guess = smallest, largest, largest * room**0.7
    for _again in range(_TRIES):
        scale = guess if fits < guess < too_large else (fits + too_large) / 2
        parts, room = _tried(build, scale)
        if room >= 1:
            best, fits = parts, scale
        else:
            too_large = scale
        if 1 <= room < _FULL_ENOUGH:
            break
        guess = scale * room**0.7
    return best


def _tried(
    build: Callable[[Size], list[Flowable]], scale: float
) -> tuple[list[Flowable], float]:
    """Return the parts at one scale, and how often their height would go on the page."""
    parts = build(Size(scale))
    return parts, BODY_HEIGHT / height_of(parts)


def pdf_of(parts: list[Flowable], *, title: str, running_head: str) -> bytes:
    """Return the PDF of these parts; the same parts give the same bytes.

    ``title`` is all the file says of itself; ``running_head`` stands on every page but the
    first.
    """
    out = BytesIO()
    document = BaseDocTemplate(
        out,
        pagesize=A4,
        title=title,
        author="",
        subject="",
        creator="teamrehab",
        invariant=1,
        pageCompression=1,
        leftMargin=MARGIN,
        rightMargin=MARGIN,
    )
    frame = Frame(MARGIN, MARGIN + FOOT, BODY_WIDTH, BODY_HEIGHT, 0, 0, 0, 0, showBoundary=0)
    document.addPageTemplates(PageTemplate("page", [frame]))
    document.build(parts, canvasmaker=lambda *a, **k: _Numbered(running_head, *a, **k))
    return out.getvalue()


class _Numbered(Canvas):
    """Writes "page x of y" once the number of pages is known."""

    def __init__(self, running_head: str, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._running_head = running_head
        self._finished: list[dict[str, Any]] = []

    @override
    def showPage(self) -> None:
        self._finished.append(dict(self.__dict__))
        self._startPage()  # type: ignore[attr-defined]  # reportlab's own recipe

    @override
    def save(self) -> None:
        for number, page in enumerate(self._finished, start=1):
            self.__dict__.update(page)
            self._foot(number, len(self._finished))
            super().showPage()
        super().save()

    def _foot(self, number: int, pages: int) -> None:
        left = self._running_head if number > 1 else _("For the coaching staff only")
        right = _("page {number} of {pages}").format(number=number, pages=pages)
        self._line(left, Size().style(8, colour=MUTED))
        self._line(right, Size().style(8, colour=MUTED, align=TA_RIGHT))

    def _line(self, text: str, style: ParagraphStyle) -> None:
        line = words(text, style)
        line.wrap(BODY_WIDTH, FOOT)
        line.drawOn(self, MARGIN, MARGIN)
