"""One step of one recipe with all that a forecast or a rule may ask about it, by name.

Names: a field of the step (``at_least``); a field of the recipe (``equipment.press.rating``, which a step may
override with the same key); a field of one feedstock lot (``lot.colour``); a value of a data sheet
(``resin:melting peak``, ``liner:refusal line``, ``mould material:density``); a computed fact (``fact:through``).
``liners:limit`` is the strictest of the liners in the heat, ``resins:family`` the words of all lots' sheets.
``setting`` is what a heating step is set to, ``machine.guard`` the guard of the machine that a step runs. ``marks``
are the words that say what the step's process does to the work.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from recipes_core.facts import Fact, Given, Open, missing
from recipes_core.findings import Path
from recipes_core.recipe import UNKNOWN
from recipes_core.schema.fields import field as field_at
from recipes_core.sheets.blend import Blend, Part
from recipes_core.sheets.grip import GRIP, grip
from recipes_core.sheets.properties import PROPERTIES
from recipes_core.sheets.states import HEAT_CAP, STATES, state

if TYPE_CHECKING:
    from recipes_core.recipe import Recipe, Step
    from recipes_core.schema.compose import Schemas
    from recipes_core.sheets import Sheet
    from recipes_core.work import Table

Value = Fact | Given | Open | None

_ROOTS = frozenset({"header", "part", "formula", "site", "equipment"})
_DEPENDS = {"grade": "lot.grade", "finish": "{}.finish"}
_SHEET_FIELDS: Mapping[str, str] = {
    "tray material": "equipment.tray.material",
    "mould material": "equipment.mould.material",
    "platen material": "equipment.press.platen.material",
    "former material": "former.material",
    "liner": "formula.liner.tray",
    "liner over": "formula.liner.over",
    "liner mould": "formula.liner.mould",
    "liner platen top": "formula.liner.platen_top",
    "liner platen bottom": "formula.liner.platen_bottom",
}


_BY_HAND = ("hand", "knife", "scissors", "plane iron")
_HEATED_LINERS: Mapping[str, tuple[str, str]] = {
    "oven": ("liner", "liner over"),
    "platens": ("liner platen top", "liner platen bottom"),
}


@dataclass(frozen=True)
class Library:
    """The data sheets at hand, by id."""

    resins: Mapping[str, Sheet]
    liners: Mapping[str, Sheet]
    materials: Mapping[str, Sheet]
    off: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Case:
    """A recipe, or one lot or step of it, beside the sheets and the facts computed so far."""

    recipe: Recipe
    library: Library
    step: Step | None = None
    lot: int | None = None
    facts: Mapping[str, Fact] = field(default_factory=dict)
    tables: tuple[Callable[[], Table], ...] = ()
    curves: tuple[Callable[[], Fact], ...] = ()
    failed: bool = False
    setting: str = "oven"
    machine: str = ""
    marks: frozenset[str] = frozenset()

    def get(self, name: str) -> Value:
        """The value behind a name; None where saying nothing means that it is not so."""
        if name.startswith("fact:"):
            if self.failed and name[5:] not in self.facts:
                return missing((), "")  # that its forecast did not run is a finding of its own
            return self.facts[name[5:]]
        if ":" in name:
            kind, _, entry = name.partition(":")
            if kind == "liners":
                return self._strictest_liner(entry)
            if kind == "resins":
                return self._of_all_lots(entry)
            return self._entry(kind, entry, "get")
        path, process = self.path(name)
        return self.recipe.get(path, process)

    def middle(self, name: str) -> Value:
        """The value behind a name; for a range its middle, where a forecast needs one number."""
        value = self.get(name)
        if isinstance(value, Given) and isinstance(value.value, tuple):
            return Given(0.5 * (number(value) + upper(value)), value.text, value.origin)
        return value

    def spread(self, name: str) -> Given | Open:
        """A sheet's number with its range: a value ``(number, low, high)`` in SI."""
        kind, _, entry = name.partition(":")
        value, ends = self._entry(kind, entry, "get"), self._entry(kind, entry, "range")
        if isinstance(value, Open) or isinstance(ends, Open):
            return value if isinstance(value, Open) else ends
        return Given((number(value), *ends.value), value.text, value.origin)

    @property
    def runs_machine(self) -> bool:
        """Whether blades or a belt run in this step: not where it says that a hand does it."""
        if not self.machine or self.step is None:
            return False
        return self.recipe.raw((*self.step.path, "by")) not in _BY_HAND

    def path(self, name: str) -> tuple[Path, str | None]:
        """The path that a name stands for, and the process whose schema defines it, if it is a step's own."""
        head, *rest = name.split(".")
        if head == "setting":
            head = self.setting
        if head == "machine":
            if not self.machine:
                raise LookupError(f"{name} is a machine's field, and the step runs no machine")
            head, rest = "equipment", [self.machine, *rest]
        if head == "lot":
            return ("formula", "feedstock", self.lot if self.lot is not None else 0, *rest), None
        if head not in _ROOTS:
            if self.step is None:
                raise LookupError(f"{name} is a step's field, and there is no step")
            return (*self.step.path, head, *rest), self.step.process
        if self.step is not None and rest and head in ("site", "equipment"):
            own = (*self.step.path, *rest)
            if self.recipe.raw(own) is not None and _is_field(own, self.step.process, self.recipe.schemas):
                return own, self.step.process
        return (head, *rest), None

    def sheet(self, kind: str) -> Sheet | Blend | Open:
        """The data sheet of the resin, the blend of several, or the sheet of a liner or material that a field names."""
        if kind == "resin":
            return self._resin()
        named = self.get(_SHEET_FIELDS[kind])
        if not isinstance(named, Given):
            return named if isinstance(named, Open) else missing((), "")
        if named.value == "none":
            return missing((), "")  # nothing there: nothing to ask, and nothing to judge
        sheets = self.library.materials if kind.endswith("material") else self.library.liners
        found = sheets.get(str(named.value))
        return found or self._no_sheet(named, sheets)

    def _entry(self, kind: str, entry: str, how: str) -> Given | Open:
        """A sheet's value, or its range, for the grade, finish or form that this recipe names."""
        sheet = self.sheet(kind)
        if isinstance(sheet, Open):
            return sheet
        if isinstance(sheet, Blend):
            mixed: Given | Open = getattr(sheet, how)(entry)
            return mixed
        if sheet.id == UNKNOWN and entry != "id" and (entry not in PROPERTIES or sheet.find(entry) is None):
            return self.resin_ids()[0]  # what the sheet of a plastic without a name cannot say, its name would
        if entry == GRIP:
            return self._grip(sheet)
        if (entry in STATES or entry == HEAT_CAP) and how == "get":
            return state(sheet, entry)
        depends = _DEPENDS.get(PROPERTIES[entry].by) if entry in PROPERTIES else None
        if depends is not None and entry in sheet.values and sheet.find(entry) is None:  # else it holds for all
            asked = self.get(depends.format(_SHEET_FIELDS.get(kind, kind).rpartition(".")[0]))
            usual = sheet.get("usual finish") if entry == "emissivity" and not isinstance(asked, Given) else asked
            if not isinstance(usual, Given):
                return asked if isinstance(asked, Open) else usual if isinstance(usual, Open) else missing((), "")
            entry = f"{entry}, {usual.value}"
        value: Given | Open = getattr(sheet, how)(entry)
        return value

    def _strictest_liner(self, entry: str) -> Given | Open:
        """The lowest value over the liners that go into the heat; open where any of them is."""
        values = []
        for kind in _HEATED_LINERS[self.setting]:
            sheet = self.sheet(kind)
            value = sheet if isinstance(sheet, Open) else sheet.get(entry)
            if isinstance(value, Open) and any(question for _, question in value.needs):
                return value
            if isinstance(value, Given):
                values.append(value)
        return min(values, key=number) if values else missing((), "")

    def _of_all_lots(self, entry: str) -> Given | Open:
        """The words that the sheets of all resins say, each once; open where any of them is."""
        values = []
        for lot in self.recipe.lots or (0,):
            value = replace(self, lot=lot)._entry("resin", entry, "get")
            if isinstance(value, Open):
                return value
            values.append(value)
        words = tuple(dict.fromkeys(v.value for v in values))
        return replace(values[0], value=words, text=", ".join(words))

    def _grip(self, liner: Sheet) -> Given | Open:
        resins = self.resin_ids()
        opened = next((r for r in resins if isinstance(r, Open)), None)
        return opened or grip(liner, [r for r in resins if isinstance(r, Given)])

    def resin_ids(self) -> tuple[Given | Open, ...]:
        """What each lot says its resin is (the one lot of the case, or all of them)."""
        lots = self.recipe.lots if self.lot is None else (self.lot,)
        values = [self.recipe.get(("formula", "feedstock", lot, "resin")) for lot in lots]
        return tuple(v for v in values if v is not None) or (
            missing(("formula", "feedstock"), "Which plastic goes in?"),
        )

    def _resin(self) -> Sheet | Blend | Open:
        lots = self.recipe.lots if self.lot is None else (self.lot,)
        parts = []
        for lot, named in zip(lots or (0,), self.resin_ids(), strict=False):
            sheet = self._named_resin(lot, named)
            if isinstance(sheet, Open):
                return sheet
            parts.append(Part(sheet, 1.0, self.recipe.get(("formula", "feedstock", lot, "grade"))))
        if len({(p.sheet.id, p.grade.value if isinstance(p.grade, Given) else "") for p in parts}) == 1:
            return parts[0].sheet
        shares = [self.recipe.get(("formula", "feedstock", lot, "share")) for lot in lots]
        for share in shares:
            if isinstance(share, Open):
                return share
        return Blend(tuple(replace(p, share=number(s)) for p, s in zip(parts, shares, strict=True)))

    def _named_resin(self, lot: int, named: Given | Open) -> Sheet | Open:
        """The sheet that a lot names; for a plastic nobody knows the one that says so, if it is at hand."""
        path = ("formula", "feedstock", lot, "resin")
        if isinstance(named, Open):
            return self.library.resins.get(UNKNOWN, named) if self.recipe.raw(path) == UNKNOWN else named
        if named.value == "mixed":
            return missing(path, "Which plastic is it? A mixed lot cannot be computed.")
        return self.library.resins.get(str(named.value)) or self._no_sheet(named, self.library.resins)

    def _no_sheet(self, named: Given, sheets: Mapping[str, Sheet]) -> Open:
        """The question for a name that no sheet goes by; none for one that is off, which a finding of its own says."""
        if named.value in self.library.off:
            return missing((), "")
        return missing(named.origin.path, _which_sheet(named, sheets))


def _which_sheet(named: Given, sheets: Mapping[str, Sheet]) -> str:
    """The question, with the names that come near."""
    wanted = str(named.value)
    from difflib import get_close_matches  # only a mistake pays for this import

    near = [name for name in sheets if name in wanted or wanted in name] or get_close_matches(wanted, sheets, n=2)
    hint = f"Is it {' or '.join(near)}?" if near else f"There is {', '.join(sorted(sheets))}."
    return f"No data sheet for {named.text} is installed. {hint}"


def _is_field(path: Path, process: str, schemas: Schemas) -> bool:
    """A step's ``oven: unknown`` is a setting that nobody knows; it says nothing about the oven as a machine."""
    try:
        field_at(path, process, schemas)
    except LookupError:
        return False
    return True


def number(value: Value) -> float:
    """The one number of a given value; the lower end where a range was given."""
    if not isinstance(value, Given):
        raise LookupError("the value is open")
    return float(value.value[0] if isinstance(value.value, tuple) else value.value)


def upper(value: Value) -> float:
    """The one number of a given value; the upper end where a range was given."""
    if not isinstance(value, Given):
        raise LookupError("the value is open")
    return float(value.value[-1] if isinstance(value.value, tuple) else value.value)
