"""The work as it stands between two steps: the plastic, the tools, and what both have been through."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any

from recipes_core.facts import Fact, Given, Open, missing
from recipes_core.findings import Path

if TYPE_CHECKING:
    from numpy.typing import NDArray

Value = Fact | Given | Open | None

NOTHING = Open(frozenset({((), "")}))
"""What a step finds when no step before it left what it needs; the rule on joining forms says so."""


@dataclass(frozen=True)
class Profile:
    """The temperatures through a layer of plastic, bottom to top.

    ``temperatures`` (cells, members) in K; ``fractions`` (cells,) of the mass;
    ``areal_mass`` (members,) kg/m2.
    """

    temperatures: NDArray[Any]
    fractions: NDArray[Any]
    areal_mass: NDArray[Any]


@dataclass(frozen=True)
class Work:
    """What one step hands to the next. ``form`` is one of the words that processes take and yield.

    ``profile`` holds a `Profile`; ``aged`` seconds at the sheet's reference that aged as much; ``oven_air`` the air
    of the oven it was last in; ``mould`` the temperatures through the mould's wall; ``pressing`` the record of
    the press step, which goes on cooling; ``hold`` the seconds it was held. ``thickness`` (m) is that of the sheet or
    part as it is now, ``moisture`` its water by mass or in words, ``left_warm`` (K) how warm the step leaves it,
    ``mass`` (kg) what is left of the charge.
    """

    form: str
    charge: Value = NOTHING
    profile: Value = NOTHING
    aged: Value = NOTHING
    mould: Value = NOTHING
    oven_air: Value = NOTHING
    pressing: Value = NOTHING
    hold: Value = NOTHING
    opened: Value = NOTHING
    thickness: Value = NOTHING
    moisture: Value = NOTHING
    left_warm: Value = NOTHING
    mass: Value = NOTHING
    melts: int = 0

    def lost(self, form: str, path: Path) -> Work:
        """The work after a step whose forecast failed: nothing of it is known any more, and nobody is asked."""
        gone = missing(path, "")
        values = {f.name: gone for f in fields(self) if f.name not in ("form", "melts")}
        return replace(self, form=form, **values)  # type: ignore[arg-type]

    def after(self, form: str, **changes: Any) -> Work:
        """The work after a step that leaves it in ``form``."""
        return replace(self, form=form, **changes)


@dataclass(frozen=True)
class Table:
    """Numbers that only a reader of the forecast asks for: what if the layer were thinner, and why.

    ``rows`` hold SI numbers in the dimensions of ``columns`` (heading, dimension); ``note`` says what they show.
    """

    title: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[float, ...], ...]
    note: str


@dataclass(frozen=True)
class Outcome:
    """What a forecast returns: the work afterwards, the facts that rules and reports may read, and tables and curves
    that are computed when a report asks for them.

    The fact that a function of ``curves`` makes holds `Curves`; it is open where what they need is open.
    """

    work: Work
    facts: Mapping[str, Fact]
    tables: tuple[Callable[[], Table], ...] = ()
    curves: tuple[Callable[[], Fact], ...] = ()
