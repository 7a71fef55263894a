"""The card as plain text, 80 columns wide, for a terminal or a printer that knows nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap
from typing import TYPE_CHECKING

from recipes_core.report.visible import printable

if TYPE_CHECKING:
    from recipes_core.report.card.content import Block, Card, Line, Number

WIDTH = 80
NOT_YET = "not yet"
"""What stands where a number would be that nobody may set anything by."""
_BLANK = "________"


def render(card: Card) -> str:
    """The whole card."""
    return "".join(f"{printable(line)}\n" for line in _lines(card))


def _lines(card: Card) -> Iterator[str]:
    yield from _wrapped(card.title)
    known = [
        part
        for part in (
            card.size,
            card.mark and f"mark {card.mark}",
            card.lots and f"lot {', '.join(card.lots)}",
            card.revision,
            card.id,
        )
        if part
    ]
    yield from _wrapped(" · ".join(known))
    if card.charge:
        yield f"{card.charge.label}: {_value(card.charge)}"
    yield f"batch {_BLANK}   date {_BLANK}   by {_BLANK}"
    if card.banner:
        yield from ("", f"*** {card.banner} ***", *_listed(card.why))
    if card.care:
        yield from ("", "TRY WITH CARE", *_listed(card.care))
    yield from ("", "STOP if", *_listed(card.stop))
    yield from ("", f"EMERGENCY: call {_BLANK}")
    for word, text in card.emergency:
        yield from _wrapped(f"{word:<6}{text}", "  ", "        ")
    yield from ("", "BRING AND CHECK", *_listed(card.bring, "[ ] "), *_listed(card.readings, ""))
    for block in card.blocks:
        yield from _block(block)
    yield "=" * WIDTH
    if card.notes:
        yield from _wrapped(f"Notes: {card.notes}")
    if card.record:
        yield "WHAT CAME OUT"
        yield from _wrapped("   ".join(f"{label} {_BLANK}" for label in card.record), "  ")
        yield "  [ ] good   [ ] use   [ ] scrap   what I changed: " + _BLANK
    yield ""
    for sentence in (
        f"Evidence: {card.evidence}. Checked: {card.checked}.",
        f"File {card.file}, SHA-256 {card.digest}.",
        card.closing,
    ):
        yield from _wrapped(sentence)


def _block(block: Block) -> Iterator[str]:
    yield "=" * WIDTH
    if block.pause:
        yield from _wrapped(f"[ ] {block.pause.upper()}: {block.ready}", rest="    ")
    for step in block.steps:
        yield from ("", *_step(step))


def _step(step: Line) -> Iterator[str]:
    if step.caution:
        yield from _wrapped(f"! {step.signal}: {step.caution}", rest="  ")
    for own in step.own:
        yield from _wrapped(f"! {own}", rest="  ")
    yield from _wrapped(f"{step.number:>2}  {step.action}", rest="    ")
    yield from _wrapped(f"until: {step.until}", "    ", "    ")
    for number in step.numbers:
        says = f", {number.says}" if number.says and number.first else ""
        yield from _wrapped(f"{number.label}: {_value(number)}{says}", "    ", "    ")
    for told in (*step.limits, *step.asides):
        yield from _wrapped(told, "    ", "    ")
    if step.times:
        word = "due" if step.times.most else "not before"
        out = f"   {step.times.by} +{step.times.most} {_BLANK}" if step.times.most else ""
        yield f"    in {_BLANK}   {word} +{step.times.least} {_BLANK}{out}"
        if step.times.beside:
            yield from _wrapped(step.times.beside, "    ", "    ")
        if step.times.every:
            yield from _wrapped(f"again every {step.times.every} {'[_] ' * step.times.ticks}".rstrip(), "    ", "    ")


def _value(number: Number) -> str:
    if not number.first:
        return NOT_YET
    return f"{number.first} ({number.second})" if number.second else number.first


def _listed(items: Iterable[str], mark: str = "- ") -> Iterator[str]:
    for item in items:
        yield from _wrapped(f"{mark}{item}", "  ", "  " + " " * len(mark))


def _wrapped(text: str, first: str = "", rest: str = "") -> list[str]:
    return wrap(printable(text), WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
