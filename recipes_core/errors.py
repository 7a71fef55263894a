"""What can go wrong outside a recipe's own judgement; each error knows the exit status it leads to."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from recipes_core.findings import Span


class MeltbookError(Exception):
    """Base of all errors meant for a person: one sentence that says what is wrong and what to do."""

    exit_status = 2


class UsageError(MeltbookError):
    """The command was called with words or paths that cannot be used."""


class DataError(MeltbookError):
    """A file (recipe, data sheet, library) cannot be used as it stands; ``span`` is the place, if any."""

    def __init__(self, sentence: str, span: Span | None = None, file: str = "") -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.span = span
        self.file = file


class PluginError(MeltbookError):
    """An installed plugin cannot be used; the others still can, but nothing was fully checked."""

    exit_status = 3


def reason(error: BaseException) -> str:
    """What went wrong inside foreign code, in one line, whatever its exception does when it is printed."""
    if isinstance(error, MeltbookError):
        return str(error)
    try:
        text = " ".join(str(error).split())
    except Exception:
        text = "(its message cannot be shown)"
    return f"{type(error).__name__}: {text}"
