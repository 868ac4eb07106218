"""The encrypted casebook: facts written once, read back as they stand. This is its door."""

from teamrehab.records.casebook import Casebook
from teamrehab.records.checking import CasebookCheck
from teamrehab.records.drawing import Receipt
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
    RecordsError,
    ReplacedMeanwhileError,
    SlotDamagedError,
    UnknownCaseError,
    UnwritableTextError,
    WrongPassphraseError,
)
from teamrehab.records.facts import new_fact_id
from teamrehab.records.keys import Cost
from teamrehab.records.opening import create_casebook, is_protected, open_casebook, people_of
from teamrehab.records.whole_files import write_whole

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
    "Receipt",
    "RecordsError",
    "ReplacedMeanwhileError",
    "SlotDamagedError",
    "UnknownCaseError",
    "UnwritableTextError",
    "WrongPassphraseError",
    "create_casebook",
    "is_protected",
    "new_fact_id",
    "open_casebook",
    "people_of",
    "write_whole",
]
