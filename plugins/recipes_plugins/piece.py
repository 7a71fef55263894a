"""The piece that is cut, as processes that cut it see it: its size, its mass, how warm it is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from recipes_core.plugin_api import NOTHING, Fact, Given, Open, calc

if TYPE_CHECKING:
    from recipes_core.plugin_api import Case, Value, Work


def is_custom(case: Case) -> bool:
    """Whether the part is of a shape of its own, which says its volume and area itself."""
    shape = case.get("part.shape")
    return isinstance(shape, Given) and shape.value == "custom"


def area(case: Case) -> Value:
    """The area of its face, m²."""
    if is_custom(case):
        return case.middle("part.projected_area")
    return calc(
        "face",
        "area",
        "length × width",
        lambda length, width: length * width,
        length=case.middle("part.length"),
        width=case.middle("part.width"),
    )


def volume(case: Case) -> Value:
    """The volume of the finished part, m³."""
    if is_custom(case):
        return case.middle("part.volume")
    return calc(
        "part volume",
        "volume",
        "length × width × thickness",
        lambda length, width, thickness: length * width * thickness,
        length=case.middle("part.length"),
        width=case.middle("part.width"),
        thickness=case.middle("part.thickness"),
    )


def thickness(case: Case, work: Work) -> Fact:
    """As the steps before left it; where none of them says, the finished part with its machining stock."""
    if work.thickness is not NOTHING:
        return calc(
            "thickness before", "length", "as it comes", lambda thickness: [first(thickness)], thickness=work.thickness
        )
    return calc(
        "thickness before",
        "length",
        "thickness of the part + machining stock",
        lambda part, machining_stock=0.0: [part + machining_stock],
        part=case.middle("part.thickest" if is_custom(case) else "part.thickness"),
        **said(case, "formula.machining_stock"),
    )


def warmth(case: Case, work: Work) -> Fact:
    """How warm it is when it is cut: as the step says, else as the step before left it; open where nobody knows."""
    here = case.middle("part_at")
    left = work.left_warm
    asked = isinstance(here, Given) or left is None or isinstance(left, Open)
    return calc(
        "part when cut",
        "temperature",
        "as the step says" if asked else "as the step before left it",
        lambda part: part if hasattr(part, "__len__") else [part],
        part=here if asked else left,
    )


def density(case: Case) -> Value:
    """The density of the solid, kg/m³; the plastic's name is asked for where its sheet can only give a span."""
    value = case.get("resin:density solid")
    if isinstance(value, Given) and isinstance(value.value, tuple):
        return case.resin_ids()[0]
    return value


def removed_mass(case: Case, name: str, off: Value) -> Fact:
    """What a layer taken off the whole face weighs, kg."""
    return calc(
        name,
        "mass",
        "area of the face × thickness taken off × solid density",
        lambda face, off, density: [first(face) * first(off) * density],
        face=area(case),
        off=off,
        density=density(case),
    )


def mass_left(work: Work, loss: Value) -> Fact:
    """What remains of the charge after this step, kg."""
    return calc(
        "mass left",
        "mass",
        "what there was - what this step takes off",
        lambda mass, loss: [first(mass) - first(loss)],
        mass=work.mass,
        loss=loss,
    )


def said(case: Case, name: str) -> dict[str, Value]:
    """The field by its last word, for an input that has a default; empty where it was rightly not said."""
    value = case.middle(name)
    return {} if value is None else {name.rpartition(".")[2]: value}


def at_room(table: Any) -> float:
    """A property at 20 °C, from its table over temperature."""
    import numpy as np  # here, so that rules may use this module without it

    temperatures, values = table
    return float(np.interp(293.15, temperatures, values))


def first(value: Any) -> float:
    """The nominal number of a fact, the lower end of a range, or the number itself."""
    return float(value[0]) if hasattr(value, "__len__") else float(value)


def count(value: Value) -> Value:
    """A count, which a recipe writes as a word, as a number."""
    return Given(float(value.value), value.text, value.origin) if isinstance(value, Given) else value
