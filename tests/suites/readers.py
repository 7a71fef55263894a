"""Which places of a recipe a rule reads: by name, through the sheets it asks, and through the facts it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from recipes_core.facts import Fact, Given, Open, Source
from recipes_core.rules.rule import Scope
from recipes_core.rules.trail import leaves

if TYPE_CHECKING:
    from recipes_core.case import Case, Value
    from recipes_core.findings import Path
    from recipes_core.rules.rule import Rule

SHEETS: Mapping[str, tuple[str, ...]] = {
    "resin": ("lot.resin", "lot.grade", "lot.share"),
    "resins": ("lot.resin",),
    "liner": ("formula.liner.tray",),
    "liners": ("formula.liner.tray", "formula.liner.over", "formula.liner.platen_top", "formula.liner.platen_bottom"),
    "liner over": ("formula.liner.over",),
    "liner mould": ("formula.liner.mould",),
    "liner platen top": ("formula.liner.platen_top",),
    "liner platen bottom": ("formula.liner.platen_bottom",),
    "tray material": ("equipment.tray.material",),
    "mould material": ("equipment.mould.material",),
    "platen material": ("equipment.press.platen.material",),
    "former material": ("former.material",),
}
"""Where the recipe names the sheet that a value is asked of."""
KINDS, SET = ("procedure.*.process",), ("procedure.*.oven", "procedure.*.platens")
LOTS = ("lot.resin", "lot.share", "lot.grade", "lot.melt_flow.value", "lot.melt_flow.load", "lot.melt_flow.at")
WHOLE: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("heating steps", "plastic heating steps", "fuming steps", "cutting steps"), KINDS),
    **dict.fromkeys(("fuming oven steps", "pressing steps", "bending steps"), KINDS),
    **dict.fromkeys(("sanding steps", "planing steps", "melts"), KINDS),
    **dict.fromkeys(("hottest setting", "plastic heated to"), (*KINDS, *SET)),
    **dict.fromkeys(("sum of shares", "pairs", "melt flow ratio", "plastics shredded"), LOTS),
    "broken joins": (*KINDS, "lot.form"),
    "oven clashes": (*KINDS, *SET, "procedure.*.alongside"),
    "stated hazards": ("procedure.*.hazards",),
    "mark": ("formula.feedstock", "part.claims"),
    "missing tools": ("procedure.*.tool", "equipment"),
    "limit lists": ("site.limits_from",),
    "machines": KINDS,
    "sorting steps": KINDS,
    "unwashed step": KINDS,
    "texts": ("notes", "procedure.*.notes", "procedure.*.until"),
    "evidence": ("lot.identified_by", "lot.resin", "lot.mark_seen", "lot.density", "lot.pair_floats"),
    "water when heated": (*KINDS, "lot.moisture"),
}
"""What the facts about a recipe as a whole are made of; they keep no trail of their own."""


def near(one: Path, other: Path) -> bool:
    """Whether one of two places holds the other, or both are the same."""
    return one[: len(other)] == other or other[: len(one)] == one


def touches(changed: Path, read: Path) -> bool:
    """Whether a change at one place changes what is read at the other: itself, what it holds, or the list it is in."""
    return read[: len(changed)] == changed or (changed[:-1] == read and isinstance(changed[-1], int))


def behind(value: Value, name: str = "") -> Iterator[Path]:
    """The places that a value rests on, and those where what it lacks would stand."""
    for _, given in leaves({name: value}):
        yield given.origin.path
    stack, seen = [value], set()
    while stack:
        value = stack.pop()
        if id(value) in seen:
            continue
        seen.add(id(value))
        if isinstance(value, Open):
            yield from (path for path, question in value.needs if question)
        elif isinstance(value, Fact):
            stack += [*value.inputs.values(), *([value.value] if isinstance(value.value, Open) else [])]


def reads(rule: Rule, case: Case) -> Iterator[Path]:
    """Every place that a rule reads when it runs on this case."""
    if case.machine and case.step is not None:
        yield (*case.step.path, "by")  # whether the machine runs at all
    for name in dict.fromkeys((*rule.reads, *rule.may_read)):
        try:
            yield from place(name, case)
        except LookupError:  # the step runs no machine, or knows no such field
            continue


def place(name: str, case: Case) -> Iterator[Path]:
    """The places behind one name."""
    if name.startswith("fact:"):
        for whole in WHOLE.get(name[5:], ()):
            yield from _everywhere(whole, case)
        fact = case.facts.get(name[5:])
        if fact is not None:
            yield from behind(fact)
            yield from _naming(case, fact)
        return
    if ":" in name:
        kind = name.partition(":")[0]
        for where in SHEETS.get(kind, ()):
            yield from _everywhere(where, case)
        yield from behind(case.get(name))
        return
    path, _ = case.path(name)
    yield path
    value = case.get(name)
    if isinstance(value, Given):
        yield value.origin.path


def _naming(case: Case, fact: Fact) -> Iterator[Path]:
    """Where the recipe names the sheets that a fact rests on."""
    sheets = {
        given.origin.where.partition(" sheet: ")[0]
        for _, given in leaves({"": fact})
        if given.origin.source is Source.SHEET
    }
    for path, text in _texts(case.recipe.document.data):
        if (path[-1] in ("material", "resin") or path[:2] == ("formula", "liner")) and text in sheets:
            yield path


def _texts(data: Any, path: Path = ()) -> Iterator[tuple[Path, str]]:
    inner = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for name, value in inner:
        if isinstance(value, str):
            yield (*path, name), value
        else:
            yield from _texts(value, (*path, name))


def _everywhere(name: str, case: Case) -> Iterator[Path]:
    """The place of a name in every lot, or in every step where it says ``*``."""
    head, *names = name.split(".")
    rest: Path = tuple(names)
    if head == "lot":
        lots = case.recipe.lots if case.lot is None else (case.lot,)
        yield from (("formula", "feedstock", lot, *rest) for lot in lots)
    elif rest[:1] == ("*",):
        yield from ((*step.path, *rest[1:]) for step in case.recipe.steps)
    else:
        yield case.path(name)[0] if head == "former" else (head, *rest)


def moved(rule: Rule, before: Case, after: Case) -> bool:
    """Whether anything that a rule reads is another value in one case than in the other."""
    return any(not same(value(name, before), value(name, after)) for name in (*rule.reads, *rule.may_read))


def value(name: str, case: Case) -> Value:
    """What is behind a name, None where the case knows no such name."""
    try:
        return case.get(name)
    except LookupError:
        return None


def same(one: Any, other: Any) -> bool:
    """Whether two values say the same, whoever gave them and in whatever words."""
    one, other = (v.value if isinstance(v, Given | Fact) else v for v in (one, other))
    if one is other or type(one) is not type(other):
        return one is other
    if isinstance(one, np.ndarray):
        return np.array_equal(one, other)
    try:
        return bool(one == other)
    except ValueError:  # records that hold arrays
        return False


def meant_for(rule: Rule, case: Case, marks: Mapping[str, frozenset[str]]) -> bool:
    """Whether a rule runs on a case."""
    if rule.scope is Scope.STEP:
        return case.step is not None and bool(marks.get(case.step.process, frozenset()) & set(rule.on))
    if rule.scope is Scope.LOT:
        return case.lot is not None
    return case.step is None and case.lot is None


def read_by(rules: Iterable[Rule], cases: Iterable[Case], marks: Mapping[str, frozenset[str]]) -> frozenset[Path]:
    """Every place that any of the rules reads in any of the cases."""
    cases = list(cases)
    return frozenset(p for rule in rules for case in cases if meant_for(rule, case, marks) for p in reads(rule, case))
