"""Limits that a document states, met by the rules to the displayed step; the document is named beside each."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.quantities import Dimension, parse, resolution, show

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.rules.conftest import Bench


def fires(bench: Bench, edit: Callable[[str, str, str], str], rule: str, changes: dict[str, str]) -> bool:
    """Whether the rule speaks against the first base with these changes."""
    text = bench.bases["base"]
    for at, value in changes.items():
        text = edit(text, at, value)
    return rule in {finding.rule for finding in bench.judge(text).linted.findings}


@pytest.mark.parametrize(
    ("volts", "amps", "watts"), [(120, 15, 1440), (120, 20, 1920), (240, 20, 3840), (240, 30, 5760), (230, 16, 2944)]
)
def test_continuous_load(bench: Bench, edit: Callable[[str, str, str], str], volts: int, amps: int, watts: int) -> None:
    """On for three hours or more: 80 % of volts times amps (NEC 210.20(A) and its definition of a continuous load,
    United States, as quoted in an equipment bulletin; the last row is arithmetic only).
    """
    supply = {
        "equipment.oven.supply.volts": f"{volts} V",
        "equipment.oven.supply.amps": f"{amps} A",
        "equipment.oven.supply.continuous_for": "3 h",
    }
    step = resolution(Dimension.POWER, watts)
    for power, over in ((watts, False), (watts + step, True)):
        shown = show(power, Dimension.POWER)
        assert parse(shown, Dimension.POWER).low == pytest.approx(power, abs=step / 2)
        changes = {**supply, "equipment.oven.power": shown}
        assert fires(bench, edit, "circuit-overloaded", changes) is over, shown
