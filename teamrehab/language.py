"""Every word a person reads passes through here: stdlib gettext, one catalogue a language."""

import gettext

from teamrehab.locations import RESOURCES

_catalogue: gettext.NullTranslations = gettext.NullTranslations()


def speak(language: str) -> None:
    """Use the catalogue of ``language`` (an ISO 639-1 code); English where there is none."""
    use(gettext.translation("teamrehab", RESOURCES / "translations", [language], fallback=True))


def use(catalogue: gettext.NullTranslations) -> None:
    """Use ``catalogue`` for every word asked for from now on."""
    global _catalogue  # noqa: PLW0603  one language a program run, as gettext itself keeps it
    _catalogue = catalogue


def _(text: str) -> str:
    """Return ``text`` in the language in use."""
    return _catalogue.gettext(text)


def counted(one: str, many: str, count: int) -> str:
    """Return ``one`` or ``many`` in the language in use, with ``{count}`` filled in."""
    return _catalogue.ngettext(one, many, count).format(count=count)
