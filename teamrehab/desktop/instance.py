"""One window a person: a second start raises the first window and ends."""

from pathlib import Path

from filelock import FileLock, Timeout
from PySide6.QtCore import QObject, Signal
from PySide6.QtNetwork import QLocalServer, QLocalSocket

_PATIENCE_MS = 1_000


class OnlyInstance(QObject):
    """Holds the place of the one window. The kernel frees it whatever way the program ends."""

    called = Signal()

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        self._lock = FileLock(folder / "window.lock")
        self._name = str(folder / "window.socket")
        self._server: QLocalServer | None = None

    def take(self) -> bool:
        """Take the place; False if another window holds it (which is then asked to come up)."""
        try:
            self._lock.acquire(timeout=0)
        except Timeout:
            self._call()
            return False
        QLocalServer.removeServer(self._name)  # left over from a killed program
        self._server = QLocalServer(self)
        self._server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        self._server.newConnection.connect(self._heard)
        self._server.listen(self._name)
        return True

    def release(self) -> None:
        """Give the place back."""
        if self._server is not None:
            self._server.close()
        self._lock.release()

    def _call(self) -> None:
        socket = QLocalSocket(self)
        socket.connectToServer(self._name)
        socket.waitForConnected(_PATIENCE_MS)
        socket.disconnectFromServer()

    def _heard(self) -> None:
        if self._server is not None:
            self._server.nextPendingConnection().deleteLater()
        self.called.emit()
