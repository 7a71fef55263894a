"""Wherever one number may stand, a range may: nothing crashes, and the recipe is still judged in full."""

from __future__ import annotations

from typing import TYPE_CHECKING

from recipes_core.document import Document, read
from recipes_core.quantities import QuantityError, parse
from recipes_core.schema.fields import field

if TYPE_CHECKING:
    from collections.abc import Callable

    from recipes_core.findings import Path
    from tests.rules.conftest import Bench


def quantities(document: Document, bench: Bench) -> dict[Path, str]:
    """Every single quantity of a document with a range of 2 % about it."""
    found = {}
    for path, entry in document.spans.items():
        if not entry.plain:
            continue
        step = path[1] if path[0] == "procedure" and len(path) > 2 else None
        process = document.data["procedure"][step]["process"] if step is not None else None
        dimension = field(path, process, bench.shelf.schemas).dimension
        if dimension is None:
            continue
        number, _, unit = document.literal(path).partition(" ")
        try:
            parse(f"{number} {unit}", dimension)
            found[path] = f"{float(number) * 0.98:g} - {float(number) * 1.02:g} {unit}"
        except (QuantityError, ValueError):
            continue
    return found


def test_a_range_is_read_wherever_a_number_is(bench: Bench, edit: Callable[[str, Path, str], str]) -> None:
    """One field at a time."""
    base = bench.bases["base"]
    ranges = quantities(read(base), bench)
    assert len(ranges) > 40
    for path, text in ranges.items():
        rules = {f.rule for f in bench.judge(edit(base, path, text)).linted.findings}
        assert not rules & {"forecast-did-not-run", "check-did-not-run", "quantity-not-read"}, (path, text, rules)
