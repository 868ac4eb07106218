"""How an open casebook is kept, in words: how it is protected, and backed up when."""

from zoneinfo import ZoneInfo

from teamrehab.desktop.session import About
from teamrehab.language import _
from teamrehab.reports.wording import day_and_year, hour_words


def protection_words(about: About) -> str:
    """Return how the casebook is protected, in a sentence."""
    if about.protected:
        return _(
            "Encrypted with a key that only a passphrase opens. Turn on your computer's own "
            "disk encryption as well."
        )
    return _("Demo: not protected. Put nobody real in it.")


def backup_words(about: About) -> str:
    """Return when the last backup was made and checked."""
    if about.last_backup is None:
        return _("Last verified backup: none yet; one is made when you lock it.")
    when = about.last_backup.astimezone(ZoneInfo(about.clock.zone))
    return _("Last verified backup: {day}, {hour}").format(
        day=day_and_year(when.date()), hour=hour_words(when)
    )
