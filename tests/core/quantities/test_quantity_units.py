"""Every unit against pint, which is independent code (https://pint.readthedocs.io, its default registry)."""

from __future__ import annotations

import pint
import pytest

from recipes_core.quantities import Dimension, parse
from recipes_core.quantities.steps import STEPS
from recipes_core.quantities.units import AMBIGUOUS, CHOICES, MISTAKEN, UNITS, Unit, plain

REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()

# Where pint spells a unit in another way than we do.
PINT_NAMES = {
    "°C": "degC", "°F": "degF", "F°": "delta_degF", "oz": "ounce", "US ton": "short_ton",
    "UK ton": "long_ton", "µm": "micrometer", "t": "tonne", "mm²": "mm**2", "cm²": "cm**2", "m²": "m**2",
    "in²": "in**2", "ft²": "ft**2", "mm³": "mm**3", "cm³": "cm**3", "m³": "m**3", "in³": "in**3",
    "ft³": "ft**3", "US fl oz": "fluid_ounce", "UK fl oz": "imperial_fluid_ounce", "US pt": "pint",
    "UK pt": "imperial_pint", "US qt": "quart", "UK qt": "imperial_quart", "US gal": "gallon",
    "UK gal": "imperial_gallon", "Btu/h": "Btu_it/h", "Btu/lb": "Btu_it/lb",
    "kg/m³": "kg/m**3", "g/cm³": "g/cm**3",
    "lb/ft³": "lb/ft**3", "W/(m K)": "W/m/delta_degC", "Btu/(h ft °F)": "Btu_it/h/ft/delta_degF",
    "J/(kg K)": "J/kg/K", "kJ/(kg K)": "kJ/kg/K", "Btu/(lb °F)": "Btu_it/lb/delta_degF",
    "W/(m² K)": "W/m**2/K", "Btu/(h ft² °F)": "Btu_it/h/ft**2/delta_degF", "g/m²": "g/m**2",
    "kg/m²": "kg/m**2", "lb/ft²": "lb/ft**2", "Pa s": "Pa*s", "%": "percent",
}  # fmt: skip
SI_BASE = {
    Dimension.TEMPERATURE: "K", Dimension.TEMPERATURE_DIFFERENCE: "K", Dimension.MASS: "kg",
    Dimension.LENGTH: "m", Dimension.AREA: "m**2", Dimension.VOLUME: "m**3", Dimension.TIME: "s",
    Dimension.FORCE: "N", Dimension.PRESSURE: "Pa", Dimension.POWER: "W", Dimension.ANGLE: "rad",
    Dimension.SPEED: "m/s", Dimension.DENSITY: "kg/m**3", Dimension.SHARE: "dimensionless",
    Dimension.CONDUCTIVITY: "W/m/K", Dimension.HEAT_CAPACITY: "J/kg/K", Dimension.SPECIFIC_ENERGY: "J/kg",
    Dimension.MOLAR_ENERGY: "J/mol", Dimension.HEAT_TRANSFER: "W/m**2/K", Dimension.AREAL_MASS: "kg/m**2",
    Dimension.RATE: "1/s", Dimension.VISCOSITY: "Pa*s", Dimension.VOLTAGE: "V", Dimension.CURRENT: "A",
}  # fmt: skip
ALL_UNITS = sorted({unit for table in UNITS.values() for unit in table.values()})


def pint_name(unit: Unit) -> str:
    """What pint calls the unit; a ton of force is a mass in standard gravity there."""
    if unit.dimension is Dimension.FORCE and unit.name in ("t", "US ton", "UK ton"):
        return f"{PINT_NAMES[unit.name]} * standard_gravity"
    return PINT_NAMES.get(unit.name, unit.name)


@pytest.mark.parametrize("unit", ALL_UNITS, ids=lambda unit: f"{unit.dimension}-{unit.name}")
def test_factor_agrees_with_pint(unit: Unit) -> None:
    """Zero, one and a hundred of the unit are worth in SI what pint says."""
    name = pint_name(unit)
    for number in (0.0, 1.0, 100.0):
        theirs = number * REGISTRY(name) if "*" in name else REGISTRY.Quantity(number, name)
        si = theirs.to(SI_BASE[unit.dimension]).magnitude
        assert number * unit.factor + unit.offset == pytest.approx(si, rel=1e-9, abs=1e-12)


def test_temperature_offsets() -> None:
    """Water freezes and boils, and both scales meet, where they must (ITS-90 scale definitions)."""
    assert parse("0 °C", Dimension.TEMPERATURE).value == 273.15
    assert parse("32 °F", Dimension.TEMPERATURE).value == pytest.approx(273.15)
    assert parse("212 °F", Dimension.TEMPERATURE).value == pytest.approx(373.15)
    assert parse("-40 °F", Dimension.TEMPERATURE).value == pytest.approx(parse("-40 °C", Dimension.TEMPERATURE).value)
    assert parse("18 F°", Dimension.TEMPERATURE_DIFFERENCE).value == pytest.approx(10.0)


def test_every_spelling_reads_as_its_unit() -> None:
    """Each spelling in the tables is found by the reader, with and without a space."""
    for dimension, table in UNITS.items():
        for spelling, unit in table.items():
            for gap in ("", " "):
                if spelling.startswith("1/") and not gap:
                    continue  # 21/h is no quantity
                quantity = parse(f"2{gap}{spelling}", dimension)
                assert (quantity.unit, quantity.value) == (unit.name, 2 * unit.factor + unit.offset)


def test_offers_are_units() -> None:
    """Whatever a sentence offers can be read, and nothing ambiguous is also a unit."""
    offers = [(d, name) for d, names in CHOICES.items() for name in names]
    offers += [(d, name) for d, words in AMBIGUOUS.items() for names in words.values() for name in names]
    offers += [(d, name) for (d, _), names in MISTAKEN.items() for name in names]
    for dimension, name in offers:
        assert plain(name) in UNITS[dimension]
    for dimension, words in AMBIGUOUS.items():
        assert not set(words) & set(UNITS[dimension])


def test_every_dimension_is_complete() -> None:
    """Each dimension has units, choices to offer and a table of steps."""
    assert set(UNITS) == set(CHOICES) == set(STEPS) == set(SI_BASE) == set(Dimension)
