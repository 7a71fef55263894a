"""Advice is tried before it is given: what does not hold is dropped, what has a price names it."""

from __future__ import annotations

from recipes_core.advice import tried
from recipes_core.document import Document, read
from recipes_core.edits import edited
from recipes_core.findings import Change, Finding, Kind, Level, Way

TEXT = "melt: 10 min\ncool: {for: 20 min}\n"
GENERAL = {"melt-short": "give it longer", "opened-hot": "cool it"}
MELT, COOL = ("melt",), ("cool", "for")


def judge(document: Document) -> tuple[Finding, ...]:
    """A toy bench: melting needs 15 min, and each minute of it needs two of cooling."""
    melt, cool = (int(document.literal(path).split()[0]) for path in (MELT, COOL))
    found = []
    if melt < 15:
        ways = (Way("melt 12 min", (Change(MELT, "12 min"),)), Way("melt 15 min", (Change(MELT, "15 min"),)))
        found.append(Finding("melt-short", Level.WARNING, Kind.FAIL, "Short.", path=MELT, advice=ways))
    if cool < 2 * melt:
        way = Way(f"cool {2 * melt} min", (Change(COOL, f"{2 * melt} min"),))
        found.append(Finding("opened-hot", Level.ERROR, Kind.FAIL, "Hot.", path=COOL, advice=(way,)))
    return tuple(found)


def test_a_way_that_does_not_help_is_dropped_and_one_with_a_price_names_it() -> None:
    """12 min is still short; 15 min holds only if it also cools for longer."""
    document = read(TEXT)
    (short,) = tried(judge(document), document, judge, GENERAL)
    assert [way.words for way in short.advice] == ["melt 15 min and then cool 30 min"]
    assert short.do == "melt 15 min and then cool 30 min"
    after = edited(document, short.advice[0].changes)
    assert after is not None
    assert judge(after) == ()


def test_without_any_way_the_general_cure_is_left() -> None:
    """A finding never stands there with nothing to do."""
    document = read(TEXT)

    def stubborn(copy: Document) -> tuple[Finding, ...]:
        return judge(document)

    (short,) = tried(judge(document), document, stubborn, GENERAL)
    assert (short.advice, short.do) == ((), "give it longer")


def test_an_error_without_a_cure_ends_the_way() -> None:
    """Advice never trades a warning for an error that nobody can mend."""
    document = read(TEXT)
    bad = Finding("broken", Level.ERROR, Kind.FAIL, "Broken.", path=COOL)

    def worse(copy: Document) -> tuple[Finding, ...]:
        return judge(copy) if copy.text == TEXT else (bad,)

    (short,) = tried(judge(document), document, worse, GENERAL)
    assert short.advice == ()


def test_certain_edits_without_words_are_left_alone() -> None:
    """A misspelt key needs no trial."""
    typo = Finding("key-not-known", Level.ERROR, Kind.FAIL, "?", advice=(Way("", (Change(MELT, "x"),)),))
    document = read(TEXT)
    assert tried((typo,), document, judge, GENERAL) == (typo,)
