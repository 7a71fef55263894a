"""The bench of the rule tests: edits a base recipe through its spans, lints it once a text, reads its facts."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any
from unittest.mock import patch

import pytest

from recipes_core import app
from recipes_core.case import Case as Subject
from recipes_core.document import Document, read
from recipes_core.facts import Fact
from recipes_core.forecast import walk
from recipes_core.library_folder import read_sheets
from recipes_core.quantities import Dimension, parse, resolution, rounded, show
from recipes_core.recipe import Recipe
from recipes_core.rules.engine import judge as engine
from recipes_core.schema.fields import field as schema_field
from recipes_core.shelf import Shelf
from tests.suites.memo import Memo

if TYPE_CHECKING:
    from recipes_core.findings import Path as Place
    from recipes_core.rules.engine import Judgement

CASES = Path(__file__).parents[1] / "cases"
TODAY = date(2026, 6, 1)
DELETE = "null"

Changes = Mapping[str, Any]
Told = dict[str, dict[str, Fact]]


@dataclass(frozen=True)
class Case:
    """One case of a rule: what changes in which base, and what must (or must not) be found."""

    rule: str
    fires: bool
    name: str
    base: str
    change: Changes
    at: str = ""
    level: str = ""
    found: str = ""
    limit: str = ""
    on_limit: str = "no"

    @property
    def id(self) -> str:
        """How the test run names it."""
        return f"{self.rule}-{self.name.replace(' ', '-')}"


def load_cases() -> tuple[Case, ...]:
    """Every case of every rule, in the order of the files."""
    cases = []
    for file in sorted(CASES.glob("*.yaml")):
        if file.stem.startswith("base"):
            continue
        data = read(file.read_bytes(), file.name).data
        assert data["rule"] == file.stem, f"{file.name} is named after another rule"
        for kind in ("fires", "quiet"):
            for entry in data[kind]:
                known = {"base": "base", "change": {}, **entry}
                cases.append(Case(rule=data["rule"], fires=kind == "fires", **known))
    return tuple(cases)


@dataclass(frozen=True, repr=False)
class Judged:
    """One text with all that came of linting it, and the names of the rules that ran."""

    document: Document
    linted: app.Linted
    judgement: Judgement

    def path(self, dotted: str) -> Place:
        """The path that a dotted name stands for in this document."""
        return _path(self.document, dotted)


class Bench:
    """One shelf for all tests; every text is linted once."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf
        self.judged: dict[str, Judged] = {}
        self.told: dict[str, Told] = {}
        self.memo = Memo()
        self.sought: dict[tuple[Any, ...], list[float]] = {}

    @cached_property
    def bases(self) -> dict[str, str]:
        """The whole recipes that cases start from, by name."""
        return {file.stem: file.read_text("utf-8") for file in CASES.glob("base*.yaml")}

    def judge(self, text: str) -> Judged:
        """What linting says of a text; the engine's own record is taken on the way past."""
        if text not in self.judged:
            document = read(text, "recipe.yaml")
            judge = _Watched(engine)
            with self.memo.working(), patch.object(app, "judge", judge):
                linted = app.lint_document(document, TODAY, self.shelf)
            self.judged[text] = Judged(document, linted, judge.answer)
        return self.judged[text]

    def case(self, case: Case) -> Judged:
        """The base of a case with its changes made."""
        text, _ = self.edited(case)
        return self.judge(text)

    def edited(self, case: Case) -> tuple[str, dict[str, str]]:
        """The text of a case, and what each change came to in words."""
        text, said = self.bases[case.base], {}
        for dotted, value in case.change.items():
            said[dotted] = value if isinstance(value, str) else self._computed(text, dotted, value)
            text = edit(text, dotted, said[dotted])
        return text, said

    def _computed(self, text: str, dotted: str, value: Mapping[str, str]) -> str:
        """A value that rests on the forecast.

        ``{fact, step, of}``: the fact as it is displayed. ``{seek, step, of, is, from, to}``: the last value
        of the field, going from ``from`` to ``to`` in displayed steps, at which the fact as displayed has not
        gone past ``is``. ``of`` is nominal, low, high (of the band) or worst. ``plus`` adds displayed steps.
        """
        plus = int(value.get("plus", "0"))
        if "fact" in value:
            fact = self.facts(text)[value["step"]][value["fact"]]
            dimension = Dimension(fact.dimension)
            start = _of(fact, value["of"])
            return _said(_step(rounded(start, dimension), dimension, plus), dimension)
        dimension = _dimension(read(text), dotted, self.shelf)
        key = (text, dotted, *(value[k] for k in ("seek", "step", "of", "is", "from", "to")))
        if key not in self.sought:
            self.sought[key] = self._seek(text, dotted, value, dimension)
        ladder = self.sought[key]
        return _said(ladder[ladder.index(ladder[-1]) + plus] if plus < 0 else ladder[plus], dimension)

    def _seek(self, text: str, dotted: str, value: Mapping[str, str], dimension: Dimension) -> list[float]:
        """The value sought and the two that follow it on the way to ``to``."""
        ladder = _ladder(parse(value["from"], dimension).low, parse(value["to"], dimension).low, dimension)

        def side(number: float) -> int:
            fact = self.facts(edit(text, dotted, _said(number, dimension)))[value["step"]][value["seek"]]
            measure = Dimension(fact.dimension)
            limit = rounded(parse(value["is"], measure).low, measure)
            found = rounded(_of(fact, value["of"]), measure)
            return (found > limit) - (found < limit)

        far = side(ladder[-1])
        assert side(ladder[0]) != far != 0, f"{value['seek']} does not cross {value['is']} on this way"
        low, high = 0, len(ladder) - 1
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if side(ladder[middle]) == far else (middle, high)
        return ladder[low : low + 3]

    def facts(self, text: str) -> Told:
        """The plain facts of a text by step, without the histories that they were read from."""
        if text not in self.told:
            recipe = Recipe(read(text, "recipe.yaml"), self.shelf.schemas)
            with self.memo.working():
                walked = walk(recipe, Subject(recipe, self.shelf.library), self.shelf.kinds)
            self.told[text] = {
                case.step.id: {
                    n: Fact(n, f.dimension, f.value, "") for n, f in case.facts.items() if f.dimension != "record"
                }
                for case in walked.cases
                if case.step
            }
        return self.told[text]


@pytest.fixture(scope="session")
def bench(stock: Shelf) -> Bench:
    """The bench that all rule tests share, with invented resins beside those that ship."""
    own, problems = read_sheets(CASES, stock.library.resins, TODAY)
    assert problems == ()
    resins = {**{name: stock.library.resins[name] for name in stock.library.resins}, **own}
    return Bench(replace(stock, library=replace(stock.library, resins=resins)))


class _Watched:
    """A function that remembers its first answer; the later ones are about copies that advice is tried on."""

    def __init__(self, function: Callable[..., Any]) -> None:
        self.function = function
        self.answer: Any = None

    def __call__(self, *given: Any) -> Any:
        answer = self.function(*given)
        self.answer = answer if self.answer is None else self.answer
        return answer


def edit(text: str, at: str | Place, value: str) -> str:
    """One edit of a document in block style: replace, add or (``null``) delete; the rest stays as it is."""
    document = read(text)
    path = _path(document, at) if isinstance(at, str) else at
    lines = text.splitlines(keepends=True)
    there = path in document.spans
    if there and value != DELETE:
        span = document.span(path)
        if span.line == span.end_line:
            line = lines[span.line - 1]
            lines[span.line - 1] = line[: span.column - 1] + value + line[span.end_column - 1 :]
            return "".join(lines)
    if there:
        first = document.key_span(path).line - 1
        del lines[first : _end(lines, first)]
        text = "".join(lines)
        return text if value == DELETE else edit(text, path, value)
    assert value != DELETE, f"{at} is not there to be deleted"
    return _added(document, lines, path, value)


def _added(document: Document, lines: list[str], path: Place, value: str) -> str:
    parent, key = path[:-1], path[-1]
    children = [p for p in document.spans if len(p) == len(path) and p[:-1] == parent]
    if not children:
        raise AssertionError(f"{parent} is not there, or is no group, so that {key} cannot be added")
    if isinstance(key, int):
        last = document.span(children[-1]).line - 1
        dash = lines[last][: document.span(children[-1]).column - 1]
        lines.insert(_end(lines, last), f"{dash}{value}\n")
        return "".join(lines)
    mark = document.key_span(children[0])
    opens = bool(lines[mark.line - 1][: mark.column - 1].strip())  # the key stands behind a dash
    lines.insert(mark.line if opens else mark.line - 1, f"{' ' * (mark.column - 1)}{key}: {value}\n")
    return "".join(lines)


def _end(lines: list[str], first: int) -> int:
    """The line after the block that starts on line ``first``: the next one that is indented no deeper."""
    depth = len(lines[first]) - len(lines[first].lstrip())
    for number in range(first + 1, len(lines)):
        line = lines[number]
        if line.strip() and len(line) - len(line.lstrip()) <= depth:
            return number
    return len(lines)


def _path(document: Document, dotted: str) -> Place:
    """``procedure.melt.oven`` names a step by its id, ``formula.feedstock.0`` a lot by its index."""
    head, *rest = dotted.split(".")
    path: list[str | int] = [head, *(int(part) if part.isdigit() else part for part in rest)]
    if head == "procedure" and rest and not rest[0].isdigit():
        ids = [step.get("id") for step in document.data["procedure"]]
        path[1] = ids.index(rest[0])
    return tuple(path)


def _dimension(document: Document, dotted: str, shelf: Shelf) -> Dimension:
    path = _path(document, dotted)
    steps = {step.index: step.process for step in Recipe(document, shelf.schemas).steps}
    process = steps.get(int(path[1])) if path[0] == "procedure" else None
    dimension = schema_field(path, process, shelf.schemas).dimension
    assert dimension is not None, f"{dotted} is no quantity"
    return dimension


def _plain(case: Subject) -> list[Fact]:
    return [fact for fact in case.facts.values() if fact.dimension != "record"]


def _of(fact: Fact, of: str) -> float:
    low, high = fact.band()
    return {"nominal": fact.nominal, "low": low, "high": high, "worst": fact.worst(highest=True)}[of]


def _step(si: float, dimension: Dimension, count: int) -> float:
    """The displayed value ``count`` displayed steps further on."""
    for _ in range(abs(count)):
        size = resolution(dimension, si if count > 0 else si * (1 - 1e-9))
        si = rounded(si + (size if count > 0 else -size), dimension)
    return si


def _ladder(start: float, stop: float, dimension: Dimension) -> list[float]:
    """Every displayed value from ``start`` to ``stop``, in that order."""
    low, high = sorted((start, stop))
    values = [rounded(low, dimension)]
    while values[-1] < high:
        values.append(_step(values[-1], dimension, 1))
        assert values[-1] > values[-2], f"no step leads on from {values[-1]} {dimension}"
    return values if start < stop else values[::-1]


def _said(si: float, dimension: Dimension) -> str:
    return show(si, dimension).partition(" (")[0]


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """A test that asks for ``fires`` or ``quiet`` runs once for each such case, one for ``base`` once for each base."""
    if "base" in metafunc.fixturenames:
        metafunc.parametrize("base", [file.stem for file in sorted(CASES.glob("base*.yaml"))])
    for kind in ("fires", "quiet"):
        if kind in metafunc.fixturenames:
            chosen = [c for c in load_cases() if c.fires is (kind == "fires")]
            metafunc.parametrize(kind, chosen, ids=[c.id for c in chosen])


@pytest.fixture(scope="session")
def cases() -> tuple[Case, ...]:
    """All cases."""
    return load_cases()


@pytest.fixture(scope="session", name="edit")
def _edit() -> Callable[[str, str | Place, str], str]:
    """One edit of a document; see `edit`."""
    return edit
