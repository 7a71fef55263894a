"""What nobody can see is shown: a stranger's text may colour a terminal, turn its direction, or start a line."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

_PAIR = 0x10000
"""From here on a character is two numbers in JSON."""
_RUN = re.compile(r"[^\n -~]+")


def printable(text: str) -> str:
    """The text with every control or direction-changing character shown as an escape."""
    return escaped(text, str.isprintable)


def escaped(text: str, shown: Callable[[str], bool]) -> str:
    """The text with every character that is not ``shown`` as an escape."""
    return "".join(c if shown(c) else c.encode("unicode_escape").decode() for c in text)


def shortened(text: str, longest: int) -> str:
    """The text, cut to ``longest`` characters with a mark that it goes on."""
    return text if len(text) <= longest else f"{text[: longest - 1]}…"


def json_text(data: Any) -> str:
    """The data as JSON that hides nothing from whoever looks at the file; programs read back the very text."""
    text = json.dumps(data, ensure_ascii=False, indent=1)
    return _RUN.sub(lambda run: "".join(c if c.isprintable() else _escape(c) for c in run[0]), text) + "\n"


def _escape(character: str) -> str:
    number = ord(character)
    if number < _PAIR:
        return f"\\u{number:04x}"
    high, low = divmod(number - _PAIR, 0x400)
    return f"\\u{0xD800 + high:04x}\\u{0xDC00 + low:04x}"
