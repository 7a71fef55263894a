"""Values that remember where they come from: given, open (missing), or computed.

A fact holds one number per *member*: a member is one plausible shop, the same index in every step; index 0 is
the nominal one. Open values merge and spread: whatever needs one is open itself, and nothing open ever passes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from recipes_core.findings import Path, Span

if TYPE_CHECKING:
    from numpy.typing import NDArray


class Basis(StrEnum):
    """How a number is known. Only PUBLISHED may be shown as somebody's word."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common practice"
    MEMORY = "memory"
    DERIVED = "derived"
    JUDGEMENT = "judgement"

    @property
    def words(self) -> str:
        """How people are told; what is only remembered is never told as what somebody wrote."""
        return "commonly quoted" if self is Basis.MEMORY else self.value


def told_source(source: str) -> str:
    """A source as people are told of it: what nobody has looked up is commonly quoted, and says so."""
    head, _, what = source.partition(":")
    return f"{Basis.MEMORY.words}, not checked:{what}" if head == Basis.MEMORY else source


class Source(StrEnum):
    """Who gave a value."""

    RECIPE = "recipe"
    SHOP = "shop"
    SHEET = "sheet"
    DEFAULT = "default"
    COMPUTED = "computed"


@dataclass(frozen=True)
class Origin:
    """Where a value comes from: a place in a file, or a named entry of a sheet, with its basis."""

    source: Source
    where: str = ""
    path: Path = ()
    span: Span | None = None
    basis: Basis | None = None

    @property
    def known(self) -> str:
        """How it is known, in words."""
        return self.basis.words if self.basis else ""


@dataclass(frozen=True)
class Given:
    """A value that somebody gave, in SI (a number, a ``(low, high)`` range, or plain text), with its own words."""

    value: Any
    text: str
    origin: Origin


@dataclass(frozen=True)
class Open:
    """A value that nobody gave. ``needs`` pairs the path with the question that would answer it."""

    needs: frozenset[tuple[Path, str]]

    def __or__(self, other: Open) -> Open:
        return Open(self.needs | other.needs)


def missing(path: Path, question: str) -> Open:
    """An open value that one answer at ``path`` would close."""
    return Open(frozenset({(path, question)}))


def assumed(value: Any, text: str, basis: Basis = Basis.JUDGEMENT) -> Given:
    """A value that nobody was asked for; reports list it among what the numbers rest on."""
    return Given(value, text, Origin(Source.DEFAULT, basis=basis))


@dataclass(frozen=True)
class Fact:
    """A computed value with the trail that led to it.

    ``value`` is Open, or one SI number per member (infinity: never reached), or for the dimension ``record``
    whatever other facts are made from.
    """

    name: str
    dimension: str
    value: Any
    equation: str
    inputs: Mapping[str, Given | Fact] = field(default_factory=dict)

    @property
    def numbers(self) -> Any:
        """The member values (or the record); asking an open fact for them is a mistake in the caller."""
        if isinstance(self.value, Open):
            raise LookupError(f"fact {self.name} is open")
        return self.value

    @property
    def nominal(self) -> float:
        """The value of the nominal member."""
        return float(self.numbers[0])

    def band(self) -> tuple[float, float]:
        """The 5 % and 95 % points over the members (the nominal one aside), by linear interpolation."""
        ordered = sorted(float(v) for v in self.numbers[1:]) or [self.nominal]
        return _quantile(ordered, 0.05), _quantile(ordered, 0.95)

    def worst(self, highest: bool) -> float:
        """The highest (or lowest) value of any member, the nominal one included."""
        values = [float(v) for v in self.numbers]
        return max(values) if highest else min(values)

    def share(self, test: Callable[[NDArray[Any]], NDArray[Any]]) -> float:
        """The share of plausible members (0 to 1) for which ``test`` holds."""
        members = self.numbers[1:] if len(self.numbers) > 1 else self.numbers
        return float(test(members).mean())


def _quantile(ordered: list[float], share: float) -> float:
    at = share * (len(ordered) - 1)
    low = int(at)
    high = min(low + 1, len(ordered) - 1)
    if ordered[low] == ordered[high]:  # also keeps infinity - infinity out of the arithmetic
        return ordered[low]
    return ordered[low] + (at - low) * (ordered[high] - ordered[low])


def calc(
    name: str, dimension: str, equation: str, fn: Callable[..., Any], **inputs: Given | Fact | Open | None
) -> Fact:
    """The only maker of facts: any open input makes the fact open, with the union of what is needed.

    An input that is None (rightly not said) opens it too, without a question.
    """
    opened = [missing((), "") if v is None else v.value if isinstance(v, Fact) else v for v in inputs.values()]
    needs = [v for v in opened if isinstance(v, Open)]
    known = {k: v for k, v in inputs.items() if isinstance(v, Given | Fact)}
    if needs:
        return Fact(name, dimension, Open(frozenset().union(*(v.needs for v in needs))), equation, known)
    numbers = {k: v.numbers if isinstance(v, Fact) else v.value for k, v in known.items()}
    return Fact(name, dimension, fn(**numbers), equation, known)
