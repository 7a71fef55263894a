"""Tabs: allowed inside quoted texts, block texts and comments, refused where YAML would have to guess.

The two parsers disagree on tabs between values. So the text is first read with a space in each tab's place,
which moves nothing; a tab that then stands outside of a text or comment, or indents a line, is refused.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Sequence

from recipes_core.document.model import span_of
from recipes_core.document.problems import Problem

_LINE = re.compile(r"[^\r\n]*\t[^\r\n]*")
_TABS = re.compile(r"\t+")
_INDENT = re.compile(r"[ \t]*")
_COMMENT = re.compile(r"(?:^|[ \t])#", re.MULTILINE)


def refuse_tabs(text: str, shelters: Sequence[tuple[int, int]], most: int) -> list[Problem]:
    """At most ``most`` problems for the tabs outside of ``shelters`` (offsets of quoted and block texts)."""
    starts = [start for start, _ in shelters]

    def sheltered(at: int) -> bool:
        index = bisect_right(starts, at) - 1
        return index >= 0 and at < shelters[index][1]

    problems: list[Problem] = []
    for line in _LINE.finditer(text):
        indented = _INDENT.match(line[0])
        text_at = line.start() + (indented.end() if indented else 0)
        marks = (mark.end() - 1 for mark in _COMMENT.finditer(text, *line.span()))
        comment_at = next((mark for mark in marks if not sheltered(mark)), line.end())
        for tabs in _TABS.finditer(text, *line.span()):
            allowed = tabs.start() > comment_at or (tabs.start() >= text_at and sheltered(tabs.start()))
            if not allowed:
                problems.append(Problem("tab", "a tab stands here: use spaces", span_of(text, *tabs.span())))
            if len(problems) == most:
                return problems
    return problems
