"""Make the fonts of the sheets and of the window out of the variable fonts of font packages.

Run once, after a font changed; the results are kept beside this file:

    python -m venv made && made/bin/pip install fonttools \
        fontpkg-noto-sans==2.15 fontpkg-noto-sans-arabic==2.12 fontpkg-heebo==3.100
    made/bin/python resources/fonts/make_fonts.py made/lib/python3.11/site-packages

Latin, Greek, Cyrillic and Vietnamese come from one font; Arabic and Hebrew letters from two
others. All three are under the SIL Open Font License 1.1, kept beside them as OFL-*.txt.
"""

import shutil
import sys
from dataclasses import dataclass
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

HERE = Path(__file__).parent
LATIN_GREEK_CYRILLIC = [
    (0x0020, 0x024F),  # Latin with its extensions A and B
    (0x0259, 0x0259),  # schwa, used in names
    (0x02B0, 0x036F),  # modifier letters and combining marks
    (0x0370, 0x052F),  # Greek, Cyrillic
    (0x1E00, 0x1EFF),  # Vietnamese and other Latin with two marks
    (0x2000, 0x209F),  # dashes, quotes, raised and lowered figures
    (0x20A0, 0x20CF),
    (0x2100, 0x214F),
    (0x2212, 0x2212),
    (0xFB01, 0xFB02),
    (0xFFFD, 0xFFFD),
]
ARABIC = [(0x0600, 0x06FF), (0x0750, 0x077F), (0xFB50, 0xFDFF), (0xFE70, 0xFEFC)]
HEBREW = [(0x0590, 0x05FF), (0xFB1D, 0xFB4F)]


@dataclass(frozen=True)
class Cut:
    """One static font: from which file, at which place of its axes, with which letters."""

    source: str
    axes: dict[str, float]
    letters: list[tuple[int, int]]
    licence: str
    features: tuple[str, ...] = ("kern", "mark", "mkmk", "ccmp", "locl")


_NOTO = "fontpkg_noto_sans/files/NotoSans[wdth,wght].ttf"
_ARABIC = "fontpkg_noto_sans_arabic/files/NotoSansArabic[wdth,wght].ttf"
_HEBREW = "fontpkg_heebo/files/Heebo[wght].ttf"
CUTS = {
    "NotoSans-Regular.ttf": Cut(
        _NOTO, {"wght": 400, "wdth": 100}, LATIN_GREEK_CYRILLIC, "NotoSans"
    ),
    "NotoSans-SemiBold.ttf": Cut(
        _NOTO, {"wght": 600, "wdth": 100}, LATIN_GREEK_CYRILLIC, "NotoSans"
    ),
    "NotoSansArabic-SemiBold.ttf": Cut(
        _ARABIC, {"wght": 600, "wdth": 100}, ARABIC, "NotoSansArabic", ()
    ),
    "Heebo-SemiBold.ttf": Cut(_HEBREW, {"wght": 600}, HEBREW, "Heebo", ()),
}


def make(cut: Cut, packages: Path, to: Path) -> None:
    """Write one static font that holds only the letters asked for."""
    font = TTFont(packages / cut.source, recalcTimestamp=False)
    font = instantiateVariableFont(font, cut.axes, updateFontNames=True)
    options = Options(layout_features=list(cut.features), hinting=False, notdef_outline=True)
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[code for a, b in cut.letters for code in range(a, b + 1)])
    subsetter.subset(font)
    font.save(to)
    licence = (packages / cut.source).parent.parent / "LICENSE"
    shutil.copyfile(licence, to.parent / f"OFL-{cut.licence}.txt")


if __name__ == "__main__":
    for name, wanted in CUTS.items():
        make(wanted, Path(sys.argv[1]), HERE / name)
