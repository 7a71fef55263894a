"""Programs of the system that some tests look at pages with. Where one is missing its tests are skipped.

With MELTBOOK_ALL_TOOLS set, as in the project's own checks, a missing one is a failure.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest


def tool(name: str) -> str:
    """The path of a program."""
    return _given(shutil.which(name), f"no {name} here")


def file_of(variable: str) -> Path:
    """A file that the environment names."""
    return Path(_given(os.environ.get(variable), f"{variable} names no file"))


def printer() -> Any:
    """The module that makes PDFs, where the library of the system that it needs is there."""
    try:
        import weasyprint
    except OSError as error:
        _given(None, f"no PDF here: {error}")
    return weasyprint


def _given(value: str | None, why: str) -> str:
    if not value and os.environ.get("MELTBOOK_ALL_TOOLS"):
        pytest.fail(why)
    if not value:
        pytest.skip(why)
    return str(value)


def output(*words: str | Path) -> str:
    """What a program prints; it must end with status 0."""
    alone = {**os.environ, "OMP_THREAD_LIMIT": "1"}  # other tests run beside it
    done = subprocess.run([str(w) for w in words], capture_output=True, text=True, check=True, timeout=120, env=alone)
    return done.stdout
