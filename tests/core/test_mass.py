"""The mass balance of a whole recipe: what each process took off is taken off, and nobody is asked in vain."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from recipes_core.facts import Fact, Given, Open, Origin, Source
from recipes_core.forecast import Kindred, walk
from recipes_core.work import Outcome, Work

if TYPE_CHECKING:
    from recipes_core.case import Case
    from tests.conftest import Shop


def weighs(case: Case, work: Work) -> Outcome:
    """The charge, a part of 300 g that was pressed at 340 g."""
    charge = case.middle("formula.charge")
    facts = {n: Fact(n, "mass", [kg], "") for n, kg in (("finished part", 0.3), ("pressed piece", 0.34))}
    return Outcome(work.after("part", charge=charge, mass=charge), facts)


def takes(kilogram: float) -> Any:
    """A forecast that takes so much off."""

    def forecast(case: Case, work: Work) -> Outcome:
        assert isinstance(work.mass, Given)
        left = Given(work.mass.value - kilogram, "", Origin(Source.COMPUTED))
        return Outcome(work.after("part", mass=left), {})

    return forecast


def gap(shop: Shop, changes: dict[str, Any], *kinds: Kindred) -> Fact:
    """The gap after steps of these kinds."""
    named = {f"kind-{at}": kind for at, kind in enumerate(kinds)}
    steps = [{"id": name, "process": name} for name in named]
    case = shop.case({"procedure": steps, **changes})
    return walk(case.recipe, case, named).whole["mass gap"]


WEIGH = Kindred((), "part", frozenset(), weighs)


@pytest.mark.parametrize(
    ("trims", "loss", "gram"),
    [
        ((), None, 375 - 300 - 0.05 * 340),
        ((), "6 g", 375 - 6 - 300 - 0.05 * 340),
        (("trims",), None, 375 - 17 - 300),
        (("trims",), "6 g", 375 - 17 - 6 - 300),
    ],
)
def test_flash_counts_once(shop: Shop, trims: tuple[str, ...], loss: str | None, gram: float) -> None:
    """As the allowance where nobody trims, as what was taken off where somebody does; by hand, 375 g at 5 %."""
    cut = Kindred((), "", frozenset(trims), takes(0.017 if trims else 0.0))
    found = gap(shop, {"formula.tray_loss": loss} if loss else {}, WEIGH, cut)
    assert found.nominal * 1e3 == pytest.approx(gram)


def test_chips_are_what_is_missing(shop: Shop) -> None:
    """40 g of chips and 17 g of flash make 375 g into a part of 300 g, with 18 g to spare."""
    found = gap(shop, {}, WEIGH, Kindred((), "", frozenset({"trims"}), takes(0.017)),
                Kindred((), "", frozenset(), takes(0.04)))  # fmt: skip
    assert found.nominal == pytest.approx(0.018)


def test_where_nothing_is_weighed_nobody_is_asked(shop: Shop) -> None:
    """A sheet that is only planed has no charge: open, without a question."""
    nothing = Kindred((), "", frozenset(), lambda case, work: Outcome(work, {}))
    value = gap(shop, {"formula.charge": None}, nothing).value
    assert isinstance(value, Open)
    assert {question for _, question in value.needs} == {""}


def test_a_charge_that_nobody_gave_is_asked_for(shop: Shop) -> None:
    """The weighing step is there, its number is not."""
    value = gap(shop, {"formula.charge": None}, WEIGH).value
    assert isinstance(value, Open)
    assert ("formula", "charge") in {path for path, _ in value.needs}
