"""What the world can refuse, each with a sentence fit to be shown.

RecordsError
    WrongPassphraseError, EmptyPassphraseError, SlotDamagedError    the key
    NotACasebookError, FolderNotEmptyError, NewerCasebookError,
    CasebookDamagedError, CasebookOpenElsewhereError                the folder
    NotSavedError (DiskFullError, FolderNotWritableError)           a save
    BackupFailedError                                               the copy made on closing
    UnwritableTextError, ReplacedMeanwhileError, UnknownCaseError   what was asked for
"""

from pathlib import Path

from typing_extensions import override

from teamrehab.language import _


class RecordsError(Exception):
    """The casebook refuses, or the world does; the text may be shown as it is."""


class WrongPassphraseError(RecordsError):
    """The passphrase opens none of the key slots tried."""

    def __init__(self) -> None:
        super().__init__(_("Wrong passphrase. Nothing was changed; try again."))


class EmptyPassphraseError(RecordsError):
    """A protected casebook was to be made without a passphrase."""

    def __init__(self) -> None:
        super().__init__(
            _("A casebook needs a passphrase. Choose one and write it down safely.")
        )


class SlotDamagedError(RecordsError):
    """Both copies of a key slot are damaged; the records themselves may be whole."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            _(
                "The key file in {folder} is damaged, and so is its copy. The records are not "
                "lost: copy the keys folder from a backup, or let another person open it."
            ).format(folder=folder)
        )


class NotACasebookError(RecordsError):
    """The folder holds no casebook of this program."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            _("{folder} is not a casebook. Choose the folder that holds one.").format(
                folder=folder
            )
        )


class FolderNotEmptyError(RecordsError):
    """A new casebook was to be made in a folder that holds something already."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            _("{folder} is not empty. Nothing was changed; choose a new folder.").format(
                folder=folder
            )
        )


class NewerCasebookError(RecordsError):
    """The casebook was written by a newer version of this program."""

    def __init__(self, folder: Path, theirs: int, ours: int) -> None:
        super().__init__(
            _(
                "{folder} was written by a newer version of this program (records {theirs}; "
                "this one knows {ours}). Nothing was changed. Install the newer version."
            ).format(folder=folder, theirs=theirs, ours=ours)
        )


class CasebookDamagedError(RecordsError):
    """The key is right and the database cannot be read."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            _(
                "The casebook in {folder} is damaged. Leave the folder as it is, and open the "
                "newest folder in its backups."
            ).format(folder=folder)
        )


class CasebookOpenElsewhereError(RecordsError):
    """Another window or program holds the casebook."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            _("{folder} is already open in another window. Close it there first.").format(
                folder=folder
            )
        )


class NotSavedError(RecordsError):
    """A save failed; everything saved before is kept, and nothing of this one."""

    def __init__(self, folder: Path) -> None:
        super().__init__(self.sentence().format(folder=folder))

    def sentence(self) -> str:
        """Return the sentence, with a place for ``folder``."""
        return _(
            "Not saved: the disk that holds {folder} reported an error. Everything saved "
            "before is kept, and what you typed is still here. Try again, or copy the "
            "casebook to another disk."
        )


class DiskFullError(NotSavedError):
    """The disk is full."""

    @override
    def sentence(self) -> str:
        """Return the sentence, with a place for ``folder``."""
        return _(
            "Not saved: the disk that holds {folder} is full. Everything saved before is kept, "
            "and what you typed is still here. Make room and save again."
        )


class FolderNotWritableError(NotSavedError):
    """The folder cannot be written."""

    @override
    def sentence(self) -> str:
        """Return the sentence, with a place for ``folder``."""
        return _(
            "{folder} cannot be written. Nothing was changed. Copy the casebook to a folder of "
            "your own, or choose another folder."
        )


class BackupFailedError(RecordsError):
    """Everything is saved, but the copy made on closing could not be made or checked."""

    def __init__(self, folder: Path) -> None:
        super().__init__(
            _(
                "Everything is saved, but no backup could be made in {folder}. Check the free "
                "space there, then open and close the casebook again."
            ).format(folder=folder)
        )


class UnwritableTextError(RecordsError):
    """A text holds a character that no later reader could store."""

    def __init__(self, field: str, character: str) -> None:
        super().__init__(
            _(
                "{field}: holds the character {character}, which cannot be kept. Type the text "
                "again without it."
            ).format(field=field, character=character)
        )


class ReplacedMeanwhileError(RecordsError):
    """The entry is no longer what stands: it was corrected or withdrawn before."""

    def __init__(self) -> None:
        super().__init__(
            _("This entry was replaced in the meantime. Nothing was changed; look at it again.")
        )


class NotUndoneError(RecordsError):
    """What was saved cannot be taken back by itself."""

    def __init__(self) -> None:
        super().__init__(
            _(
                "This save settled two versions or removed an entry for good: it is not taken"
                " back by itself. Correct the entry by hand."
            )
        )


class UnknownCaseError(RecordsError):
    """No readable case has this id."""

    def __init__(self, case_id: str) -> None:
        super().__init__(_("There is no readable case {case_id}.").format(case_id=case_id))
