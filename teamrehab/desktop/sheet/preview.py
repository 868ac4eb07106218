"""The sheet as it will be printed: its pages as pictures, as wide as there is room."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPixmap, QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.language import _


class Preview(QScrollArea):
    """Shows pages; ``words`` is the same sheet as text, for a screen reader."""

    def __init__(self) -> None:
        super().__init__()
        self._pages: list[QImage] = []
        self._labels: list[QLabel] = []
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAccessibleName(_("Preview of the sheet"))
        inner = QWidget()
        self._column = QVBoxLayout(inner)
        self._column.setSpacing(Space.APART)
        self._column.addStretch(1)
        self.setWidget(inner)

    @property
    def pages(self) -> int:
        """Return how many pages are shown."""
        return len(self._pages)

    def show_pages(self, pictures: Sequence[QImage], words: str) -> None:
        """Show these pages."""
        self.setAccessibleDescription(words)
        self._pages = list(pictures)
        for label in self._labels:
            self._column.removeWidget(label)
            label.deleteLater()
        self._labels = [QLabel() for _page in self._pages]
        for number, label in enumerate(self._labels):
            label.setAlignment(Qt.AlignmentFlag.AlignHCenter)
            label.setAccessibleName(_("Page {number}").format(number=number + 1))
            self._column.insertWidget(number, label)
        self._fit()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        """Draw each page as wide as there is room, sharp on fine screens too."""
        wide = self.viewport().width() - 2 * Space.APART
        dense = self.devicePixelRatioF()
        for image, label in zip(self._pages, self._labels, strict=True):
            width = min(wide, image.width())
            smooth = Qt.TransformationMode.SmoothTransformation
            picture = QPixmap.fromImage(image.scaledToWidth(int(width * dense), smooth))
            picture.setDevicePixelRatio(dense)
            label.setPixmap(picture)
