"""Explains a field of a recipe: what it is, the words or units it takes, and which rules read it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from recipes_core.schema.fields import Absent, fields

if TYPE_CHECKING:
    from recipes_core.rules.rule import Rule
    from recipes_core.schema import Schemas
    from recipes_core.schema.fields import Field

ABSENCE = {
    Absent.ASK: "it is asked for where a rule needs it",
    Absent.ANSWER: "it is asked for; a recipe is not complete without it",
    Absent.UNSAID: "it is taken as not so",
}
_LIST_OF_LOTS = ("formula", "feedstock")


def names_of(schemas: Schemas) -> dict[str, list[Field]]:
    """Every field by its dotted path, and by its last part alone."""
    found: dict[str, list[Field]] = {}
    for field in fields(schemas):
        for name in {_dotted(field), ".".join(field.path), field.path[-1]}:
            found.setdefault(name.lower(), []).append(field)
    return found


def field_lines(named: list[Field], rules: Mapping[str, Rule]) -> Iterator[tuple[str, str]]:
    """A word for the margin and a text, for each field of that name."""
    for field in named:
        yield "", f"{_dotted(field)} (a field of the recipe{'; a list' if field.is_list else ''})"
        yield "is", field.means
        yield "asks", field.ask
        if field.dimension:
            yield "takes", f"{field.dimension.noun}, a number with its unit"
        if words := [*field.choices, *(form for form in field.forms if "{}" in form and form != "{}")]:
            yield "or" if field.dimension else "takes", " | ".join(word.replace("{}", "…") for word in words)
        yield "not said", ABSENCE[field.absent]
        yield "rules", ", ".join(sorted(rule.id for rule in rules.values() if _reads(rule, field)))


def _dotted(field: Field) -> str:
    """As findings name it: ``at_least`` of a step without its ``procedure``, but with the process it belongs to."""
    if field.path[:1] == ("procedure",):
        return ".".join(([field.process] if field.process else ["step"]) + list(field.path[1:]))
    return ".".join(field.path)


def _reads(rule: Rule, field: Field) -> bool:
    named = {".".join(field.path[1:] if field.path[:1] == ("procedure",) else field.path)}
    if field.path[:2] == _LIST_OF_LOTS:
        named.add(".".join(("lot", *field.path[2:])))
    if field.path[:1] == ("equipment",):
        named.add(".".join(("machine", *field.path[2:])))
    meant = field.process is None or not rule.on or bool({field.process, "any step"} & set(rule.on))
    return meant and bool(named & {*rule.reads, *rule.may_read})
