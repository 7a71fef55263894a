"""The first line of a recipe: which kind of document it is, and in which format it is written.

A newer minor format only adds, so it is read with a note; a newer major one may mean other things by the same
words, so it is refused.
"""

from __future__ import annotations

import re

from recipes_core.findings import Change, Finding, Kind, Level, Way

KIND, MAJOR, MINOR = "recipe", 1, 0
OTHER_KINDS = ("shop", "run", "resin", "liner", "material", "process", "library")

TOO_NEW = "format-too-new"
WRONG_KIND = "format-of-another-kind"

_FORMAT = re.compile(r"([a-z]+)/([0-9]{1,4})(?:\.([0-9]{1,4}))?")


def judge_format(text: str) -> Finding | None:
    """What a person must know about the format, or None when it is ours; the span is added by the check."""
    ours = f"{KIND}/{MAJOR}"
    match = _FORMAT.fullmatch(text)
    if match is None:
        do = f"write `format: {ours}`"
        return _finding("format-not-read", f"`{text[:60]}` is not a format of a recipe.", text, do, ours)
    kind, major, minor = match[1], int(match[2]), int(match[3] or 0)
    if kind in OTHER_KINDS:
        message = f"This document says that it is a {kind}, not a recipe."
        return _finding(WRONG_KIND, message, text, f"give a recipe here, or write `format: {ours}` if it is one")
    if kind != KIND or major < 1:
        do = f"write `format: {ours}`"
        return _finding("format-not-read", f"`{text}` is not a format of a recipe.", text, do, ours)
    if major > MAJOR:
        message = f"This recipe is written in {text}; this meltbook reads {ours} and must not guess."
        return _finding(TOO_NEW, message, text, "upgrade meltbook")
    if minor > MINOR:
        message = f"This recipe is written in {text}; this meltbook reads it as {ours}.{MINOR}."
        do = "upgrade meltbook if it is told of a key or a word that is not known"
        return Finding("format-newer", Level.NOTE, Kind.INFORMATIONAL, message, path=("format",), found=text, do=do)
    return None


def _finding(rule: str, message: str, found: str, do: str, cure: str = "") -> Finding:
    return Finding(
        rule,
        Level.ERROR,
        Kind.FAIL,
        message,
        path=("format",),
        found=found[:60],
        limit=f"{KIND}/{MAJOR}",
        why="the same words may mean other things in another format",
        do=do,
        advice=(Way("", (Change(("format",), cure),)),) if cure else (),
    )
