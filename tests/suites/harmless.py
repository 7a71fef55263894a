"""Changes that make no recipe worse, each with its reason: what the operators' own table expects to go unnoticed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from recipes_core.findings import Path
    from tests.suites.operators import Mutant

Data = Mapping[str, Any]
BY_HAND = ("hand", "knife", "scissors", "plane iron")


def _runs(*processes: str) -> Callable[[Data, Path], bool]:
    """Whether a recipe has a step of one of these processes."""
    return lambda data, _: any(step.get("process") in processes for step in data["procedure"])


def _without(*processes: str) -> Callable[[Data, Path], bool]:
    runs = _runs(*processes)
    return lambda data, path: not runs(data, path)


def _washed_once(data: Data, _: Path) -> bool:
    return sum(step.get("process") == "wash" for step in data["procedure"]) == 1


def _cut_out(data: Data, _: Path) -> bool:
    return data["equipment"]["oven"].get("cutout") == "independent manual reset"


def _black_hides_nothing(data: Data, path: Path) -> bool:
    lot = data["formula"]["feedstock"][path[2]]
    return lot.get("resin") not in ("hdpe", "ldpe", "pp", "ps", "hips", "abs")


def _no_blade(data: Data, path: Path) -> bool:
    step = data["procedure"][path[1]]
    return step["process"] not in ("shred", "plane", "sand", "trim") or step.get("by") in BY_HAND


def _outdoors(data: Data, _: Path) -> bool:
    return bool(data["site"].get("place") == "outdoors")


def _no_ptfe(data: Data, _: Path) -> bool:
    return not any("ptfe" in str(name) for name in data["formula"].get("liner", {}).values())


def _no_cores(data: Data, _: Path) -> bool:
    return bool(data["part"].get("cores") != "yes")


def _dry_inside(data: Data, _: Path) -> bool:
    return all(lot.get("resin") in ("hdpe", "ldpe", "pp", "ps", "hips") for lot in data["formula"]["feedstock"])


def _flat(data: Data, _: Path) -> bool:
    return data["part"].get("shape") in ("plate", "bar")


def _from_sheet(data: Data, _: Path) -> bool:
    return all(lot.get("form") == "sheet" for lot in data["formula"]["feedstock"])


def _ducted(data: Data, _: Path) -> bool:
    return data["site"].get("capture") in ("hood ducted outdoors", "enclosed and ducted")


def _cold(data: Data, _: Path) -> bool:
    return not any({"oven", "platens"} & set(step) for step in data["procedure"])


def _no_oven(data: Data, _: Path) -> bool:
    return not any("oven" in step for step in data["procedure"])


def _no_oil(data: Data, _: Path) -> bool:
    return data["equipment"]["press"].get("type") in ("screw", "lever", "clamps")


@dataclass(frozen=True)
class Line:
    """``at`` is a dotted path, ``*`` any index or step, ``**`` whatever follows.

    ``operators`` and ``values`` narrow the line (empty: all), and so do the words that it is about: ``among`` holds
    what stood there and what stands there now. ``given`` tells whether it holds of a recipe.
    """

    at: str
    reason: str
    operators: tuple[str, ...] = ()
    values: tuple[str, ...] = ()
    among: tuple[str, ...] = ()
    given: Callable[[Data, Path], bool] | None = None

    def holds(self, mutant: Mutant, data: Data) -> bool:
        """Whether the line speaks of this change to this recipe."""
        return (
            _meets(self.at.split("."), mutant.path)
            and (not self.operators or mutant.operator in self.operators)
            and (not self.values or mutant.value in self.values)
            and (not self.among or {mutant.value, _at(data, mutant)} <= set(self.among))
            and (self.given is None or self.given(data, mutant.path))
        )


def _meets(names: list[str], path: Path) -> bool:
    if names[-1] == "**":
        names, path = names[:-1], path[: len(names) - 1]
    return len(names) == len(path) and all(n in ("*", str(p)) for n, p in zip(names, path, strict=True))


def _at(data: Any, mutant: Mutant) -> str:
    for part in mutant.path:
        data = data[part]
    return str(data)


GONE = ("delete", "unknown")
NAME = "a name that nothing else refers to"
TOLD = "told to whoever reads it; nothing is computed from it"
UNSAID = "saying nothing means that it is not so, and it was not so before"
AS_GOOD = "as good as what stood there"
SORTED = "the scrap comes as flake: what was taken out of it is a record of the shop that cut it"
USUAL = "what is usual is taken instead, and still holds"
COLD = "nothing is heated"
GEAR = "gear is asked for where a blade or a belt runs, and none does in this step"
NO_OVEN = "no step uses the oven"
FINE_USES = ("indoor fitting", "decoration", "tool handle", "container", "furniture", "toy", "outdoor", "none")
CLEAN = ("packaging", "household", "furniture", "toy", "pipe", "sheet goods", "fishing", "building", "vehicle")
PROOFS = ("moulded mark", "float in water", "float in second liquid", "weighed density",
          "object with known maker's sheet", "infrared", "trained person")  # fmt: skip
LOT = "formula.feedstock.*"
MACHINES = ("shredder", "planer", "sander", "saw")

_HEADER = (
    Line("header.id", NAME, ("unknown",)),
    Line("header.title", TOLD, ("unknown",)),
    *(Line(f"header.{key}", TOLD, GONE) for key in ("revision", "licence", "authors", "authors.*")),
    *(Line(f"header.{key}", TOLD, GONE) for key in ("derived_from", "derived_from.*")),
    Line("notes", TOLD),
    Line("procedure.*.notes", TOLD, GONE),
    Line("procedure.*.id", NAME, ("unknown",)),
)
_SCRAP = (
    *(Line(f"{LOT}.{key}", TOLD) for key in ("lot", "received", "received_from", "amount", "stored_at")),
    Line(f"{LOT}.mark_seen", TOLD, given=_without("sort")),
    Line(f"{LOT}.contamination", TOLD, given=_without("sort", "wash")),
    Line(f"{LOT}.origin", "what it was and what it held say what whose hands it comes from would"),
    Line(f"{LOT}.form", "small pieces all", among=("flake", "regrind", "shavings")),
    Line(f"{LOT}.from", "no source of poison either", among=CLEAN),
    Line(f"{LOT}.past_contents", "washes off", among=("none", "food", "drink", "cooking oil", "detergent", "bleach")),
    Line(f"{LOT}.colour", "not black, so nothing is hidden", among=("natural", "white", "coloured", "mixed")),
    Line(f"{LOT}.colour", "it hides flame retardants in other families", values=("black",), given=_black_hides_nothing),
    Line(f"{LOT}.filled", UNSAID, ("delete",)),
    Line(f"{LOT}.identified_by.*", "another proof", ("neighbour",), among=PROOFS),
    Line(f"{LOT}.identified_by.*", "two proofs are left", ("delete",)),
    *(Line(f"{LOT}.removed{item}", SORTED, given=_without("sort", "shred")) for item in ("", ".*")),
    Line(
        f"{LOT}.removed.*",
        "spoils a part, and hurts nobody",
        among=("", "labels", "lids", "silicone and rubber", "foam"),
    ),
    Line(f"{LOT}.density", "what was weighed is told; what it proves is judged by the proofs", GONE),
    Line(f"{LOT}.moisture", "a step washes or dries it before it is heated", given=_runs("wash", "dry")),
    Line(f"{LOT}.times_melted", "it is not melted here", given=_without("flake-melt", "sheet-press")),
    Line(
        "formula.liner.**",
        "nothing is melted that could stick",
        ("neighbour",),
        ("bare-metal", "none"),
        given=_without("flake-melt", "sheet-press"),
    ),
    Line("formula.liner.mould", "nothing is pressed in a mould", given=_without("mould-press")),
    Line(f"{LOT}.moisture_proof", "both are proofs", among=("weighed twice", "meter")),
    Line(f"{LOT}.moisture_proof", "water stays on the surface of this plastic, where it is felt", given=_dry_inside),
    Line(f"{LOT}.pair_floats", "the liquid of a float test is told; what it proves is judged by the proofs", GONE),
    Line("part.use.*", "nobody is hurt by this use either", ("neighbour",), among=FINE_USES),
    Line("part.use.*", "another use is left", ("delete",)),
    *(Line(f"part.claims{item}", UNSAID, ("delete",)) for item in ("", ".*")),
    Line("part.claims.*", "every lot is known, so that it may be claimed", values=("recycled content",)),
    Line("part.claims.*", "nothing is promised", values=("none",)),
    Line("part.draft", "there is no core that it grips", given=_no_cores),
    Line("part.shape", "both are taken for a plate", among=("plate", "bar")),
    Line("part.shape", "it is taken for a plate, as it was", GONE, given=_flat),
    Line("part.thickness", "the sheet is as thick as its lot says", given=_from_sheet),
    *(Line(f"part.{key}", "nothing was weighed", given=_without("weigh")) for key in ("width", "length")),
    Line("formula.flash_allowance", "nothing was weighed", given=_without("weigh")),
    *(Line(f"part.{key}", "no mould shapes it", given=_without("demould")) for key in ("tolerance", "cores")),
    Line("procedure.*.off", "nothing was weighed", given=_without("weigh")),
    Line("formula.liner.state", AS_GOOD, among=("new", "clean")),
)
_PLACE = (
    Line("site.capture", "the open air takes it away", given=_outdoors),
    Line("site.capture", AS_GOOD, among=("hood ducted outdoors", "enclosed and ducted")),
    *(
        Line(f"site.{key}", "there are no walls", given=_outdoors)
        for key in ("room_volume", "air_changes", "door_open", "capture_at", "capture_at.*")
    ),
    Line("site.attended", "somebody stays while it can burn", among=("always", "while hot")),
    Line("site.present.*", "birds die of PTFE fume alone, and there is no PTFE", values=("birds",), given=_no_ptfe),
    Line("site.present.*", "older pupils may, as local rules allow", values=("pupils supervised",)),
    Line("site.water_for_burns", "a full bucket is the least, and it is one", among=("running", "bucket")),
    Line("site.extinguisher", AS_GOOD, among=("ABC", "blanket and ABC")),
    *(Line(f"site.{key}", TOLD) for key in ("second_person", "room_volume")),
    Line("site.place", "the open air has more of it than any room", values=("outdoors",)),
    Line("site.door_open", "a hood takes the fume away", given=_ducted),
    *(Line(f"site.limits_from{item}", TOLD, GONE) for item in ("", ".*", ".*.list")),
    Line("site.place", COLD, given=_cold),
    *(Line(f"site.{key}", COLD, given=_cold) for key in ("capture", "attended", "water_for_burns", "extinguisher")),
    *(Line(f"site.{key}", COLD, given=_cold) for key in ("exit_clear", "clear_of_combustibles", "shop_air")),
)
_TOOLS = (
    Line("equipment.oven.**", NO_OVEN, given=_no_oven),
    Line("equipment.oven", NO_OVEN, given=_no_oven),
    Line("equipment.thermometer.**", COLD, given=_cold),
    Line("formula.liner.**", COLD, given=_cold),
    Line("formula.liner", COLD, given=_cold),
    *(Line(f"{LOT}.{key}", COLD, given=_cold) for key in ("every_piece_checked", "moisture", "times_melted")),
    Line("equipment.oven.cutout", AS_GOOD, among=("built-in limiter", "independent manual reset")),
    Line("equipment.oven.built", "either has the cut-out of its maker", among=("unmodified household", "industrial")),
    Line(
        "equipment.oven.built", "its cut-out is the best there is", values=("converted", "home-built"), given=_cut_out
    ),
    Line("equipment.oven.vented", "no charge of flake gives off vapour in it", given=_without("flake-melt")),
    Line("equipment.oven.cavity", "no charge of flake gives off vapour in it", given=_without("flake-melt")),
    Line("equipment.oven.cord", UNSAID, ("delete",)),
    Line("equipment.oven.work_on_wiring", UNSAID, ("delete",)),
    Line("equipment.oven.work_on_wiring", AS_GOOD, among=("none", "licensed electrician")),
    *(Line(f"equipment.{heater}.measured.by", TOLD, GONE) for heater in ("oven", "press.platen")),
    *(Line(f"equipment.{tool}.food_again", UNSAID, ("delete",)) for tool in ("tray", "mould", *MACHINES)),
    Line("equipment.mould.finish", USUAL, GONE),
    Line("equipment.mould.release_on", UNSAID, ("delete",)),
    Line("equipment.mould.release", "any release lets go", ("neighbour",), ("wax", "silicone spray", "other spray")),
    Line("equipment.press.frame_rated_by", "either answers for it", among=("competent person", "maker")),
    Line("equipment.press.base", "either bears it", among=("level and solid", "blocked")),
    Line("equipment.press.load", "either keeps it in line", among=("centred", "guided")),
    Line("equipment.press.hands", "no hand either", among=("tongs only", "tool")),
    *(Line(f"equipment.press.{key}", UNSAID, ("delete",)) for key in ("hands", "handle")),
    Line("equipment.press.type", "judged alike", among=("hydraulic jack", "hydraulic press")),
    Line("equipment.press.jack_shield", "a screw has no oil that could get hot", given=_no_oil),
    *(
        Line(f"equipment.{tool}.dust", "either takes it away", among=("capture", "vacuum M or HEPA", "wet"))
        for tool in MACHINES
    ),
    *(
        Line(f"equipment.{tool}.cleaned_by", "no jet whirls it up", among=("vacuum", "damp wipe", "sweep"))
        for tool in MACHINES
    ),
    *(Line(f"equipment.{tool}.cleaned_by", UNSAID, ("delete",)) for tool in MACHINES),
    Line("equipment.planer.cutter_diameter", "how deep the marks are is told, and not judged"),
    Line("equipment.sander.grit", TOLD),
    Line("equipment.shredder.to_clear_a_jam.*", "stop, unplug or lock, verify dead are left", ("delete", "neighbour")),
)
_STEPS = (
    Line("procedure.*.until", "the step ends by its clock, and no heat waits for a sign", GONE),
    *(Line(f"procedure.*.{key}", TOLD, (*GONE, "neighbour")) for key in ("tool", "alongside")),
    *(Line(f"procedure.*.gear{item}", GEAR, given=_no_blade) for item in ("", ".*")),
    Line("procedure.*.gear.*", "eyes are covered", among=("eyes", "face shield")),
    *(Line(f"procedure.*.{key}", UNSAID, ("delete",)) for key in ("water_onto", "blade", "flame", "until_signs")),
    *(Line(f"procedure.*.{key}", UNSAID, ("delete",)) for key in ("carrier", "next_part", "lies_on", "over_bend")),
    *(Line(f"procedure.*.{key}", UNSAID, ("delete",)) for key in ("until_signs.*", "hazards")),
    Line("procedure.*.oven", "the melt goes back into the oven that it came from", GONE, given=_runs("fold")),
    Line("procedure.*.oven_start", "the mould waits for no cold oven unless the step says so", ("delete",)),
    Line("procedure.*.agents.*", "neither reacts with the other", among=("", "water", "detergent", "hypochlorite")),
    Line("procedure.*.rinsed_between", "there is one wash", given=_washed_once),
    Line("procedure.*.by", "no machine either", among=("knife", "scissors", "plane iron")),
    Line("procedure.*.checked_for.*", "voids and cracks are still looked for", ("delete", "neighbour")),
)  # fmt: skip
LINES = (*_HEADER, *_SCRAP, *_PLACE, *_TOOLS, *_STEPS)


def reason(mutant: Mutant, data: Data) -> str:
    """Why nobody need notice this change to a recipe; empty where somebody must."""
    return next((line.reason for line in LINES if line.holds(mutant, data)), "")
