"""Why a protocol file was refused."""

from typing_extensions import override

from teamrehab.language import _


class ProtocolError(Exception):
    """One thing in a protocol file that cannot stand.

    file: which file; key: where in it ("stage 2, entry 1, parameters.hops"); value: what stands
    there, shortened; allowed: what may stand there; remedy: what to do.
    """

    def __init__(self, *, file: str, key: str, value: str, allowed: str, remedy: str) -> None:
        super().__init__(file, key, value, allowed, remedy)
        self.file = file
        self.key = key
        self.value = value
        self.allowed = allowed
        self.remedy = remedy

    @override
    def __str__(self) -> str:
        """Return the refusal in words fit to be shown."""
        said = _("{file}, {key}: {value} cannot stand here. Allowed: {allowed}. {remedy}")
        return said.format(
            file=self.file,
            key=self.key,
            value=self.value,
            allowed=self.allowed,
            remedy=self.remedy,
        )
