"""What is to be drawn of a recipe, told in words too: for who cannot see it, and where nothing can be drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from recipes_core.curves import Curves, Line, Mark, Series
from recipes_core.errors import reason
from recipes_core.facts import Open
from recipes_core.quantities import Dimension, show
from recipes_core.report.visible import printable, shortened

if TYPE_CHECKING:
    from recipes_core.case import Case
    from recipes_core.forecast import Walk

_LONGEST = 60
"""Characters of a step's id that are shown: what is longer would not fit above a picture."""


@dataclass(frozen=True)
class Picture:
    """One picture of a step: the curves, and a sentence that tells them.

    Where nothing can be drawn there are no ``curves``, and ``words`` say what is missing. ``broken`` is set where
    that is a mistake in a plugin, and no open question.
    """

    step: str
    title: str
    words: str
    curves: Curves | None = None
    broken: bool = False


def pictures(walked: Walk) -> tuple[Picture, ...]:
    """The pictures of all steps, in order; one for all that is missing of a step."""
    return tuple(picture for case in walked.cases for picture in _of_step(case))


def _of_step(case: Case) -> Iterator[Picture]:
    step = case.step.id if case.step else ""
    head = printable(shortened(step, _LONGEST))
    questions: set[str] = set()
    lacking = False
    for make in case.curves:
        try:
            value = make().value
            picture = None if isinstance(value, Open) else _picture(step, head, value)
        except (Exception, SystemExit) as error:  # foreign code, as forecasts are
            words = f"The curves of {head} could not be made: {printable(reason(error))}."
            yield Picture(step, head, words, broken=True)
            continue
        if picture is not None:
            yield picture
        else:
            lacking = True
            questions |= {question for _, question in value.needs if question}
    if lacking:
        missing = "; ".join(sorted(questions)) or "a step before it did not leave what it needs"
        yield Picture(step, head, f"Not all of {head} can be drawn until this is answered: {printable(missing)}")


def _picture(step: str, head: str, curves: Curves) -> Picture:
    return Picture(step, printable(f"{head}: {curves.title}"), printable(f"{head}, {told(curves)}"), curves)


def told(curves: Curves) -> str:
    """The curves in one sentence, numbers in both unit systems."""
    if curves.over is Dimension.SHARE:
        return f"{curves.title}: {'; '.join(_cuts(curves))}."
    return f"{curves.title} {curves.across}: {'; '.join(_clock(curves))}."


def _clock(curves: Curves) -> Iterator[str]:
    first, *others = curves.series
    end = float(curves.x[-1])
    seen = [m for m in curves.marks if m.time <= end] or [Mark("where the curve ends", end)]
    at = [f"at {show(m.time, Dimension.TIME)} ({m.name}) {_between(curves, first, m.time)}" for m in seen]
    later = [f"{m.name} at {show(m.time, Dimension.TIME)}, after its end" for m in curves.marks if m.time > end]
    yield f"{first.name} {_value(curves, first.nominal[0])} at the start, {', '.join([*at, *later])}"
    for line in curves.lines:
        yield _meets(curves, first, line)
    for series in others:
        ends = [_value(curves, series.nominal[place]) for place in (0, -1)]
        yield f"{series.name} from {ends[0]} to {ends[1]} at {show(end, Dimension.TIME)}"


def _cuts(curves: Curves) -> Iterator[str]:
    for series in curves.series:
        bottom, top = (_value(curves, series.nominal[place]) for place in (0, -1))
        ends = [_value(curves, value) for value in (series.nominal.min(), series.nominal.max())]
        between = f"nowhere under {ends[0]} or over {ends[1]}"
        yield f"{series.name}: {bottom} at the bottom, {top} at the top, {between}"
    for line in curves.lines:
        yield f"{_value(curves, line.value)} is {line.name}"


def _between(curves: Curves, series: Series, time: float) -> str:
    """The nominal value, and what nine of ten plausible shops have."""
    nominal, *ends = (_read(curves, values, time) for values in (series.nominal, *(series.band or ())))
    shown = _value(curves, nominal)
    band = [_value(curves, value) for value in ends]
    if not band or band[0] == band[1]:
        return shown
    return f"{shown}, in nine of ten plausible shops {band[0]} to {band[1]}"


def _meets(curves: Curves, series: Series, line: Line) -> str:
    """When the nominal shop passes a line for the first time."""
    over, named = series.nominal >= line.value, f"{_value(curves, line.value)}, {line.name}"
    later = next((i for i in range(1, len(over)) if over[i] != over[i - 1]), None)
    if later is None:
        return f"it stays {'over' if over[0] else 'under'} {named}"
    (x0, x1), (y0, y1) = curves.x[later - 1 : later + 1], series.nominal[later - 1 : later + 1]
    time = float(x0 + (x1 - x0) * (line.value - y0) / (y1 - y0))
    return f"it {'rises to' if over[later] else 'falls to'} {named}, after {show(time, Dimension.TIME)}"


def _read(curves: Curves, values: Any, time: float) -> float:
    import numpy as np

    return float(np.interp(time, curves.x, values))


def _value(curves: Curves, value: float) -> str:
    return show(float(value), curves.dimension)
