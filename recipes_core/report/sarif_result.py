"""One finding as a SARIF result: what was found, where, what would mend it, and by what it is known again."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from recipes_core.document import LINE_BREAK, Document
from recipes_core.document.model import cut
from recipes_core.edits import stretch
from recipes_core.findings import Finding, Kind, Span, Way
from recipes_core.report.fingerprint import document_of, fingerprints, steady
from recipes_core.report.text import elsewhere, found_of, limit_label
from recipes_core.report.visible import printable

if TYPE_CHECKING:
    from recipes_core.app import Linted

FINGERPRINT = "meltbookFinding/v1"


def told_result(item: Linted, rules: Mapping[str, int]) -> Iterator[dict[str, Any]]:
    """The findings on one recipe; ``rules`` gives the place of each rule in the list of them."""
    document = document_of(item.text, item.file)
    data = document.data if document else {}
    lines = len(LINE_BREAK.split(item.text))
    for f, print_ in zip(item.findings, fingerprints(item.findings, data), strict=True):
        result = {
            "ruleId": f.rule,
            "ruleIndex": rules[f.rule],
            "kind": f.kind.value,
            "level": f.level.value if f.kind is Kind.FAIL else "none",
            "message": said(_message(f)),
            "locations": [_location(f, item, lines, data)],
            "partialFingerprints": {FINGERPRINT: print_},
        }
        fixes = [fix for way in f.advice if document and (fix := _fix(way, f, document))]
        yield {**result, **({"fixes": fixes} if fixes else {}), "properties": _properties(f, item)}


def said(text: str) -> dict[str, str]:
    """A message object with the text as it is: braces and links, which mean something there, mean themselves."""
    text = printable(text).replace("{", "{{").replace("}", "}}")
    return {"text": text.replace("[", "\\[").replace("]", "\\]") if "](" in text else text}


def sentence(text: str) -> str:
    """The text with a full stop, where it has no end of its own."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def uri(file: str) -> str:
    """A file as a URI, relative to the folder that meltbook is called from where it lies in it."""
    path = Path(os.path.abspath(file))
    here = Path.cwd()
    return quote(os.fsencode(path.relative_to(here).as_posix())) if path.is_relative_to(here) else path.as_uri()


def _message(f: Finding) -> str:
    labelled = (("Found", found_of(f)), (limit_label(f.limit).capitalize(), f.limit), ("To do", f.do))
    return " ".join([f.message, *(f"{label}: {sentence(text)}" for label, text in labelled if text)])


def _location(f: Finding, item: Linted, lines: int, data: Any) -> dict[str, Any]:
    outside = elsewhere(f, item)
    physical: dict[str, Any] = {"artifactLocation": {"uri": uri(f.file if outside else item.file)}}
    if f.span:
        physical["region"] = _region(f.span)
        if not outside and f.span.end_line <= lines:
            text = cut(item.text, f.span)
            if _visible(text):
                physical["region"]["snippet"] = {"text": text}
    names = printable(".".join(steady(f.path, data)))
    logical = {"logicalLocations": [{"fullyQualifiedName": names}]} if names else {}
    return {"physicalLocation": physical, **logical}


def _region(at: Span) -> dict[str, Any]:
    return {"startLine": at.line, "startColumn": at.column, "endLine": at.end_line, "endColumn": at.end_column}


def _visible(text: str) -> bool:
    """Whether a viewer may show the text as it is; a message names what is left out."""
    return all(c.isprintable() for c in text.replace("\r\n", "").replace("\n", "").replace("\t", ""))


def _fix(way: Way, f: Finding, document: Document) -> dict[str, Any] | None:
    """The way out as replacements in the recipe, where each of its changes is one."""
    stretches = [stretch(document, change) for change in way.changes]
    if not stretches or None in stretches:
        return None
    replacements = [
        {"deletedRegion": _region(s[0]), "insertedContent": {"text": s[1]}} for s in sorted(filter(None, stretches))
    ]
    change = {"artifactLocation": {"uri": uri(document.name)}, "replacements": replacements}
    return {"description": said(way.words or f.do), "artifactChanges": [change]}


def _properties(f: Finding, item: Linted) -> dict[str, Any]:
    """What SARIF has no place for: our own level, how it is known, and the recipe if the place is in another file."""
    texts = {"found": f.found, "limit": f.limit, "margin": f.margin, "why": f.why, "do": f.do, "basis": f.basis}
    lists = {"origins": f.origins, "sources": f.sources}
    return {
        "level": f.level.value,
        "absolute": f.absolute,
        **{name: printable(text) for name, text in texts.items() if text},
        **{name: [printable(text) for text in several] for name, several in lists.items() if several},
        **({"recipe": uri(item.file)} if elsewhere(f, item) else {}),
    }
