"""Whether a window can be shown is known before Qt is imported."""

import subprocess
import sys
from pathlib import Path

import pytest

from teamrehab.desktop.display import WINDOW_LIBRARIES, X11_LIBRARIES, missing

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="Linux only")


def loads_all(_library):
    return object()


def without(*absent):
    def load(library):
        if library in absent:
            raise OSError(library)
        return object()

    return load


def test_with_libraries_and_a_display_nothing_is_missing():
    assert missing({"DISPLAY": ":0"}, loads_all, lambda _display: True) == ""


def test_missing_libraries_are_named_by_package_with_the_way_on():
    absent = ("libEGL.so.1", "libxcb-cursor.so.0")
    words = missing({"DISPLAY": ":0"}, without(*absent), lambda _display: True)
    assert "libegl1 libxcb-cursor0" in words
    assert "python -m teamrehab demo --text" in words


def test_off_screen_needs_neither_display_nor_x_libraries():
    off = {"QT_QPA_PLATFORM": "offscreen"}
    assert missing(off, without(*X11_LIBRARIES), lambda _display: False) == ""
    assert "libgl1" in missing(off, without("libGL.so.1"), lambda _display: False)


def test_on_wayland_no_x_library_is_asked_for(tmp_path):
    (tmp_path / "wayland-0").touch()
    here = {"WAYLAND_DISPLAY": "wayland-0", "XDG_RUNTIME_DIR": str(tmp_path)}
    assert missing(here, without(*X11_LIBRARIES), lambda _display: False) == ""
    gone = here | {"WAYLAND_DISPLAY": "wayland-9"}
    assert "libxcb-cursor0" in missing(gone, without(*X11_LIBRARIES), lambda _display: False)


@pytest.mark.parametrize("environ", [{}, {"DISPLAY": ":98765"}])
def test_without_a_display_that_answers_it_says_so(environ):
    assert "no display" in missing(environ, without())


def test_nothing_of_qt_is_imported_to_find_out():
    code = (
        "import sys; from teamrehab.desktop.display import missing; missing();"
        "print([m for m in sys.modules if m.startswith(('PySide6', 'shiboken'))])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


def test_every_library_qt_asks_the_system_for_is_in_the_table():
    from pathlib import Path

    import PySide6

    folder = Path(PySide6.__file__).parent / "Qt"
    needed = set()
    for file in (
        "lib/libQt6Gui.so.6",
        "lib/libQt6Widgets.so.6",
        "plugins/platforms/libqxcb.so",
    ):
        found = subprocess.run(
            ["ldd", folder / file], capture_output=True, text=True, check=True
        ).stdout
        needed |= {line.split()[0] for line in found.splitlines() if "=>" in line}
    ours = {
        name for name in needed if name.startswith(("libxcb-", "libEGL", "libGL.", "libxkb"))
    }
    indirect = {"libxcb-util.so.1", "libxcb-render.so.0", "libxcb-shm.so.0", "libxcb-sync.so.1",
                "libxcb-xfixes.so.0"}  # fmt: skip
    assert ours - indirect <= set(WINDOW_LIBRARIES | X11_LIBRARIES)


def test_the_readme_names_every_library_the_window_needs():
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    (line,) = [line for line in readme.splitlines() if line.startswith("apt-get install ")]
    needed = {*WINDOW_LIBRARIES.values(), *X11_LIBRARIES.values()}
    assert set(line.split()[2:]) == needed
