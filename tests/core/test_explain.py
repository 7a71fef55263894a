"""Explanations: every rule, process, sheet and value can be asked for; nothing remembered is dressed up as seen."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from recipes_core.errors import UsageError
from recipes_core.explain import WIDTH, explain
from recipes_core.facts import Basis, Given, told_source
from recipes_core.plugin_host import load
from recipes_core.shelf import shelf

if TYPE_CHECKING:
    from recipes_core.sheets import Sheet
    from tests.conftest import Shop

HAVING = shelf()
RULES = {rule.id: rule for rule in HAVING.rules}
SHEETS: dict[str, Sheet] = {
    **{n: HAVING.library.resins[n] for n in load().resins},
    **{n: HAVING.library.liners[n] for n in load().liners},
    **{n: HAVING.library.materials[n] for n in load().materials},
}
VALUES = [f"{id_} {name}" for id_, sheet in SHEETS.items() for name in sheet.names()]


def test_no_name_lists_everything() -> None:
    """Every rule with its sentence, marked where nothing can silence it; then the processes and the sheets."""
    shown = explain(HAVING, "")
    for rule in RULES.values():
        assert f"{'A' if rule.absolute else ' '} {rule.id}" in shown
        assert rule.message in shown
    assert all(name in shown for name in (*HAVING.plugins.processes, *SHEETS))


@pytest.mark.parametrize("name", RULES)
def test_every_rule(name: str) -> None:
    """Weight, sentence, what is compared, why, what to do, each source and each field read."""
    rule, shown = RULES[name], explain(HAVING, name)
    told = " ".join(shown.split())
    assert shown.startswith(f"{name} ({'absolute: nothing can silence it' if rule.absolute else rule.level}")
    known = (name.removeprefix("fact:").replace(":", " sheet: ") for name in rule.reads)
    for text in (rule.message, rule.checks, rule.why, rule.do, *map(told_source, rule.sources), *known):
        assert " ".join(text.split()) in told


@pytest.mark.parametrize("name", HAVING.plugins.processes)
def test_every_process(name: str) -> None:
    """What it takes, yields and is judged by; each hazard with what keeps it away and where that comes from."""
    process, shown = HAVING.plugins.processes[name], explain(HAVING, name)
    told = " ".join(shown.split())
    assert shown.startswith(f"{name}: {process.name}\n")
    for form in (*process.takes, process.yields):
        assert form in told
    assert process.hazards()
    for hazard in process.hazards():
        assert f"{hazard.signal}: {hazard.hazard}" in told
        assert " ".join(hazard.corrective.split()) in told
        assert all(" ".join(control.do.split()) in told for control in hazard.controls)
        assert " ".join(hazard.source.split()) in told
        assert (hazard.basis is Basis.MEMORY) or f"{hazard.basis}: " in told
    assert "Local codes come first" in told
    assert any(rule in told for rule in RULES)


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet(name: str) -> None:
    """Each value on a line, or on a few where it is long, with how it is known."""
    sheet, lines = SHEETS[name], explain(HAVING, name).splitlines()
    assert lines[0].startswith(f"{name}: {sheet.name}")
    for entry in sheet.names():
        found, value = sheet.find(entry), sheet.get(entry)
        assert found is not None
        assert isinstance(value, Given)
        (at,) = [at for at, line in enumerate(lines) if line.startswith(f"  {entry:<36}")]
        told = " ".join(" ".join(lines[at : at + 4]).split())
        assert told.startswith(" ".join(f"{entry} {value.text} {found[2].basis.words}".split()))


@pytest.mark.parametrize("name", VALUES)
def test_every_value(name: str) -> None:
    """Its words, basis, source and place; a value from memory says that it was not checked, and cites nobody."""
    id_, _, entry = name.partition(" ")
    found = SHEETS[id_].find(entry)
    assert found is not None
    sourced, shown = found[2], explain(HAVING, name)
    main = " ".join(shown.partition("\n\n")[0].split())  # what follows are the values that were not taken
    assert shown.startswith(f"{id_}, {entry}: ")
    assert f"basis {sourced.basis.words}" in main
    assert (sourced.basis is Basis.MEMORY) is ("basis commonly quoted, not checked against a source" in main)
    if sourced.basis is Basis.PUBLISHED:
        assert sourced.source is not None
        assert " ".join(SHEETS[id_].citation(sourced.source).cite.split()) in main
    if sourced.basis is Basis.MEMORY:
        assert "  source " not in shown.partition("\n\n")[0]
    for other in sourced.alternatives:
        assert "instead of" in shown
        assert " ".join((other.instead or "").split()) in " ".join(shown.split())


def test_every_basis_is_among_the_values() -> None:
    """So the test above has seen one value of each kind."""
    seen = {SHEETS[n.partition(" ")[0]].find(n.partition(" ")[2])[2].basis for n in VALUES}  # type: ignore[index]
    assert seen == set(Basis)


@pytest.mark.parametrize("name", ["", *list(RULES)[::10], *HAVING.plugins.processes, *SHEETS, *VALUES[::20]])
def test_width(name: str) -> None:
    """No line of an explanation runs past the edge, but for the list of rules and the closing lines."""
    lines = explain(HAVING, name).splitlines()
    wide = [x for x in lines if len(x) > WIDTH and not x.startswith(("Processes:", "Sheets:"))]
    assert wide == []


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("melt-cut-shrt", "melt-cut-short"),
        ("flakemelt", "flake-melt"),
        ("hpde", "hdpe"),
        ("hdpe meltin peak", "melting peak"),
        ("parchmnt", "parchment"),
    ],
)
def test_an_unknown_name_suggests_near_ones(name: str, near: str) -> None:
    """One sentence, with the name that was probably meant."""
    with pytest.raises(UsageError, match=near):
        explain(HAVING, name)


def test_a_name_like_nothing_says_where_to_look() -> None:
    """And a value that a sheet could give but does not names the sheet."""
    with pytest.raises(UsageError, match="without a name, lists the rules"):
        explain(HAVING, "qqqqqq")
    with pytest.raises(UsageError, match="the data sheet of steel gives no contact limit"):
        explain(HAVING, "steel contact limit")


def test_a_colon_stands_for_a_space(shop: Shop) -> None:
    """As reports write it: ``hdpe:melting peak``."""
    assert explain(shop.shelf, "hdpe:melting peak") == explain(shop.shelf, "hdpe melting peak")


@pytest.mark.parametrize("name", ["resin sheet.pc.bend set", "sheet.pc.bend set", "PC:bend set", "pc.bend set"])
def test_a_value_goes_by_the_name_that_findings_print(name: str) -> None:
    """So that it can be copied from a report."""
    assert explain(HAVING, name) == explain(HAVING, "pc bend set")


def test_a_value_without_its_sheet_is_told_from_all() -> None:
    """Each sheet that gives it, and none that does not."""
    lines = explain(HAVING, "bend set").splitlines()
    giving = [name for name, sheet in SHEETS.items() if sheet.find("bend set")]
    assert [line.split()[0] for line in lines[1:]] == giving


def test_a_value_that_a_sheet_lacks_is_explained() -> None:
    """What it would be, for whoever may know it."""
    with pytest.raises(UsageError, match=r"gives no bend strain, the .*strain"):
        explain(HAVING, "resin sheet.pc.bend strain")
