"""The encrypted casebook: facts written once, read back as they stand. This is its door.

What needs the database is imported when it is first asked for, so that the page that asks for
the passphrase need not wait for it.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from teamrehab.records.errors import (
    BackupFailedError,
    CasebookDamagedError,
    CasebookOpenElsewhereError,
    DiskFullError,
    EmptyPassphraseError,
    FolderNotEmptyError,
    FolderNotWritableError,
    NewerCasebookError,
    NotACasebookError,
    NotSavedError,
    NotUndoneError,
    RecordsError,
    ReplacedMeanwhileError,
    SlotDamagedError,
    UnknownCaseError,
    UnwritableTextError,
    WrongPassphraseError,
)
from teamrehab.records.keys import Cost, is_protected, people_of
from teamrehab.records.whole_files import write_whole

if TYPE_CHECKING:
    from teamrehab.records.casebook import Casebook
    from teamrehab.records.checking import CasebookCheck
    from teamrehab.records.drawing import Receipt
    from teamrehab.records.facts import new_fact_id
    from teamrehab.records.opening import create_casebook, open_casebook
    from teamrehab.records.withdrawals import Withdrawn

__all__ = [
    "BackupFailedError",
    "Casebook",
    "CasebookCheck",
    "CasebookDamagedError",
    "CasebookOpenElsewhereError",
    "Cost",
    "DiskFullError",
    "EmptyPassphraseError",
    "FolderNotEmptyError",
    "FolderNotWritableError",
    "NewerCasebookError",
    "NotACasebookError",
    "NotSavedError",
    "NotUndoneError",
    "Receipt",
    "RecordsError",
    "ReplacedMeanwhileError",
    "SlotDamagedError",
    "UnknownCaseError",
    "UnwritableTextError",
    "Withdrawn",
    "WrongPassphraseError",
    "create_casebook",
    "is_protected",
    "new_fact_id",
    "open_casebook",
    "people_of",
    "write_whole",
]

_LATER = {
    "Casebook": "casebook",
    "CasebookCheck": "checking",
    "Receipt": "drawing",
    "create_casebook": "opening",
    "new_fact_id": "facts",
    "open_casebook": "opening",
    "Withdrawn": "withdrawals",
}


def __getattr__(name: str) -> Any:
    """Import what needs the database.

    Always by way of ``opening``, which imports all of it: two threads that came in by two
    modules would meet half-way in a circle of the database library and find it half made.
    """
    if name not in _LATER:
        raise AttributeError(name)
    import_module(f"{__name__}.opening")
    return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
