"""Where the files that travel with the program lie: beside a clone, or inside a built wheel."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _beside_or_inside(name: str) -> Path:
    """Return the folder as it lies in a clone, else its copy inside the installed package."""
    inside = _PACKAGE / "_files" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


MIGRATIONS = _beside_or_inside("migrations")
RESOURCES = _beside_or_inside("resources")
DEMO_ROSTER = _beside_or_inside("demo_roster")
