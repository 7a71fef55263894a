"""Everything the format refuses: the sentence and the place, the same from both parsers."""

from __future__ import annotations

import contextlib
import time
from pathlib import Path as FilePath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recipes_core.document import Document, DocumentError, read, read_file
from recipes_core.errors import DataError
from recipes_core.findings import Span

STREAMS = pytest.mark.parametrize("stream", ["c", "pure"])
EMPTY = "the document is empty: it begins with format"
NO_VALUE = "has no value; write unknown if you do not know it"
QUESTION = "delete this question mark"

# (source, rule, sentence, line, column of its start, column of its end)
REFUSED: list[tuple[str | bytes, str, str, int, int, int]] = [
    ("a: 1\n---\nb: 2\n", "second-document", "a second document begins here: one file holds one", 2, 1, 2),
    (b"a: b\nc: \xff\n", "not-utf-8", "this byte is not UTF-8: save the file as UTF-8", 2, 4, 4),
    (b"\xef\xbb\xbfa: \xff\n", "not-utf-8", "this byte is not UTF-8: save the file as UTF-8", 1, 4, 4),
    (b"\xff\xfea\0", "not-utf-8", "the file is UTF-16 or UTF-32: save it as UTF-8", 1, 1, 1),
    (b"\xfe\xff\0a", "not-utf-8", "the file is UTF-16 or UTF-32: save it as UTF-8", 1, 1, 1),
    (b"\0\0\xfe\xff\0\0\0a", "not-utf-8", "the file is UTF-16 or UTF-32: save it as UTF-8", 1, 1, 1),
    ("a: \ud800\n", "not-utf-8", "this byte is not UTF-8: save the file as UTF-8", 1, 4, 4),
    ("a: 1\n" * 60_000, "too-large", "the file is larger than 256 KiB: a recipe is a few KiB", 1, 1, 1),
    ("[" * 30_000, "too-deep", "more than 40 levels are too deep", 1, 41, 42),
    ("[" * 30_000 + "]" * 30_000, "too-deep", "more than 40 levels are too deep", 1, 41, 42),
    ("[ " * 41 + "]" * 41, "too-deep", "more than 40 levels are too deep", 1, 81, 82),
    ("- " * 30_000, "too-deep", "more than 40 levels are too deep", 1, 81, 82),
    ("{a: " * 20_000, "too-deep", "more than 40 levels are too deep", 1, 161, 162),
    (
        "a: [" + "1, " * 20_001 + "]",
        "too-many-values",
        "more than 20000 values are too many",
        1,
        60005,
        60006,
    ),
    ("a: &x 1\n", "anchor", "&x is an anchor: delete it", 1, 4, 6),
    ("&x a: 1\n", "anchor", "&x is an anchor: delete it", 1, 1, 3),
    ("a:\n  &x\n  b: 1\n", "anchor", "&x is an anchor: delete it", 2, 3, 5),
    ("a: *x\n", "alias", "*x is an alias: write the value out", 1, 4, 6),
    ("*x : 1\n", "alias", "*x is an alias: write the value out", 1, 1, 3),
    ("<<: {a: 1}\n", "merge-key", "<< is a merge key: write the values out", 1, 1, 3),
    ("a: !!str 1\n", "tag", "!!str is a tag: delete it, or quote the text", 1, 4, 9),
    ("a: !x 1\n", "tag", "!x is a tag: delete it, or quote the text", 1, 4, 6),
    ("a: ! 1\n", "tag", "! is a tag: delete it, or quote the text", 1, 4, 5),
    ("a: !<tag:x,y> 1\n", "tag", "!<tag:x,y> is a tag: delete it, or quote the text", 1, 4, 14),
    ("!!map {a: b}\n", "tag", "!!map is a tag: delete it, or quote the text", 1, 1, 6),
    ("a: 1\nb: 2\n'a': 3\n", "duplicate-key", 'the key "a" stands twice: here and on line 1', 3, 1, 4),
    ("{a: 1, b: 2, a: 3}\n", "duplicate-key", 'the key "a" stands twice: here and on line 1', 1, 14, 15),
    ("a: .inf\n", "not-finite", ".inf is not a finite number", 1, 4, 8),
    ("a: -.Inf\n", "not-finite", "-.Inf is not a finite number", 1, 4, 9),
    ("a: .nan\n", "not-finite", ".nan is not a finite number", 1, 4, 8),
    ("a: 1e400\n", "not-finite", "1e400 is too large a number", 1, 4, 9),
    ("a: " + "9" * 50_000, "not-finite", "9" * 17 + "... is too large a number", 1, 4, 50_004),
    (
        "a: 9007199254740993\n",
        "huge-number",
        "9007199254740993 is too large a whole number: quote it if it is a name",
        1,
        4,
        20,
    ),
    ("%YAML 1.1\n---\na: 1\n", "directive", "a line that begins with % is a directive: delete it", 1, 1, 10),
    (
        "# c\n%TAG ! x\n---\na: 1\n",
        "directive",
        "a line that begins with % is a directive: delete it",
        2,
        1,
        9,
    ),
    ("", "empty-document", EMPTY, 1, 1, 1),
    ("# only this\n", "empty-document", EMPTY, 1, 1, 1),
    ("---\n", "empty-document", EMPTY, 1, 1, 1),
    ("- a\n", "not-a-mapping", "a document is made of keys with values, such as format: recipe/1", 1, 1, 4),
    ("oven\n", "not-a-mapping", "a document is made of keys with values, such as format: recipe/1", 1, 1, 5),
    ("[a]: b\n", "odd-key", "a key is one piece of text", 1, 1, 2),
    ("{a: b}: c\n", "odd-key", "a key is one piece of text", 1, 1, 2),
    ("? a\n: b\n", "odd-key", QUESTION, 1, 1, 2),
    ("b: what?\n? a\n: b\n", "odd-key", QUESTION, 2, 1, 2),
    ("{? a : b}\n", "odd-key", QUESTION, 1, 2, 3),
    (": b\n", "odd-key", "the key before this colon is missing", 1, 1, 2),
    ("'': b\n", "odd-key", "the key before this colon is missing", 1, 3, 4),
    ("oven:\nb: 1\n", "no-value", f"oven {NO_VALUE}", 1, 1, 5),
    ("oven: # hot\nb: 1\n", "no-value", f"oven {NO_VALUE}", 1, 1, 5),
    ("oven: |\nb: 1\n", "no-value", f"oven {NO_VALUE}", 1, 1, 5),
    ("a: {b: , c: 1}\n", "no-value", f"b {NO_VALUE}", 1, 5, 6),
    ("a:\n- \n- 1\n", "no-value", f"this item {NO_VALUE}", 2, 1, 2),
    (
        "a: {thickness: 3,5 mm, b: c}\n",
        "split-decimal",
        "3,5 mm has a decimal comma, which splits it in two: write 3.5 mm, with a point",
        1,
        16,
        22,
    ),
    ("a: x\0y\n", "character", "an invisible control character (U+0000) stands here: delete it", 1, 5, 6),
    ("a: \x1b[31m\n", "character", "an invisible control character (U+001B) stands here: delete it", 1, 4, 5),
    ("a: x\x9by\n", "character", "an invisible control character (U+009B) stands here: delete it", 1, 5, 6),
    (
        "a: x\u202ey\n",
        "character",
        "an invisible mark that turns the direction of writing (U+202E) stands here: delete it",
        1,
        5,
        6,
    ),
    ("a: b\ufeffc\n", "character", "a character that means nothing (U+FEFF) stands here: delete it", 1, 5, 6),
    *(
        (
            f"a: x{character}y\n",
            "character",
            f"a line break that only some programs see (U+{ord(character):04X}) stands here: delete it",
            1,
            5,
            6,
        )
        for character in "\x85\u2028\u2029"
    ),
    (
        'a: "\\0"\n',
        "character",
        "this text holds an invisible control character (U+0000): delete its escape",
        1,
        4,
        8,
    ),
    (
        'a: "\\e[31m"\n',
        "character",
        "this text holds an invisible control character (U+001B): delete its escape",
        1,
        4,
        12,
    ),
    (
        '"\\u202e": 1\n',
        "character",
        "this text holds an invisible mark that turns the direction of writing (U+202E): delete its escape",
        1,
        1,
        9,
    ),
    ("a:\tb\n", "tab", "a tab stands here: use spaces", 1, 3, 4),
    ("a: b\t\n", "tab", "a tab stands here: use spaces", 1, 5, 6),
    ("a: b\t# c\n", "tab", "a tab stands here: use spaces", 1, 5, 6),
    ("a: x\t\ty\n", "tab", "a tab stands here: use spaces", 1, 5, 7),
    ("a:\n\tb: 1\n", "tab", "a tab stands here: use spaces", 2, 1, 2),
    ("a: |\n  x\n\ty\n", "tab", "a tab stands here: use spaces", 3, 1, 2),
    ("a: |# c\n  x\n", "syntax", "after | or > the text begins on the next line", 1, 5, 6),
    ("a: [1, 2\n", "syntax", "the list opened with [ on line 1 needs a comma or a ] here", 2, 1, 2),
    (
        "a: {b: 1\nc: 2\n",
        "syntax",
        "the group opened with { on line 1 needs a comma or a } here",
        2,
        2,
        3,
    ),
    (
        "a: |\n  \n    x\n",
        "syntax",
        "the first line of this text is blank but for spaces: delete them",
        3,
        5,
        6,
    ),
    ("a: [12:30]\n", "syntax", "between brackets, a text with : or ? needs quotes", 1, 7, 8),
    ("a: {until: glossy?}\n", "syntax", "between brackets, a text with : or ? needs quotes", 1, 18, 19),
    ("a: ['b':c]\n", "syntax", "a key needs a colon and a space after it", 1, 8, 9),
    ("a: 'x\n", "syntax", "the quote opened on line 1 is never closed", 2, 1, 2),
    ("a: b: c\n", "syntax", "a colon with a space may stand once on a line: put the text in quotes", 1, 5, 6),
    ("a: @x\n", "syntax", "a value cannot begin with this character: put the value in quotes", 1, 4, 5),
    (
        "a:\n  b: 1\n c: 2\n",
        "syntax",
        "this line fits no other: indent it like what begins on line 1",
        3,
        2,
        3,
    ),
    ("a: - b\n", "syntax", "an item of a list begins on a line of its own", 1, 4, 5),
    ("a: |x\n  y\n", "syntax", "after | or > the text begins on the next line", 1, 5, 6),
    (
        "a: *\n",
        "syntax",
        "an anchor or alias (& or *) has no place in a recipe: put the text in quotes",
        1,
        5,
        6,
    ),
]


def problems(source: str | bytes, stream: str) -> DocumentError:
    """The refusal of ``source``."""
    with pytest.raises(DocumentError) as caught:
        read(source, "r.yaml", stream=stream)
    return caught.value


@STREAMS
@pytest.mark.parametrize("case", REFUSED, ids=lambda case: f"{case[1]}-{case[0][:12]!r}")
def test_refused(case: tuple[str | bytes, str, str, int, int, int], stream: str) -> None:
    """Each thing the format leaves out has its own sentence, and the place is exact."""
    source, rule, sentence, line, column, end_column = case
    error = problems(source, stream)
    problem = error.problems[0]
    assert (problem.rule, problem.sentence) == (rule, sentence)
    assert problem.span == Span(line, column, line, end_column)
    assert (error.sentence, error.span, error.file) == (problem.sentence, problem.span, "r.yaml")


@STREAMS
@pytest.mark.parametrize("escape", ["\\q", "\\xZZ", "\\ud800", "\\U00110000"])
def test_escapes(escape: str, stream: str) -> None:
    """An escape that names nothing is refused on its line; the parsers differ in the column."""
    problem = problems(f'a: 1\nb: "{escape}"\n', stream).problems[0]
    assert problem.rule in ("syntax", "character")
    assert problem.span.line == 2


@STREAMS
def test_all_problems_of_one_pass(stream: str) -> None:
    """One reading collects all refusals, in the order of the text."""
    source = "a: &x 1\nb: *x\nb: .inf\nc:\n- !t 1\nd: \n"
    found = problems(source, stream).problems
    assert [(p.rule, p.span.line) for p in found] == [
        ("anchor", 1),
        ("alias", 2),
        ("duplicate-key", 3),
        ("not-finite", 3),
        ("tag", 5),
        ("no-value", 6),
    ]


@STREAMS
@pytest.mark.parametrize(
    "source",
    [
        "[a, " * 20_000,
        "? " * 30_000,
        "&a " * 30_000,
        '"' + "\\" * 100_000,
        "a: '" + "\t " * 60_000,
        "# \t" * 60_000,
        "\n" * 200_000 + "a: [",
        "\r\n" * 100_000 + "a: [",
        "a:\n" * 60_000,
        "".join(f"k{i}: |\n  x\n" for i in range(9_000)),
    ],
    ids=lambda source: repr(source[:9]),
)
def test_time_is_bounded(source: str, stream: str) -> None:
    """Hostile input within the size limit is answered in bounded time, by the fast parser at once."""
    start = time.perf_counter()
    with contextlib.suppress(DocumentError):
        read(source, stream=stream)
    assert time.perf_counter() - start < (15 if stream == "pure" else 2)


FRAGMENTS = st.sampled_from([
    "a", ": ", ":", "\n", "\n  ", "- ", "[", "]", "{", "}", ", ", "'", '"', "|", ">", "#", " # c", "\t", "? ",
    "?", "😀", "\r\n", "\r", "---", "...", "\\", "%", "@", "&a ", "*a", "!t ", "<<", "a: b\n", "k: |\n  t\n",
    "- x\n", "\0", "b: [", "c: {d: ",
])  # fmt: skip


@STREAMS
@settings(max_examples=300, deadline=2000)
@given(source=st.one_of(st.lists(FRAGMENTS, max_size=14).map("".join), st.text(max_size=60), st.binary(max_size=60)))
def test_anything_is_read_or_refused(source: str | bytes, stream: str) -> None:
    """Any text and any bytes give a Document or a DocumentError with places, never another exception."""
    error: DocumentError | None = None
    try:
        document = read(source, stream=stream)
    except DocumentError as refusal:
        error = refusal
    if error is None:
        assert isinstance(document, Document)
    else:
        assert all(problem.sentence and problem.span.line >= 1 for problem in error.problems)


@settings(max_examples=500, deadline=2000)
@given(source=st.lists(FRAGMENTS, max_size=14).map("".join))
def test_parsers_agree(source: str) -> None:
    """Both parsers accept the same texts, with the same data and places."""
    answers = []
    for stream in ("c", "pure"):
        try:
            document = read(source, stream=stream)
            answers.append((document.data, dict(document.spans)))
        except DocumentError:
            answers.append(({}, {}))
    assert answers[0] == answers[1]


def test_read_file(tmp_path: FilePath) -> None:
    """A file is read under its own name; one that is too large or not there is refused."""
    path = tmp_path / "r.yaml"
    path.write_bytes(b"a: b\n")
    assert read_file(path).name == str(path)
    path.write_bytes(b"#" * (256 * 1024 + 1))
    with pytest.raises(DocumentError, match="larger than 256 KiB"):
        read_file(path)
    with pytest.raises(DataError, match="cannot be read"):
        read_file(tmp_path / "none.yaml")


def test_largest_file_is_read() -> None:
    """A file of exactly the limit is read."""
    source = "a: b\n" + "#" * (256 * 1024 - 5)
    assert read(source).data == {"a": "b"}
