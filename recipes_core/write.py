"""Files are written whole or not at all: to a temporary file beside them, then renamed."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from recipes_core.errors import UsageError


def write_whole(path: str | Path, content: str | bytes) -> None:
    """Write text, as UTF-8, or bytes to ``path``; UsageError, and nothing written, where that cannot be done."""
    target = Path(path)
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.")
    except OSError as error:
        raise UsageError(f"cannot write {target}: {error.strerror}") from error
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content.encode("utf-8") if isinstance(content, str) else content)
        os.chmod(name, _mode(target))  # a temporary file is private; the one it becomes is as the one before, or any
        os.replace(name, target)
    except BaseException as error:  # an interrupt, too, leaves nothing beside the file
        Path(name).unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise UsageError(f"cannot write {target}: {error.strerror}") from error
        raise


def _mode(target: Path) -> int:
    """Who may do what with the file: as before, or for a new one as the umask has it."""
    if target.is_file():
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
