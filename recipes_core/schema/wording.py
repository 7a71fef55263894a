"""What a person is told about a place that does not fit the schema: what is wrong, why, and what to do."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from recipes_core.findings import Change, Finding, Kind, Level, Path, Way
from recipes_core.quantities import Dimension, QuantityError
from recipes_core.schema.compose import Schema
from recipes_core.schema.near import certain, near
from recipes_core.schema.respell import respelled

_WHY = {
    "key-not-known": "nothing reads a key that is not known, so what it says would go unchecked",
    "format-missing": "the same words may mean other things in another format",
    "key-missing": "without it the recipe cannot be told apart, read or followed",
    "value-missing": "a key without a value answers nothing",
    "wrong-shape": "nothing can be read from a value of another shape",
    "choice-not-known": "rules read these words exactly; another word would go unjudged",
    "text-not-read": "other parts of the recipe, and programs, go by this text",
    "unit-missing": "a number without its unit can mean two very different things",
    "quantity-not-read": "what cannot be read cannot be judged",
    "process-not-known": "a step of an unknown process cannot be judged at all",
    "step-id-twice": "steps are named by their id; two of the same name cannot be told apart",
    "step-not-known": "it is not clear beside what this step runs",
    "key-refused": "nothing may be said there",
    "too-many-faults": "nobody reads more at once",
    "allowances-in-recipe": "whoever writes a recipe does not bear the risk of those who follow it",
}
_LONGEST = 60  # characters of the author's text that a sentence repeats


def fault(rule: str, path: Path, message: str, **more: Any) -> Finding:
    """A finding of the schema check; its place in the text is added by the check."""
    return Finding(rule, Level.ERROR, Kind.FAIL, message, path=path, why=_WHY.get(rule, ""), **more)


def unknown_key(path: Path, known: Iterable[str], given: Iterable[str], rivals: Iterable[str] = ()) -> Finding:
    """A key that its group does not have; ``given`` are the other keys that stand there.

    ``rivals`` are keys that may have been meant besides those ``known``, and are not proposed.
    """
    key, group, names = str(path[-1]), place(path[:-1]), list(known)
    name = near(key, [name for name in names if name not in given])
    if name is None:
        do = f"use one of {_listed(names)}; begin a key of your own with x-" if names else "take it out"
        message = f"`{short(key)}` is not a key of {group}."
        return fault("key-not-known", path, message, found=short(key), do=do)
    return fault(
        "key-not-known",
        path,
        f"`{short(key)}` is not a key of {group}: did you mean `{name}`?",
        found=short(key),
        do=f"write `{name}`; begin a key of your own with x-",
        advice=_sure(Change(path, name, key=True), key, (*names, *rivals)),
    )


def missing_key(path: Path) -> Finding:
    """A key that a recipe cannot be without."""
    if path == ("format",):
        message = "The recipe does not say which format it is written in."
        return fault("format-missing", path, message, do="begin it with `format: recipe/1`")
    message = f"`{path[-1]}` is missing from {place(path[:-1])}."
    return fault("key-missing", path, message, do=f"add `{path[-1]}`")


def wrong_shape(path: Path, schema: Schema, value: Any) -> Finding:
    """One value, a list and a group of keys taken for one another, or no value at all."""
    name, wanted = place(path), schema["type"]
    if value == "":
        do = "write a value, or `unknown`, or take the key out"
        return fault("value-missing", path, f"{_upper(name)} has no value.", do=do)
    got = "one value" if isinstance(value, str) else "a list" if isinstance(value, list) else "a group of keys"
    if wanted == "array":
        plain = isinstance(value, str) and re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9 '-]*", value)
        do = f"write [{value}]" if plain else "begin each entry with a hyphen"
        advice = (Way("", (Change(path, f"[{value}]"),)),) if plain else ()
        return fault("wrong-shape", path, f"{_upper(name)} takes a list, not {got}.", do=do, advice=advice)
    if wanted == "object":
        keys = _listed(list(schema.get("properties", ())))
        message = f"{_upper(name)} takes a group of keys, not {got}."
        return fault("wrong-shape", path, message, do=f"use its keys: {keys}")
    return fault("wrong-shape", path, f"{_upper(name)} takes one value, not {got}.", do="write one value")


def empty_list(path: Path) -> Finding:
    """A list that must hold something."""
    return fault("key-missing", path, f"{_upper(place(path))} is empty.", do="add at least one entry")


def not_a_choice(path: Path, schema: Schema, value: str) -> Finding:
    """A word outside a closed list."""
    choices = list(schema.get("enum", ()))
    if not choices:
        noun = Dimension(schema["mb:quantity"]).noun
        choices = [form.replace("{}", f"({noun})") for form in schema["mb:forms"]]
    name = near(value, [*(word for word in choices if "(" not in word), "unknown"])
    hint = f": did you mean `{name}`?" if name else "."
    return fault(
        "choice-not-known",
        path,
        f"`{short(value)}` is not known for {place(path)}{hint}",
        found=short(value),
        limit=_listed(choices),
        do=f"write `{name}`" if name else f"write one of {_listed(choices)}, or `unknown`",
        advice=_sure(Change(path, name), value, choices) if name else (),
    )


def not_like(path: Path, schema: Schema, value: str) -> Finding:
    """A text that does not fit its pattern."""
    like = schema["mb:like"]
    message = f"`{short(value)}` does not fit {place(path)}."
    return fault("text-not-read", path, message, found=short(value), do=f"write {like}")


def not_a_quantity(path: Path, schema: Schema, value: str, error: QuantityError) -> Finding:
    """A text that is no quantity; the sentence is the reader's own, which offers what to write."""
    sentence = error.sentence
    dimension = Dimension(schema["mb:quantity"])
    bare = re.fullmatch(r"[-−]?[0-9.]+( *[-–] *[0-9.]+)?", value[error.start : error.end])
    rule = "unit-missing" if bare else "quantity-not-read"
    ending = "" if sentence.endswith((".", "?")) else "."
    # a sentence that begins with the author's own word keeps it as it is: mm is not Mm
    start = sentence if sentence.partition(" ")[0] in value else _upper(sentence)
    sure = respelled(value, dimension, tuple(schema.get("mb:forms", ("{}",))), schema.get("mb:zero", False))
    do = f"write `{sure}`" if sure else f"write {dimension.noun}: a number with its unit, or `unknown`"
    advice = (Way("", (Change(path, sure),)),) if sure else ()
    return fault(rule, path, f"{start}{ending}", found=short(value), do=do, advice=advice)


def refused(path: Path, reason: str) -> Finding:
    """A key that no recipe may have."""
    rule = "allowances-in-recipe" if path == ("allowances",) else "key-refused"
    return fault(rule, path, reason, found=str(path[-1]), do="take it out of the recipe")


def unknown_process(path: Path, process: str, known: Iterable[str]) -> Finding:
    """A process that no installed plugin has."""
    names = sorted(known)
    name = near(process, names)
    hint = f": did you mean `{name}`?" if name else "."
    return fault(
        "process-not-known",
        path,
        f"No process `{short(process)}` is installed{hint}",
        found=short(process),
        limit=", ".join(names),
        do=f"write `{name}`" if name else "name an installed process, or install the plugin that has it",
        advice=_sure(Change(path, name), process, names) if name else (),
    )


def unknown_step(path: Path, step: str, known: Iterable[str]) -> Finding:
    """A reference to a step that is not there."""
    names = list(known)
    name = near(step, names)
    hint = f": did you mean `{name}`?" if name else "."
    advice = _sure(Change(path, name), step, names) if name else ()
    message = f"No other step has the id `{short(step)}`{hint}"
    do = f"write `{name}`" if name else "name the step that this one runs beside"
    return fault("step-not-known", path, message, found=short(step), limit=_listed(names), do=do, advice=advice)


def id_twice(path: Path, name: str, line: int) -> Finding:
    """A step id that an earlier step has."""
    message = f"The step in line {line} has the id `{short(name)}` already."
    return fault("step-id-twice", path, message, found=short(name), do="give each step an id of its own")


def _sure(change: Change, word: str, names: Iterable[str]) -> tuple[Way, ...]:
    """The change as advice, where ``word`` can have meant none of the other ``names``."""
    return (Way("", (change,)),) if certain(word, change.text, names) else ()


def too_many(most: int) -> Finding:
    """The check has stopped."""
    message = f"The check stopped after {most} faults; there may be more."
    return fault("too-many-faults", (), message, do="mend these and check again")


def place(path: Path) -> str:
    """A path in words: `equipment.oven`, step 3, `mould` of step 3, entry 2 of `site.present`."""
    if not path:
        return "the recipe"
    for at in reversed(range(len(path))):
        number = path[at]
        if isinstance(number, int):
            listed = path[:at]
            in_steps = listed == ("procedure",)
            entry = f"step {number + 1}" if in_steps else f"entry {number + 1} of {place(listed)}"
            names = [short(str(part)) for part in path[at + 1 :]]
            return f"`{'.'.join(names)}` of {entry}" if names else entry
    return "`" + ".".join(short(str(part)) for part in path) + "`"


def short(text: str) -> str:
    """The author's text on one line, cut where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST else line[: _LONGEST - 1] + "…"


def _listed(names: list[str]) -> str:
    return ", ".join(names) if len(names) <= 24 else ", ".join(names[:24]) + ", …"


def _upper(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
