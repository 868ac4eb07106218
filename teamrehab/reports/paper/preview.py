"""A PDF's pages as pictures, drawn from its very bytes: what is seen is what is printed."""

from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pypdfium2


def pages_as_png(pdf: bytes, scale: float = 1.5) -> tuple[bytes, ...]:
    """Return each page as a PNG; ``scale`` 1.0 is 72 dots an inch."""
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        return tuple(_png(page, scale) for page in document)


def _png(page: "pypdfium2.PdfPage", scale: float) -> bytes:
    out = BytesIO()
    page.render(scale=scale).to_pil().save(out, format="PNG")
    return out.getvalue()
