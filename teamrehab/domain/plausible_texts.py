"""Every text of a value is looked at: its length, and signs that cannot be seen."""

from dataclasses import fields
from typing import Any

from teamrehab.domain.implausible import Found, unfit
from teamrehab.domain.written import NAME, NOTE
from teamrehab.language import _

_NOTES = frozenset({"what", "text", "why"})
"""Fields that may run over several lines."""


def texts(value: Any) -> Found:
    """Yield what is wrong with the texts of a value of the domain."""
    for each in fields(value):
        text = getattr(value, each.name)
        if isinstance(text, str):
            note = each.name in _NOTES
            field = field_words(each.name)
            yield from unfit(field, text, NOTE if note else NAME, one_line=not note)


def field_words(name: str) -> str:
    """Return how the forms word a text field; a field no form shows keeps its own name."""
    words = {
        "name": _("Name"),
        "surname": _("Surname"),
        "first_name": _("First name"),
        "printed_name": _("Printed name"),
        "position": _("Position"),
        "sport": _("Sport"),
        "zone": _("Time zone"),
        "area": _("Part of the body"),
        "what": _("What happened"),
        "text": _("Note"),
        "why": _("Reason"),
        "surface": _("Surface"),
        "shoe": _("Shoe"),
        "tester": _("Tester"),
        "match_role": _("Role in the match"),
        "limit": _("Limit"),
        "sentence": _("Sentence for the coach"),
        "consent_taken_by": _("Consent taken by"),
        "opponent": _("Opponent"),
        "signed_by": _("Signed by"),
        "closed_by": _("Closed by"),
        "site": _("Site"),
        "tender_where": _("Tender where"),
    }
    return words.get(name, name.replace("_", " "))
