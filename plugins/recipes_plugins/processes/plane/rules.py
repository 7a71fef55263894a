"""Rules on planing: a piece that can be held, a cut it bears, stock to take it from, and a sound, cool piece."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from recipes_core.plugin_api import Dimension, Hit, Level, Rule, Scope, above, below, over, show, under

if TYPE_CHECKING:
    from recipes_core.plugin_api import Reading

T, LENGTH = Dimension.TEMPERATURE, Dimension.LENGTH
SHORTEST = 0.3
SHORTEST_BY_HAND = 0.4
BEYOND_ROLLERS = 0.05
THINNEST = 0.006
COARSEST = 0.0254 / 20
FINEST_CHIP = 1e-4
UNLIKE = 0.1


def _by_hand(r: Reading) -> bool:
    return r.word("machine.type") == "surface"


def _small(r: Reading) -> Iterator[Hit]:
    yield from _short(r)
    if _by_hand(r) and r.word("machine.push_block") == "no":
        yield Hit(
            "machine.push_block",
            f"{r.text('part.length')} long, and no push block",
            f"a push block or carriage: under {show(SHORTEST_BY_HAND, LENGTH)} for any piece, and at any length "
            "for a face as smooth as pressed plastic",
            do="move it with a push block or a carriage",
        )
    if _by_hand(r) or r.word("carrier") != "yes":
        thinnest = max(THINNEST, r.upper("machine.min_thickness") if r.known("machine.min_thickness") else 0.0)
        yield from under(
            "to",
            r.fact("thickness left").nominal,
            thinnest,
            LENGTH,
            do="leave it thicker" if _by_hand(r) else "fix it on a carrier board, or leave it thicker",
        )


def _short(r: Reading) -> Iterator[Hit]:
    shortest = max(SHORTEST, r.upper("machine.min_length") if r.known("machine.min_length") else 0.0)
    if not _by_hand(r):
        shortest = max(shortest, r.upper("machine.roller_gap") + BEYOND_ROLLERS)
    yield from under("part.length", r.si("part.length"), shortest, LENGTH)


def _deep(r: Reading) -> Iterator[Hit]:
    yield from over("cut", r.upper("cut"), r.fact("deepest cut").nominal, LENGTH)


def _coarse(r: Reading) -> Iterator[Hit]:
    pitch = r.fact("mark pitch").nominal
    if above(pitch, COARSEST, LENGTH):
        ridges = f", {show(r.fact('scallop').nominal, LENGTH)} deep" if r.known("fact:scallop") else ""
        yield Hit(
            "machine.feed",
            f"{show(pitch, LENGTH)} between marks, {0.0254 / pitch:.0f} to the inch{ridges}",
            f"{show(COARSEST, LENGTH)} at most, 20 to the inch",
        )


def _thin_chip(r: Reading) -> Iterator[Hit]:
    yield from under("machine.feed", r.fact("feed per tooth").nominal, FINEST_CHIP, LENGTH)


def _runs_out(r: Reading) -> Iterator[Hit]:
    left, part = r.fact("thickness left").nominal, r.si("part.thickness")
    if below(left, part, LENGTH):
        stock = r.fact("thickness before").nominal - part
        yield Hit(
            "to",
            f"{show(r.fact('taken off').nominal, LENGTH)} comes off in {r.fact('passes').nominal:.0f} passes, "
            f"{show(left, LENGTH)} is left",
            f"{show(part, LENGTH)} at least, so {show(max(stock, 0.0), LENGTH)} may come off",
            f"{show(part - left, LENGTH)} short",
        )


def _unlike(r: Reading) -> Iterator[Hit]:
    limit = UNLIKE * r.fact("thickness before").nominal
    yield from over("faces", r.fact("more off one face").nominal, limit, LENGTH)


def _warm(r: Reading) -> Iterator[Hit]:
    low, high = r.fact("part when cut").band()
    if r.known("part_at"):
        low, high = r.si("part_at"), r.upper("part_at")
    if above(high, r.si("resin:machining high"), T):
        soft = not below(high, r.si("resin:softening temperature"), T)
        limit = f"{show(r.si('resin:machining high'), T)} at most"
        yield Hit("part_at", show(high, T), limit, level=Level.ERROR if soft else Level.WARNING)
    elif below(low, r.si("resin:machining low"), T):
        yield Hit(
            "part_at",
            show(low, T),
            f"{show(r.si('resin:machining low'), T)} at least",
            message="The piece is cut cold.",
            do="let it stand in the warm shop for a day, longer if it is thick",
        )


def _unchecked(r: Reading) -> Iterator[Hit]:
    lacking = [word for word in ("voids", "cracks", "metal") if word not in r.words("checked_for")]
    if lacking:
        yield Hit("checked_for", f"not checked for {' or '.join(lacking)}", "checked for voids, cracks and metal")


RULES = (
    Rule(
        "piece-too-small",
        Level.ERROR,
        Scope.STEP,
        message="The piece is too short, thin or smooth for this planer to hold.",
        checks=(
            "length against 300 mm, the rollers of a thickness planer + 50 mm and what the maker allows; a push block "
            "on a surface planer; thickness against 6 mm"
        ),
        why="the knives throw back a piece that neither rollers nor hands can hold, and the hands go after it",
        do="plane a longer piece and cut it afterwards, or sand it",
        sources=(
            "published: HSE, surface planers (300 mm; push block)",
            "published: German accident insurer BGHM, Arbeitsschutz Kompakt 034 (400 mm, thin or very smooth pieces) "
            "and 041 (axes of the rollers)",
            "published: jointer makers' manuals (6.4 mm); 6 mm is that, rounded",
            "common practice: 50 mm beyond the rollers, school shop rules",
        ),
        reads=("part.length", "machine.type", "fact:thickness left"),
        test=_small,
        on=("plane",),
        also=lambda r: ("machine.push_block",) if _by_hand(r) else ("machine.roller_gap",),
        may_read=(
            "machine.push_block",
            "machine.roller_gap",
            "machine.min_length",
            "machine.min_thickness",
            "carrier",
        ),
    ),
    Rule(
        "cut-too-deep",
        Level.ERROR,
        Scope.STEP,
        message="One pass takes off too much.",
        checks="the depth of one pass against the sheet of the resin, and against what the maker of the planer allows",
        why="a deep cut tears plastic out, jerks the piece and throws it back",
        do="take less off in each pass, and more passes",
        sources=(
            "common practice: 1/16 in a pass, woodworking shop rules",
            "published: a planer maker's manual (1.6 mm for boards of 140 to 305 mm width)",
            "judgement: carried over to plastic, for which nothing is published",
        ),
        reads=("cut", "fact:deepest cut"),
        test=_deep,
        on=("plane",),
    ),
    Rule(
        "marks-too-coarse",
        Level.WARNING,
        Scope.STEP,
        message="The knife marks will show.",
        checks="the distance between knife marks against 20 to the inch; knives that were not jointed count as one",
        why="the piece is fed too fast for the head, which leaves a washboard",
        do="feed more slowly, or have the knives jointed",
        sources=("published: FDMC trade magazine, January 2009 (20 marks to the inch, on wood)",),
        reads=("fact:mark pitch", "machine.feed"),
        test=_coarse,
        on=("plane",),
        may_read=("fact:scallop",),
    ),
    Rule(
        "chip-too-thin",
        Level.WARNING,
        Scope.STEP,
        message="The knives rub more than they cut.",
        checks="the feed per tooth against 0.10 mm",
        why="the chip carries the heat away; a chip like dust leaves it in the plastic, which smears",
        do="feed faster, or use fewer knives",
        sources=("judgement: the least feed per tooth of a router-bit maker's chart for plastics, a slotting figure",),
        reads=("fact:feed per tooth", "machine.feed"),
        test=_thin_chip,
        on=("plane",),
    ),
    Rule(
        "stock-runs-out",
        Level.ERROR,
        Scope.STEP,
        message="The piece is planed thinner than the part.",
        checks="the thickness left after all passes against the thickness of the part",
        why="the charge holds no plastic for it, and nothing puts it back",
        do="press it with more machining_stock, or plane less away",
        sources=("derived: the thickness pressed less what the passes take off",),
        reads=("part.thickness", "fact:thickness before", "fact:thickness left", "fact:taken off", "fact:passes"),
        test=_runs_out,
        on=("plane",),
        may_read=("part.shape",),
        when=lambda r: r.word("part.shape") != "custom",
    ),
    Rule(
        "cuts-unbalanced",
        Level.WARNING,
        Scope.STEP,
        message="One face loses much more than the other.",
        checks="the difference between what comes off the two faces against a tenth of the thickness before",
        why="the skins of a pressed piece are in balance; take one away and it bows toward the other",
        do="take as much off both faces, turning it over from pass to pass",
        sources=("judgement: a tenth, as nothing is published",),
        reads=("faces", "fact:more off one face", "fact:thickness before"),
        test=_unlike,
        on=("plane",),
    ),
    Rule(
        "machined-warm",
        Level.WARNING,
        Scope.STEP,
        message="The piece is cut warm.",
        checks="how warm the piece is against the machining temperatures of its sheet, and against softening",
        why="warm plastic smears, grabs the knives and is out of true when cold; cold plastic chips and cracks",
        do="let it cool to the temperature of the shop, right through",
        sources=(
            "published: notes of two semi-finished plastics makers (never well below room temperature; 20 to 30 °C "
            "before drilling in winter)",
            "judgement: the upper line, as no greatest temperature at the cut is published",
        ),
        reads=(
            "fact:part when cut",
            "resin:machining low",
            "resin:machining high",
            "resin:softening temperature",
        ),
        test=_warm,
        on=("plane", "sand"),
        may_read=("part_at",),
    ),
    Rule(
        "voids-unchecked",
        Level.WARNING,
        Scope.STEP,
        message="Nobody looked for holes, cracks and metal in the piece.",
        checks="what the piece was checked for against voids, cracks and metal",
        why="a hole or crack that the knives open breaks the piece up and throws it; metal breaks the knives",
        do=(
            "pass a magnet over it, hold it to the light, tap it all over, saw off one end: bubbles in the middle of "
            "the wall mean it was not heated through, so plane none of it"
        ),
        sources=(
            "published: a resin distributor's cure guide for rotational parts (bubbles mid-wall: underheated)",
            "judgement: no share of voids is published, so the check is in words",
        ),
        reads=("checked_for",),
        test=_unchecked,
        on=("plane",),
    ),
)
