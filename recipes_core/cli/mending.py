"""``meltbook lint --fix``: shows what is certain to be mended in the recipes, then writes it."""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Sequence
from pathlib import Path

from recipes_core.document import read_file
from recipes_core.errors import DataError, UsageError
from recipes_core.mend import mended
from recipes_core.report.diff import diff
from recipes_core.report.visible import printable
from recipes_core.schema.compose import Schemas
from recipes_core.write import write_whole

_MARK = b"\xef\xbb\xbf"


def mend_files(files: Sequence[Path], schemas: Schemas) -> None:
    """Mend each file, whole or not at all, and show every change on the error stream before it is written."""
    number = sum([_mend(file, schemas) for file in files])
    told = "nothing to mend" if not number else f"mended {number} of {len(files)} file{'s' * (len(files) > 1)}"
    print(f"meltbook: {told}", file=sys.stderr)


def _mend(file: Path, schemas: Schemas) -> bool:
    try:
        document = read_file(file)
    except DataError:  # the report says what is wrong with it
        return False
    after = mended(document, schemas)
    if after is document:
        return False
    if file.is_symlink():  # a stranger's folder must not lead to a file of one's own
        print(f"meltbook: {printable(str(file))} is a link and was left as it is", file=sys.stderr)
        return False
    sys.stderr.write(diff(document.text, after.text, document.name))
    sys.stderr.flush()
    raw = file.read_bytes()
    if hashlib.sha256(raw).hexdigest() != document.sha256:
        raise UsageError(f"{file} was changed by somebody else meanwhile: look at it, and call again")
    mark = "\ufeff" if raw.startswith(_MARK) else ""
    write_whole(file, mark + after.text)
    return True
