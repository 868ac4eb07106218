"""Can a window be shown here? Asked before anything of Qt is imported."""

import ctypes
import os
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

from teamrehab.language import _

WINDOW_LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libfontconfig.so.1": "libfontconfig1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libX11.so.6": "libx11-6",
    "libgssapi_krb5.so.2": "libgssapi-krb5-2",
}
"""What Qt's own libraries need from the system, and the Debian package of each."""

X11_LIBRARIES = {
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
"""What Qt needs besides to talk to an X display."""

_WITHOUT_DISPLAY = ("offscreen", "minimal", "vnc")


def missing(
    environ: Mapping[str, str] = os.environ,
    load: Callable[[str], object] = ctypes.CDLL,
    answers: Callable[[str], bool] | None = None,
) -> str:
    """Return a sentence on what keeps a window from being shown here, "" if nothing does.

    ``load`` loads a shared library by name or raises OSError; ``answers`` says whether an X
    display can be reached.
    """
    if not sys.platform.startswith("linux"):
        return ""
    platform = environ.get("QT_QPA_PLATFORM", "").partition(":")[0]
    screenless = platform in _WITHOUT_DISPLAY
    on_x11 = not screenless and not _wayland(environ)
    lacking = _lacking(WINDOW_LIBRARIES | (X11_LIBRARIES if on_x11 else {}), load)
    if lacking:
        return _no_libraries(lacking)
    if on_x11 and not (answers or _x_answers)(environ.get("DISPLAY", "")):
        return _no_display()
    return ""


def _lacking(libraries: Mapping[str, str], load: Callable[[str], object]) -> list[str]:
    """Return the packages of the libraries that cannot be loaded."""
    packages = []
    for library, package in libraries.items():
        try:
            load(library)
        except OSError:
            packages.append(package)
    return packages


def _wayland(environ: Mapping[str, str]) -> bool:
    name, folder = environ.get("WAYLAND_DISPLAY", ""), environ.get("XDG_RUNTIME_DIR", "")
    return bool(name) and (Path(folder) / name).exists()


def _x_answers(display: str) -> bool:
    """Return whether an X display lets us in; Qt itself would end the program if not."""
    if not display:
        return False
    xcb = ctypes.CDLL("libxcb.so.1")
    xcb.xcb_connect.restype = ctypes.c_void_p
    connection = ctypes.c_void_p(xcb.xcb_connect(display.encode(), None))
    refused: int = xcb.xcb_connection_has_error(connection)
    xcb.xcb_disconnect(connection)
    return refused == 0


def _no_libraries(packages: list[str]) -> str:
    return _(
        "The window needs system libraries that are not here: {packages} (Debian's names). "
        "Install them, or work without a window: python -m teamrehab demo --text"
    ).format(packages=" ".join(packages))


def _no_display() -> str:
    return _(
        "There is no display to show a window on. Start it from a desktop, or work without a "
        "window: python -m teamrehab demo --text"
    )
