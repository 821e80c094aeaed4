"""Whether another program has written to the register since the last look."""

from provenance.records.register import Register


class Watch:
    """Compares SQLite's data_version, which changes when another connection commits."""

    def __init__(self, register: Register) -> None:
        self._register = register
        self._connection = register.read.connection
        self._seen = self._version()

    def _version(self) -> int:
        (version,) = self._connection.execute("PRAGMA data_version").fetchone()
        return int(version)

    def changed(self) -> bool:
        """Whether something was written since this was last asked.

        Raises Damaged when the register is no longer the file that was opened.
        """
        self._register.check_file()
        version = self._version()
        changed = version != self._seen
        self._seen = version
        return changed
