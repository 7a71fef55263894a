"""The units that a bench uses: what each is worth in SI, and how people spell it.

Every factor is exact by definition: the inch (0.0254 m), the avoirdupois pound (0.45359237 kg), standard
gravity (9.80665 m/s2), the litre, the US gallon (231 in3), the UK gallon (4.54609 l), the International Table
Btu (1055.05585262 J), and all that follows from them (ounce, ton, lbf, psi, fl oz). Only pi is rounded.

Each dimension has its own table, so that one word may mean two things: ``t`` is a mass and a force, ``K`` a
temperature and a difference.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple


class Dimension(StrEnum):
    """What a quantity measures. A temperature and a difference of temperatures are two kinds."""

    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature_difference"
    MASS = "mass"
    LENGTH = "length"
    AREA = "area"
    VOLUME = "volume"
    TIME = "time"
    FORCE = "force"
    PRESSURE = "pressure"
    POWER = "power"
    ANGLE = "angle"
    SPEED = "speed"
    DENSITY = "density"
    SHARE = "share"
    CONDUCTIVITY = "conductivity"
    HEAT_CAPACITY = "heat_capacity"
    SPECIFIC_ENERGY = "specific_energy"
    MOLAR_ENERGY = "molar_energy"
    HEAT_TRANSFER = "heat_transfer"
    AREAL_MASS = "areal_mass"
    RATE = "rate"
    VISCOSITY = "viscosity"
    VOLTAGE = "voltage"
    CURRENT = "current"

    @property
    def noun(self) -> str:
        """The dimension with its article, as it stands in a sentence."""
        name = self.value.replace("_", " ")
        return f"an {name}" if name[0] in "aeiou" else f"a {name}"


class Unit(NamedTuple):
    """One unit: SI value = ``number * factor + offset``. ``inch_pound`` tells which system shows first."""

    name: str
    dimension: Dimension
    factor: float
    offset: float
    inch_pound: bool


INCH = 0.0254
FOOT = 12 * INCH
POUND = 0.45359237
OUNCE = POUND / 16
US_TON = 2000 * POUND
UK_TON = 2240 * POUND
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY
US_GALLON = 231 * INCH**3
UK_GALLON = 4.54609e-3
BTU = 1055.05585262
ZERO_CELSIUS = 273.15
ZERO_FAHRENHEIT = 459.67 * 5 / 9
MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0
DEGREE = 3.141592653589793 / 180

_SI, _IP = False, True  # which of the two systems a unit belongs to

# Per dimension: "canonical name|other spellings", factor, system[, offset].
_Row = tuple[str, float, bool] | tuple[str, float, bool, float]
_ROWS: dict[Dimension, tuple[_Row, ...]] = {
    Dimension.TEMPERATURE: (
        ("°C|C|degC|deg C|℃|Celsius|celsius|degrees C|degrees Celsius", 1.0, _SI, ZERO_CELSIUS),
        ("°F|F|degF|deg F|℉|Fahrenheit|fahrenheit|degrees F|degrees Fahrenheit", 5 / 9, _IP, ZERO_FAHRENHEIT),
        ("K|kelvin", 1.0, _SI),
    ),
    Dimension.TEMPERATURE_DIFFERENCE: (("K|kelvin|C°", 1.0, _SI), ("F°", 5 / 9, _IP)),
    Dimension.MASS: (
        ("mg|milligram|milligrams", 1e-6, _SI),
        ("g|gram|grams|gramme|grammes", 1e-3, _SI),
        ("kg|kilo|kilos|kilogram|kilograms", 1.0, _SI),
        ("t|tonne|tonnes|metric ton|metric tons", 1e3, _SI),
        ("oz|ounce|ounces", OUNCE, _IP),
        ("lb|lbs|pound|pounds", POUND, _IP),
        ("US ton|US tons|short ton|short tons", US_TON, _IP),
        ("UK ton|UK tons|long ton|long tons", UK_TON, _IP),
    ),
    Dimension.LENGTH: (
        ("µm|um|micron|microns|micrometre|micrometres", 1e-6, _SI),
        ("mm|millimetre|millimetres|millimeter|millimeters", 1e-3, _SI),
        ("cm|centimetre|centimetres|centimeter|centimeters", 1e-2, _SI),
        ("m|metre|metres|meter|meters", 1.0, _SI),
        ("thou", INCH / 1000, _IP),
        ('in|inch|inches|"', INCH, _IP),
        ("ft|foot|feet|'", FOOT, _IP),
        ("yd|yard|yards", 3 * FOOT, _IP),
    ),
    Dimension.AREA: (
        ("mm²|mm2|sq mm", 1e-6, _SI),
        ("cm²|cm2|sq cm", 1e-4, _SI),
        ("m²|m2|sq m", 1.0, _SI),
        ("in²|in2|sq in", INCH**2, _IP),
        ("ft²|ft2|sq ft", FOOT**2, _IP),
    ),
    Dimension.VOLUME: (
        ("mm³|mm3", 1e-9, _SI),
        ("cm³|cm3|cc", 1e-6, _SI),
        ("ml|mL|millilitre|millilitres|milliliter|milliliters", 1e-6, _SI),
        ("l|L|litre|litres|liter|liters", 1e-3, _SI),
        ("m³|m3", 1.0, _SI),
        ("in³|in3|cu in", INCH**3, _IP),
        ("ft³|ft3|cu ft", FOOT**3, _IP),
        ("US fl oz", US_GALLON / 128, _IP),
        ("UK fl oz", UK_GALLON / 160, _IP),
        ("US pt|US pint|US pints", US_GALLON / 8, _IP),
        ("UK pt|UK pint|UK pints", UK_GALLON / 8, _IP),
        ("US qt|US quart|US quarts", US_GALLON / 4, _IP),
        ("UK qt|UK quart|UK quarts", UK_GALLON / 4, _IP),
        ("US gal|US gallon|US gallons", US_GALLON, _IP),
        ("UK gal|UK gallon|UK gallons", UK_GALLON, _IP),
    ),
    Dimension.TIME: (
        ("s|sec|secs|second|seconds", 1.0, _SI),
        ("min|mins|minute|minutes", MINUTE, _SI),
        ("h|hr|hrs|hour|hours", HOUR, _SI),
        ("d|day|days", DAY, _SI),
    ),
    Dimension.FORCE: (
        ("N|newton|newtons", 1.0, _SI),
        ("kN|kilonewton|kilonewtons", 1e3, _SI),
        ("kgf", GRAVITY, _SI),
        ("t|tf|tonne|tonnes|metric ton|metric tons", 1e3 * GRAVITY, _SI),
        ("lbf", POUND_FORCE, _IP),
        ("US ton|US tons|short ton|short tons", US_TON * GRAVITY, _IP),
        ("UK ton|UK tons|long ton|long tons", UK_TON * GRAVITY, _IP),
    ),
    Dimension.PRESSURE: (
        ("Pa|pascal|pascals", 1.0, _SI),
        ("mbar|millibar", 1e2, _SI),
        ("kPa", 1e3, _SI),
        ("bar", 1e5, _SI),
        ("MPa|N/mm²|N/mm2", 1e6, _SI),
        ("psi|lbf/in²|lbf/in2", POUND_FORCE / INCH**2, _IP),
    ),
    Dimension.POWER: (
        ("W|watt|watts", 1.0, _SI),
        ("kW|kilowatt|kilowatts", 1e3, _SI),
        ("Btu/h|BTU/h", BTU / HOUR, _IP),
    ),
    Dimension.ANGLE: (("deg|°|degree|degrees", DEGREE, _SI), ("rad", 1.0, _SI)),
    Dimension.SPEED: (
        ("mm/s", 1e-3, _SI),
        ("mm/min", 1e-3 / MINUTE, _SI),
        ("m/s", 1.0, _SI),
        ("m/min", 1 / MINUTE, _SI),
        ("in/s", INCH, _IP),
        ("in/min", INCH / MINUTE, _IP),
        ("ft/s", FOOT, _IP),
        ("ft/min|fpm", FOOT / MINUTE, _IP),
    ),
    Dimension.DENSITY: (
        ("kg/m³|kg/m3", 1.0, _SI),
        ("g/cm³|g/cm3|g/cc", 1e3, _SI),
        ("g/ml|g/mL", 1e3, _SI),
        ("kg/l|kg/L", 1e3, _SI),
        ("lb/ft³|lb/ft3", POUND / FOOT**3, _IP),
    ),
    Dimension.SHARE: (("%|percent|per cent", 1e-2, _SI), ("ppm", 1e-6, _SI)),
    Dimension.CONDUCTIVITY: (
        ("W/(m K)|W/m K|W/m/K|W/mK", 1.0, _SI),
        ("Btu/(h ft °F)|BTU/(h ft °F)", BTU / HOUR / FOOT / (5 / 9), _IP),
    ),
    Dimension.HEAT_CAPACITY: (
        ("J/(kg K)|J/kg/K", 1.0, _SI),
        ("kJ/(kg K)|kJ/kg/K|J/(g K)|J/g/K", 1e3, _SI),
        ("Btu/(lb °F)|BTU/(lb °F)", BTU / POUND / (5 / 9), _IP),
    ),
    Dimension.SPECIFIC_ENERGY: (
        ("J/kg", 1.0, _SI),
        ("kJ/kg|J/g", 1e3, _SI),
        ("Btu/lb|BTU/lb", BTU / POUND, _IP),
    ),
    Dimension.MOLAR_ENERGY: (("J/mol", 1.0, _SI), ("kJ/mol", 1e3, _SI)),
    Dimension.HEAT_TRANSFER: (
        ("W/(m² K)|W/(m2 K)|W/m2 K|W/m2/K", 1.0, _SI),
        ("Btu/(h ft² °F)|BTU/(h ft2 °F)", BTU / HOUR / FOOT**2 / (5 / 9), _IP),
    ),
    Dimension.AREAL_MASS: (
        ("g/m²|g/m2|gsm", 1e-3, _SI),
        ("kg/m²|kg/m2", 1.0, _SI),
        ("lb/ft²|lb/ft2", POUND / FOOT**2, _IP),
    ),
    Dimension.RATE: (
        ("1/s|/s|per second", 1.0, _SI),
        ("1/min|/min|per minute|rpm", 1 / MINUTE, _SI),
        ("1/h|/h|per hour", 1 / HOUR, _SI),
    ),
    Dimension.VISCOSITY: (("Pa s|Pa·s", 1.0, _SI),),
    Dimension.VOLTAGE: (("V|volt|volts", 1.0, _SI),),
    Dimension.CURRENT: (("A|amp|amps|ampere|amperes", 1.0, _SI),),
}

_LOOK_ALIKES = str.maketrans({"²": "2", "³": "3", "μ": "µ", "″": '"', "′": "'", "”": '"', "’": "'"} | {
    "º": "°", "˚": "°", "·": " ", "*": " ", "^": "", "\u00a0": " ", "\u2009": " ", "\u202f": " ",
})  # fmt: skip


def plain(spelling: str) -> str:
    """A spelling in the one form that the tables hold: plain exponents, single spaces, one degree sign."""
    text = " ".join(spelling.translate(_LOOK_ALIKES).split())
    return text.replace(" /", "/").replace("/ ", "/").replace("° C", "°C").replace("° F", "°F")


def _tables() -> dict[Dimension, dict[str, Unit]]:
    tables: dict[Dimension, dict[str, Unit]] = {}
    for dimension, rows in _ROWS.items():
        table = tables[dimension] = {}
        for row in rows:
            spellings = row[0].split("|")
            unit = Unit(spellings[0], dimension, row[1], row[3] if len(row) == 4 else 0.0, row[2])
            for spelling in spellings:
                table[plain(spelling)] = unit
    return tables


UNITS = _tables()
"""Dimension → plain spelling → unit."""

# Words that name more than one unit, with what they may mean; the author is asked.
_TONS: tuple[str, ...] = ("t", "US ton", "UK ton")
AMBIGUOUS: dict[Dimension, dict[str, tuple[str, ...]]] = {
    Dimension.MASS: {"ton": _TONS, "tons": _TONS},
    Dimension.FORCE: {"ton": _TONS, "tons": _TONS},
    Dimension.LENGTH: {"mil": ("thou", "mm"), "mils": ("thou", "mm")},
    Dimension.VOLUME: {
        "fl oz": ("US fl oz", "UK fl oz"),
        "fluid ounce": ("US fl oz", "UK fl oz"),
        "fluid ounces": ("US fl oz", "UK fl oz"),
        "pt": ("US pt", "UK pt"),
        "pint": ("US pt", "UK pt"),
        "pints": ("US pt", "UK pt"),
        "qt": ("US qt", "UK qt"),
        "quart": ("US qt", "UK qt"),
        "quarts": ("US qt", "UK qt"),
        "gal": ("US gal", "UK gal"),
        "gallon": ("US gal", "UK gal"),
        "gallons": ("US gal", "UK gal"),
    },
}

# A unit of another dimension that people write for the wanted one, with what they most likely mean.
MISTAKEN: dict[tuple[Dimension, str], tuple[str, ...]] = {
    (Dimension.TEMPERATURE, "F°"): ("°F",),
    (Dimension.TEMPERATURE, "deg"): ("°C", "°F"),
    (Dimension.MASS, "fl oz"): ("oz", "g"),
    (Dimension.MASS, "lbf"): ("lb",),
    (Dimension.VOLUME, "oz"): ("US fl oz", "UK fl oz"),
    (Dimension.TIME, "m"): ("min",),
    (Dimension.FORCE, "kg"): ("kgf",),
    (Dimension.FORCE, "lb"): ("lbf",),
    (Dimension.AREA, "m"): ("m²",),
    (Dimension.SPEED, "m"): ("m/s", "m/min"),
    (Dimension.ANGLE, "°C"): ("deg",),
}

# What a bare number of each dimension may have meant, most likely first.
CHOICES: dict[Dimension, tuple[str, ...]] = {
    Dimension.TEMPERATURE: ("°C", "°F"),
    Dimension.TEMPERATURE_DIFFERENCE: ("K", "F°"),
    Dimension.MASS: ("g", "kg", "oz", "lb"),
    Dimension.LENGTH: ("mm", "cm", "in"),
    Dimension.AREA: ("cm²", "in²"),
    Dimension.VOLUME: ("ml", "l", "in³"),
    Dimension.TIME: ("s", "min", "h"),
    Dimension.FORCE: ("kN", "t", "lbf"),
    Dimension.PRESSURE: ("kPa", "bar", "psi"),
    Dimension.POWER: ("W", "kW"),
    Dimension.ANGLE: ("deg",),
    Dimension.SPEED: ("mm/s", "m/min", "ft/min"),
    Dimension.DENSITY: ("kg/m³", "g/cm³", "lb/ft³"),
    Dimension.SHARE: ("%",),
    Dimension.CONDUCTIVITY: ("W/(m K)",),
    Dimension.HEAT_CAPACITY: ("J/(kg K)", "kJ/(kg K)"),
    Dimension.SPECIFIC_ENERGY: ("kJ/kg",),
    Dimension.MOLAR_ENERGY: ("kJ/mol",),
    Dimension.HEAT_TRANSFER: ("W/(m² K)",),
    Dimension.AREAL_MASS: ("kg/m²", "g/m²", "lb/ft²"),
    Dimension.RATE: ("1/min", "1/h"),
    Dimension.VISCOSITY: ("Pa s",),
    Dimension.VOLTAGE: ("V",),
    Dimension.CURRENT: ("A",),
}
