"""The engine: runs every rule on every case it is meant for, each in its own guard.

An open value in what a rule reads becomes one question for each path, naming the rules it stops. An exception
becomes a finding that says which check did not run. Nothing of either kind ever counts as passed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from recipes_core.case import Case
from recipes_core.errors import reason
from recipes_core.facts import Fact, Open, told_source
from recipes_core.findings import Finding, Kind, Level, Path
from recipes_core.rules import trail
from recipes_core.rules.reading import Reading
from recipes_core.rules.rule import Hit, Rule, Scope

DID_NOT_RUN = "check-did-not-run"
QUESTION = "question"
NAMED = 4
"""How many of the rules that a question stops are named."""


@dataclass
class Judgement:
    """All that came of judging one recipe."""

    findings: list[Finding] = field(default_factory=list)
    passed: list[str] = field(default_factory=list)
    not_applicable: list[str] = field(default_factory=list)
    questions: dict[Path, _Question] = field(default_factory=dict)


@dataclass
class _Question:
    text: str
    rules: dict[str, bool] = field(default_factory=dict)


def judge(rules: Iterable[Rule], cases: Sequence[Case], marks: Mapping[str, frozenset[str]], today: date) -> Judgement:
    """Run ``rules`` over ``cases`` (one for the recipe, one for each lot, one for each step).

    ``marks`` gives for each process the words a rule may name it by: its id and what it does to the work.
    """
    result = Judgement()
    rules = sorted(rules, key=lambda r: r.id)
    for rule in rules:
        meant = [case for case in cases if _is_for(rule, case, marks)]
        if not meant:
            result.not_applicable.append(rule.id)
        for case in meant:
            _run(rule, case, today, result)
    file = cases[0].recipe.document.name if cases else ""
    refusing = {rule.id for rule in rules if rule.refuses_plastic}
    refused = any(found.rule in refusing for found in result.findings)
    for path, question in _gathered(result.questions):
        if refused and _of_sheet(path):  # it asks for a trial, of what nobody may try
            continue
        result.findings.append(_asked(path, question, cases[0], file))
    result.findings.sort(key=lambda f: (f.span is None, f.span, f.rule))
    return result


def _gathered(questions: Mapping[Path, _Question]) -> Iterator[tuple[Path, _Question]]:
    """The questions in the order of their paths; what one sheet lacks for the same rules is asked for in one."""
    groups: dict[Any, list[tuple[Path, _Question]]] = {}
    for path, question in sorted(questions.items(), key=lambda q: [str(p) for p in q[0]]):
        lacks = len(path) == 3 and question.text == f"the data sheet of {path[1]} gives no {path[2]}"
        groups.setdefault((path[:2], tuple(sorted(question.rules))) if lacks else path, []).append((path, question))
    for (path, question), *others in groups.values():
        if others:
            *names, last = (str(p[-1]) for p, _ in ((path, question), *others))
            question.text = f"the data sheet of {path[1]} gives no {', '.join(names)} and no {last}"
        yield path, question


def _of_sheet(path: Path) -> bool:
    return bool(path) and str(path[0]).endswith(" sheet")


def _is_for(rule: Rule, case: Case, marks: Mapping[str, frozenset[str]]) -> bool:
    if rule.scope is Scope.STEP:
        return case.step is not None and bool(marks.get(case.step.process, frozenset()) & set(rule.on))
    if rule.scope is Scope.LOT:
        return case.lot is not None
    return case.step is None and case.lot is None


def _run(rule: Rule, case: Case, today: date, result: Judgement) -> None:
    if case.failed and any(name.startswith("fact:") for name in rule.reads):
        return  # its forecast did not run, which is a finding of its own; nothing is passed
    reading = Reading(case, rule, today)
    where = f"{rule.id}@{case.step.id}" if case.step else rule.id
    try:
        if rule.when is not None and not rule.when(reading):
            result.not_applicable.append(where)
            return
        needs, unsaid = _open(rule, reading)
        if unsaid or (needs is not None and not any(text for _, text in needs)):
            result.not_applicable.append(where)
            return
        if needs is not None:
            for path, text in needs:
                if text:
                    question = result.questions.setdefault(path, _Question(text))
                    question.rules[rule.id] = rule.absolute
            return
        hits = list(rule.test(reading))
        found = [_finding(rule, hit, reading) for hit in hits]
    except (Exception, SystemExit) as error:  # a rule is foreign code: whatever it raises is contained here
        result.findings.append(_crash(rule, case, error))
        return
    result.findings.extend(f for f in found if not any(_says_the_same(f, other) for other in result.findings))
    if not found:
        result.passed.append(where)


def _says_the_same(one: Finding, other: Finding) -> bool:
    """Two steps that run into the same line of the site or the equipment need to be told once."""
    return (one.rule, one.path, one.found, one.limit) == (other.rule, other.path, other.found, other.limit)


def _open(rule: Rule, reading: Reading) -> tuple[frozenset[tuple[Path, str]] | None, bool]:
    """What the rule still needs (None: nothing), and whether a field it reads was rightly not said."""
    needs: frozenset[tuple[Path, str]] = frozenset()
    opened = False
    for name in (*rule.reads, *(rule.also(reading) if rule.also else ())):
        value = reading.raw(name)
        if value is None:
            return None, True
        if isinstance(value, Fact):
            value = value.value
        if isinstance(value, Open):
            opened = True
            needs |= value.needs
    return (needs if opened else None), False


def _finding(rule: Rule, hit: Hit, reading: Reading) -> Finding:
    if not isinstance(hit, Hit):
        raise TypeError(f"rule {rule.id} yielded {type(hit).__name__}, not a Hit")
    case = reading.case
    path = case.path(hit.at)[0] if isinstance(hit.at, str) else hit.at
    values = {name: reading.raw(name) for name in rule.reads}
    document = case.recipe.document
    return Finding(
        rule=rule.id,
        level=hit.level or rule.level,
        kind=Kind.FAIL,
        message=hit.message or rule.message,
        file=document.name,
        path=path,
        span=document.span(path),
        found=hit.found,
        limit=hit.limit,
        margin=hit.margin,
        why=rule.why,
        do=hit.do if hit.advice else hit.do or rule.do,
        origins=trail.origins(values),
        basis=trail.basis(values),
        sources=tuple(told_source(source) for source in rule.sources),
        absolute=rule.absolute,
        advice=hit.advice,
    )


def _group(path: Path) -> str:
    """Where a key goes, in words: ``step 2``, ``formula feedstock``, ``equipment press``."""
    if len(path) > 1 and path[0] == "procedure" and isinstance(path[1], int):
        return " ".join([f"step {path[1] + 1}", *(str(p) for p in path[2:])])
    return " ".join(p for p in path if isinstance(p, str))


def _asked(path: Path, question: _Question, case: Case, file: str) -> Finding:
    absolute = any(question.rules.values())
    names = sorted(question.rules, key=lambda name: (not question.rules[name], name))
    stopped = ", ".join(names[:NAMED]) + (f" and {len(names) - NAMED} more" if len(names) > NAMED else "")
    shop = bool(path) and path[0] in ("equipment", "site")
    sheet = _of_sheet(path)
    if "not computed yet" in question.text:
        do = "change the recipe; meltbook does not reach further today"
    elif sheet:
        do = "nobody has put this on record: try it short and small, or add it to the data sheet with its source"
    else:
        key = path[-1] if path else ""
        do = f"{'your shop must answer this: ' if shop else ''}write {key}: and the answer under {_group(path[:-1])}"
    return Finding(
        rule=QUESTION,
        level=Level.ERROR if absolute else Level.WARNING,
        kind=Kind.OPEN,
        message=question.text,
        file=file,
        path=path,
        span=None if sheet else case.recipe.document.span(path),
        why=f"needed to judge {stopped}",
        do=do,
        absolute=absolute,
    )


def _crash(rule: Rule, case: Case, error: BaseException) -> Finding:
    step = f" on step {case.step.id}" if case.step else ""
    return Finding(
        rule=DID_NOT_RUN,
        level=Level.ERROR,
        kind=Kind.REVIEW,
        message=f"The check {rule.id}{step} did not run: {reason(error)}.",
        file=case.recipe.document.name,
        path=case.step.path if case.step else (),
        span=case.recipe.document.span(case.step.path) if case.step else None,
        why="a check that did not run says nothing; this recipe was not fully checked",
        do="report this to whoever made the plugin that holds the rule",
        absolute=rule.absolute,
    )
