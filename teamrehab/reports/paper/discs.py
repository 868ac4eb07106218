"""Availability as a drawn sign in ink, as on screen: full disc, half disc, ring, dash."""

from reportlab.lib.colors import HexColor
from reportlab.platypus import Flowable
from typing_extensions import override

from teamrehab.domain.availability import Training
from teamrehab.reports.paper.page import INK


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
        """Draw the sign: by fill alone, so that grey print keeps it."""
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

    def _filled(self, *, half: bool) -> None:
        radius = self.width / 2
        self.canv.setFillColor(HexColor(INK))
        if not half:
            self.canv.circle(radius, radius, radius * 0.9, fill=1)
            return
        self._ring()
        self.canv.wedge(
            radius * 0.1, radius * 0.1, radius * 1.9, radius * 1.9, 180, 180, fill=1
        )
