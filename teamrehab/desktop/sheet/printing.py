"""Pages on a printer, through the system's own print dialog."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter


def new_printer() -> "QPrinter":
    """Return a printer set to A4; its job is named without a word about anyone."""
    from PySide6.QtPrintSupport import QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.A4))
    printer.setPageOrientation(QPageLayout.Orientation.Portrait)
    printer.setDocName("sheet")
    printer.setFullPage(True)
    return printer


def print_pages(printer: "QPrinter", pictures: Sequence[QImage]) -> bool:
    """Print these pages, each as large as the paper; False if the printer refuses."""
    painter = QPainter()
    if not painter.begin(printer):
        return False
    for number, image in enumerate(pictures):
        if number:
            printer.newPage()
        paper = QRectF(printer.pageLayout().paintRectPixels(printer.resolution()))
        scale = min(paper.width() / image.width(), paper.height() / image.height())
        painter.drawImage(QRectF(0, 0, image.width() * scale, image.height() * scale), image)
    return painter.end()
