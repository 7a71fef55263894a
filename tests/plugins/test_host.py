"""A plugin that fails in any way is named and contained, and the others still run."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from recipes_core import plugin_host
from recipes_core.errors import PluginError
from recipes_core.findings import Finding, Kind
from recipes_core.installed import entry_points
from recipes_core.plugin_host import NOT_LOADED, TAKEN_ID, Plugins, State, load, resolve
from recipes_core.rules.verdict import Verdict, verdict

Install = Callable[[str, str], None]

START = "from recipes_core.plugin_api import SheetFile, Process, hookimpl\nMELTBOOK_API = (1, 0)\n"
GOOD = START + "@hookimpl\ndef meltbook_resins():\n    return [SheetFile(__name__, 'good.yaml')]\n"


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Install]:
    """Installs a made-up distribution of one module; only such distributions are found."""
    monkeypatch.syspath_prepend(tmp_path)
    monkeypatch.setattr(plugin_host, "entry_points", lambda group: entry_points(group, [str(tmp_path)]))
    made = []

    def write(name: str, source: str) -> None:
        (tmp_path / f"{name}.py").write_text(source, "utf-8")
        folder = tmp_path / f"{name}-2.1.dist-info"
        folder.mkdir()
        (folder / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 2.1\n\nText.\n", "utf-8")
        (folder / "entry_points.txt").write_text(
            f"[console_scripts]\nrun = x:y\n\n[recipes_core.plugins]\nplugin-{name} = {name}\n", "utf-8"
        )
        made.append(name)

    yield write
    for name in made:
        sys.modules.pop(name, None)


def only_problem(plugins: Plugins) -> Finding:
    """The one problem, after checks that hold for every problem of the host."""
    (problem,) = plugins.problems
    assert verdict([problem]) is Verdict.NOT_YET
    assert problem.kind is Kind.OPEN
    return problem


def test_a_sound_plugin_is_taken(install: Install) -> None:
    """What a sound plugin declares is there by id, with its owner, and nothing is reported."""
    install("sound", GOOD)
    plugins = load()
    assert plugins.problems == ()
    assert plugins.resins["good"].package == "sound"
    assert plugins.owners == {"resin-good": "plugin plugin-sound of sound 2.1"}
    (described,) = plugins.described
    assert (described.state, described.uses) == (State.ON, ("resin-good",))


@pytest.mark.parametrize(
    ("source", "says"),
    [
        pytest.param("1 / 0", "ZeroDivisionError: division by zero", id="raises on import"),
        pytest.param("import sys\nsys.exit('bye')", "SystemExit: bye", id="exits on import"),
        pytest.param("def broken(:", "SyntaxError: invalid syntax", id="is no Python"),
        pytest.param("import nothing_of_this_name", "ModuleNotFoundError: No module named", id="lacks a module"),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resins():\n    raise KeyError('melting peak')",
            "KeyError: 'melting peak'",
            id="raises in a hook",
        ),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resins():\n    yield SheetFile('a', 'b')\n    raise OSError('late')",
            "OSError: late",
            id="raises late in a generator",
        ),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resins():\n    import sys\n    sys.exit(0)",
            "SystemExit: 0",
            id="exits in a hook",
        ),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resins(recipe):\n    return []",
            "'recipe'",
            id="asks for an argument no hook has",
        ),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resin():\n    return []",
            "there is no hook meltbook_resin; the nearest is meltbook_resins",
            id="misspells a hook",
        ),
        pytest.param(
            START + "@hookimpl\ndef zebra():\n    return []",
            "there is no hook zebra; the hooks are meltbook_resins,",
            id="names a hook like no other",
        ),
        pytest.param(
            START + "def meltbook_resins():\n    return []",
            "marked with @hookimpl",
            id="forgets to mark its hook",
        ),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resins():\n    pass",
            "'NoneType' object is not iterable",
            id="returns nothing",
        ),
        pytest.param(
            START + "@hookimpl\ndef meltbook_resins():\n    return 'hdpe.yaml'",
            "meltbook_resins returned 'h', which is no SheetFile",
            id="returns something else",
        ),
        pytest.param(
            START.replace("(1, 0)", "(2, 0)"), "is for plugin interface 2.0", id="is of a newer major version"
        ),
        pytest.param(START.replace("(1, 0)", "'1'"), "does not state MELTBOOK_API = (1, 0)", id="states no version"),
        pytest.param(
            "class Mute(Exception):\n    def __str__(self):\n        raise ValueError\nraise Mute",
            "Mute: (its message cannot be shown)",
            id="raises what cannot be printed",
        ),
    ],
)
def test_a_failing_plugin_is_named_and_contained(install: Install, source: str, says: str) -> None:
    """Its distribution, version and error are reported, nothing of it is used, and its neighbours run."""
    install("alpha", GOOD)
    install("failing", source)
    install("zulu", GOOD.replace("good", "fine"))
    plugins = load()
    message = only_problem(plugins).message
    assert says in message
    assert "plugin plugin-failing of failing 2.1" in message
    assert only_problem(plugins).rule == NOT_LOADED
    assert set(plugins.resins) == {"good", "fine"}
    assert [d.state for d in plugins.described] == [State.ON, State.BROKEN, State.ON]


@pytest.mark.parametrize(
    ("ours", "theirs", "upgrade"),
    [
        ((1, 3), (2, 0), "upgrade meltbook"),
        ((1, 3), (1, 4), "upgrade meltbook"),
        ((2, 0), (1, 9), "upgrade the plugin"),
        ((1, 3), (1, 3), None),
        ((1, 3), (1, 0), None),
    ],
)
def test_the_older_side_is_told_to_upgrade(
    install: Install,
    monkeypatch: pytest.MonkeyPatch,
    ours: tuple[int, int],
    theirs: tuple[int, int],
    upgrade: str | None,
) -> None:
    """Another major or a newer minor version is refused; an older minor one of the same major is welcome."""
    monkeypatch.setattr(plugin_host, "API_VERSION", ours)
    install("other", GOOD.replace("(1, 0)", str(theirs)))
    plugins = load()
    if upgrade is None:
        assert plugins.problems == ()
        assert set(plugins.resins) == {"good"}
    else:
        assert f": {upgrade}" in only_problem(plugins).message
        assert not plugins.resins


def test_an_optional_hook_of_a_later_version_is_no_mistake(install: Install) -> None:
    """A plugin may mark a hook that only a later meltbook has as optional, and still run here."""
    install("early", GOOD + "@hookimpl(optionalhook=True)\ndef meltbook_tools():\n    return []\n")
    plugins = load()
    assert plugins.problems == ()
    assert set(plugins.resins) == {"good"}


def test_a_misspelt_hook_is_named_beside_an_optional_one(install: Install) -> None:
    """The sentence names the hook that is misspelt, not the one that is rightly unknown."""
    optional = "@hookimpl(optionalhook=True)\ndef meltbook_aaa():\n    return []\n"
    install("early", GOOD + optional + "@hookimpl\ndef meltbook_rulez():\n    return []\n")
    assert "no hook meltbook_rulez; the nearest is meltbook_rules" in only_problem(load()).message


def test_the_same_id_twice_names_both_plugins(install: Install) -> None:
    """The first distribution by name keeps the id, the second keeps its other ids."""
    install("alpha", GOOD)
    install("beta", GOOD.replace("[", "[SheetFile(__name__, 'more.yaml'), "))
    plugins = load()
    problem = only_problem(plugins)
    assert problem.rule == TAKEN_ID
    for name in ("resin-good", "plugin plugin-alpha of alpha 2.1", "plugin plugin-beta of beta 2.1"):
        assert name in problem.message
    assert plugins.resins["good"].package == "alpha"
    assert plugins.resins["more"].package == "beta"


def test_a_shipped_id_cannot_be_taken(install: Install) -> None:
    """What ships with meltbook comes first, whatever another distribution is called."""
    install("aaa", GOOD)
    install("meltbook", GOOD)
    plugins = load()
    assert plugins.resins["good"].package == "meltbook"
    assert only_problem(plugins).rule == TAKEN_ID


def test_a_plugin_is_switched_off_by_name(install: Install) -> None:
    """A plugin that is off is not even imported, and is still listed."""
    install("bad", "1 / 0")
    install("good", GOOD)
    plugins = load(frozenset({"plugin-bad"}))
    assert plugins.problems == ()
    assert [(d.entry.name, d.state) for d in plugins.described] == [
        ("plugin-bad", State.OFF),
        ("plugin-good", State.ON),
    ]


def test_one_declaration_is_switched_off_by_name(install: Install) -> None:
    """The rest of its plugin stays in use."""
    install("two", GOOD.replace("[", "[SheetFile(__name__, 'more.yaml'), "))
    plugins = load(frozenset({"resin-good"}))
    assert set(plugins.resins) == {"more"}
    assert plugins.described[0].off == ("resin-good",)


def test_resolve_imports_what_a_declaration_names() -> None:
    """A reference is "module:name"."""
    assert resolve("recipes_core.plugin_host:load") is load


@pytest.mark.parametrize("source", ["1 / 0", "import sys\nsys.exit(3)", "other = 1"])
def test_resolve_says_what_cannot_be_loaded(install: Install, source: str) -> None:
    """Whatever the module does while it is imported, the caller sees one kind of error that names it."""
    install("late", source)
    with pytest.raises(PluginError, match="late:forecast cannot be loaded"):
        resolve("late:forecast")
