"""The properties a data sheet may state: what each one measures, and what it means in plain words.

A sheet may lack any of them; what needs a missing one is then an open question. Numbers carry units that
`recipes_core.quantities` reads, or the one unit that a `Plain` measure names.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from recipes_core.quantities import Dimension
from recipes_core.sheets.measures import Measure, Plain, Words


@dataclass(frozen=True)
class Property:
    """One property, and the kinds of sheet that may state it.

    ``by`` says what its value may depend on (a grade, a finish); a ``table`` is a curve ``over``
    temperature, or over another dimension.
    """

    measure: Measure
    meaning: str
    sheets: tuple[str, ...] = ("resin",)
    by: str = ""
    table: bool = False
    over: Dimension = Dimension.TEMPERATURE


_T, _DENSITY, _SHARE = Dimension.TEMPERATURE, Dimension.DENSITY, Dimension.SHARE
_CONDUCTIVITY, _CAPACITY, _PRESSURE = Dimension.CONDUCTIVITY, Dimension.HEAT_CAPACITY, Dimension.PRESSURE
_MATERIAL, _LINER = ("material",), ("liner",)
_NUMBER = Plain()

PROPERTIES: Mapping[str, Property] = MappingProxyType({
    # how heavy
    "density": Property(_DENSITY, "density near 20 °C", ("liner", "material")),
    "density solid": Property(_DENSITY, "density of the sound solid at 23 °C"),
    "density melt": Property(_DENSITY, "density of the melt in the middle of its window"),
    "density by temperature": Property(_DENSITY, "density at rest in air, solid to melt", table=True),
    "bulk density": Property(_DENSITY, "mass of loose flake per volume it fills"),
    # how heat moves
    "conductivity": Property(_CONDUCTIVITY, "thermal conductivity near 20 °C", ("liner", "material")),
    "conductivity solid": Property(_CONDUCTIVITY, "thermal conductivity of the solid", table=True),
    "conductivity melt": Property(_CONDUCTIVITY, "thermal conductivity of the melt at low pressure"),
    "bed conductivity": Property(_CONDUCTIVITY, "conductivity of loose flake, with some radiation"),
    "heat capacity": Property(_CAPACITY, "specific heat at the temperatures of use", ("liner", "material")),
    "heat capacity solid": Property(_CAPACITY, "specific heat of the solid, without latent heat", table=True),
    "heat capacity melt": Property(_CAPACITY, "specific heat of the melt"),
    "conductivity spread": Property(_NUMBER, "factor on the conductivity that is tried, where it is poorly known"),
    "heat capacity spread": Property(_NUMBER, "factor on the heat capacity that is tried, where it is poorly known"),
    "latent heat": Property(Dimension.SPECIFIC_ENERGY, "heat that melting takes up"),
    "emissivity": Property(_NUMBER, "share of black-body radiation", ("resin", "material"), by="finish"),
    "loose contact": Property(
        Dimension.HEAT_TRANSFER, "conductance of the liner lying loose, gap included", _LINER
    ),
    "usual finish": Property(Words(), "dark or bright: how a mould of it looks after use", _MATERIAL),
    "burns": Property(Words(), "yes or no: whether it chars or burns at oven heat", _MATERIAL),
    # melting and freezing: both curves give the share that is molten
    "melting start": Property(_T, "where melting begins on heating"),
    "melting peak": Property(_T, "where most melts at once on heating"),
    "melting end": Property(_T, "where the last crystals melt"),
    "melting curve": Property(_SHARE, "share molten when heated to a temperature", table=True),
    "freezing start": Property(_T, "where freezing begins on cooling"),
    "freezing peak": Property(_T, "where most freezes at once on cooling"),
    "freezing end": Property(_T, "below it the plastic is solid throughout"),
    "freezing curve": Property(_SHARE, "share still molten when cooled to a temperature", table=True),
    "melting shift": Property(Plain("K"), "how far the melting range as a whole may lie elsewhere"),
    "freezing shift": Property(Plain("K"), "how far the freezing range as a whole may lie elsewhere"),
    "glass transition": Property(_T, "where an amorphous plastic turns from glass to rubber"),
    "softening temperature": Property(_T, "where a cutting or sanding face begins to smear"),
    "heat deflection": Property(_T, "heat deflection temperature at 0.45 MPa"),
    # limits of heat
    "window low": Property(_T, "lower end of the usual melt window"),
    "window high": Property(_T, "upper end of the usual melt window"),
    "window foot": Property(_T, "plastic colder than this does not fuse"),
    "surface ceiling": Property(_T, "the exposed face of the plastic must not pass this"),
    "oven-air cap": Property(_T, "no oven may be set or measured above this"),
    "flash ignition": Property(_T, "lowest air temperature at which a flame lights the vapour"),
    "decomposition start": Property(_T, "lowest temperature at which the bulk breaks down, without air"),
    # ageing
    "ageing reference": Property(_T, "temperature that ageing minutes are counted at"),
    "ageing reserve": Property(Dimension.TIME, "time at the reference, in oxygen, that the stabiliser lasts"),
    "ageing limit": Property(Dimension.TIME, "time at the reference, in air, that must not be passed"),
    "ageing air factor": Property(_NUMBER, "how much longer the reserve lasts in air than in oxygen"),
    "ageing energy below": Property(Dimension.MOLAR_ENERGY, "activation energy below the reference"),
    "ageing energy above": Property(Dimension.MOLAR_ENERGY, "activation energy above the reference"),
    "most melts": Property(_NUMBER, "how many times it may be melted, this time included"),
    # shaping
    "demould temperature": Property(_T, "the part's mean temperature at which it may leave the mould"),
    "demould temperature flat": Property(_T, "the same where the part must stay flat"),
    "shrinkage": Property(_SHARE, "(cavity - part) / cavity in the plane, cold"),
    "thermal expansion": Property(Plain("µm/(m K)", 1e-6), "linear expansion from 20 to 80 °C"),
    "modulus": Property(_PRESSURE, "stiffness in tension at 23 °C"),
    "friction": Property(_NUMBER, "coefficient of friction on the mould"),
    "draft": Property(Dimension.ANGLE, "draft to aim for on each side of a core"),
    "pressure foot": Property(_PRESSURE, "below this the melt may not fuse"),
    "pressure low": Property(_PRESSURE, "lower end of the usual pressure"),
    "pressure high": Property(_PRESSURE, "upper end of the usual pressure"),
    "pressure doubtful": Property(_PRESSURE, "above this check the units"),
    "forming foot": Property(_T, "coldest plastic that bends without spring-back"),
    "forming best": Property(_T, "where it bends best"),
    "forming top": Property(_T, "hottest sheet that carries its shape"),
    "bending line": Property(_T, "no oven may be set or measured above this to bend a sheet of it"),
    "solid-phase line": Property(_T, "bent below this it springs back"),
    "whitening line": Property(_T, "above this it crystallises and turns white"),
    "whitening time": Property(Dimension.TIME, "how long it may be above the whitening line"),
    "carries itself": Property(Words(), "yes or no: whether a sheet of it hangs by itself while hot"),
    "cold bend": Property(_NUMBER, "smallest inside radius over thickness that it bears cold"),
    "cold bend thickness": Property(Dimension.LENGTH, "thickest sheet that is bent cold"),
    "bend set": Property(_T, "mid-plane temperature at which a bend may be let go"),
    "bend strain": Property(_SHARE, "strain of the outer face that a hot bend bears"),
    "not bent": Property(Words(), "why it is never heated to be bent in a small shop"),
    "own oven": Property(Words(), "why it is bent only in an oven of its own, moved, measured and extracted"),
    # machining
    "planing cut": Property(Dimension.LENGTH, "deepest cut of one pass"),
    "machining low": Property(_T, "colder plastic chips and cracks when it is cut"),
    "machining high": Property(_T, "warmer plastic is cut out of true"),
    # flow
    "melt flow": Property(Plain("g/10 min", 1 / 600_000), "melt flow rate, in its usual test", by="grade"),
    "consistency": Property(Plain("Pa s^n"), "K of shear stress = K rate^n", by="grade"),
    "consistency temperature": Property(_T, "where the consistency holds", by="grade"),
    "flow index": Property(_NUMBER, "n of shear stress = K rate^n", by="grade"),
    "flow energy": Property(Dimension.MOLAR_ENERGY, "activation energy of viscosity"),
    "cross index": Property(_NUMBER, "n of the Cross-WLF model", by="grade"),
    "cross stress": Property(_PRESSURE, "τ of the Cross-WLF model", by="grade"),
    "wlf viscosity": Property(Plain("Pa s"), "D1 of the Cross-WLF model", by="grade"),
    "wlf temperature": Property(Plain("K"), "T* of the Cross-WLF model", by="grade"),
    "wlf slope": Property(_NUMBER, "A1 of the Cross-WLF model", by="grade"),
    "wlf span": Property(Plain("K"), "A2 of the Cross-WLF model", by="grade"),
    # feedstock
    "code": Property(Words(), "resin identification code of ASTM D7611, 1 to 7"),
    "moisture": Property(Words(), "how dry it has to be before it is heated"),
    "takes up water": Property(Words(), "yes or no: whether water goes into it, not only onto it"),
    "moisture limit": Property(_SHARE, "most water, by mass, that it may hold when it is melted"),
    "bending moisture": Property(_SHARE, "most water, by mass, that a sheet may hold when it is bent"),
    "water at rest": Property(_SHARE, "water that it takes up in time in an ordinary room"),
    "drying low": Property(_T, "colder air dries it too slowly"),
    "drying high": Property(_T, "hotter air makes flake cake or sheet sag"),
    "drying time": Property(Dimension.TIME, "time at the drying temperatures, for flake or granules"),
    "sheet drying temperature": Property(_T, "air that the sheet drying times hold for"),
    "sheet drying time": Property(Dimension.TIME, "drying time by thickness", over=Dimension.LENGTH, table=True),
    "sheet drying square": Property(Plain("h/mm²", 3.6e9), "time over thickness squared, beyond the table"),
    "sheet drying energy": Property(Dimension.MOLAR_ENERGY, "activation energy of water moving in it"),
    "stays dry": Property(Dimension.TIME, "how long a dried lot may wait in room air"),
    "tolerated": Property(_SHARE, "largest share of another resin", by="resin"),
    "separates": Property(Words(many=True), "resins that float or sink apart from it in water"),
    "not for": Property(Words(), "why a process does not apply to it", by="process"),
    # liners
    "refusal line": Property(_T, "never set or measured above this", _LINER),
    "limit": Property(_T, "not to be set or measured above this", _LINER),
    "upper line": Property(_T, "the hottest air to be believed must not pass this", _LINER),
    "fume line": Property(_T, "hotter, it gives off something that must be led away", _LINER),
    "warning line": Property(_T, "take care where the air may pass this", _LINER),
    "uses": Property(_NUMBER, "how often it is used unless inspected", _LINER),
    "most uses": Property(_NUMBER, "how often at most, while it looks sound", _LINER),
    "thickness": Property(Dimension.LENGTH, "usual thickness", _LINER),
    "areal mass": Property(Dimension.AREAL_MASS, "usual mass per area", _LINER),
    "lets go of": Property(Words(many=True), "resins that come off it", _LINER),
    "sticks to": Property(Words(many=True), "resins that stick to it hot", _LINER),
    # materials of moulds and trays
    "contact warning": Property(_T, "a face touching melt hotter than this suffers", _MATERIAL),
    "contact limit": Property(_T, "a face touching melt must not be hotter than this", _MATERIAL),
    "contact refusal": Property(_T, "a face hotter than this can catch fire", _MATERIAL),
    "preheat limit": Property(_T, "hottest preheat, and never left alone", _MATERIAL),
    "lasting limit": Property(_T, "a face kept this hot for months can light itself", _MATERIAL),
})  # fmt: skip
