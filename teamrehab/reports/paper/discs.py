"""Availability as a drawn sign: full disc, half disc, ring, dash. Never by colour alone."""

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable
from typing_extensions import override

from teamrehab.domain.availability import Training
from teamrehab.reports.paper.page import GREEN, INK, ORANGE, PAPER, VERMILLION


class Disc(Flowable):
    """The sign of a training answer; None draws the dash of who is away."""

    def __init__(self, training: Training | None, diameter: float) -> None:
        super().__init__()
        self.training = training
        self.width = self.height = diameter

    @override
    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """Return the size of the sign."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw the sign; its outline is ink, so that grey print keeps it."""
        self.canv.setStrokeColor(HexColor(INK))
        self.canv.setLineWidth(self.width * 0.1)
        if self.training is None:
            self._dash()
        elif self.training is Training.NONE:
            self._ring()
        else:
            self._filled(half=self.training is Training.WITH_LIMITS)

    def _dash(self) -> None:
        middle = self.height / 2
        self.canv.line(self.width * 0.1, middle, self.width * 0.9, middle)

    def _ring(self) -> None:
        radius = self.width / 2
        self.canv.circle(radius, radius, radius * 0.9)
        self.canv.setStrokeColor(HexColor(VERMILLION))
        self.canv.setLineWidth(radius * 0.28)
        self.canv.circle(radius, radius, radius * 0.68)

    def _filled(self, *, half: bool) -> None:
        radius = self.width / 2
        self.canv.setFillColor(HexColor(PAPER if half else GREEN))
        self.canv.circle(radius, radius, radius * 0.9, fill=1)
        if half:
            self.canv.setFillColor(HexColor(ORANGE))
            box = (radius * 0.1, radius * 0.1, radius * 1.9, radius * 1.9)
            self.canv.wedge(*box, 90, 180, fill=1)
