"""A lower layer never imports a higher one, and plugins see only what was made for them."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

LAYERS = (
    "quantities facts findings errors __version__",
    "physics",
    "document provenance resources fonts write edits advice",
    "schema recipe sheets bench emergency hazards shop run",
    "case oven curves work mass spread site mixing marking identity apart whole forecast",
    "rules",
    "hooks installed plugin_api plugin_host library_folder",
    "report",
    "library",
    "shelf",
    "app explain explain_field rule_book mend",
    "cli __main__",
)
LAYER = {name: height for height, names in enumerate(LAYERS) for name in names.split()}
TOP = len(LAYERS)


def imports(source: str, module: str, is_package: bool) -> Iterator[tuple[str, bool]]:
    """Every name that a module imports, dotted and absolute, and whether it does so at its top level.

    ``from a import b`` yields ``a`` and ``a.b``, since only the import system knows whether b is a module.
    Blocks under ``if TYPE_CHECKING`` never run and are passed over.
    """
    package = module.split(".") if is_package else module.split(".")[:-1]

    def walk(node: ast.AST, top: bool) -> Iterator[tuple[str, bool]]:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.unparse(child.test):
                for other in child.orelse:
                    yield from walk(ast.Module([other], []), top)
                continue
            if isinstance(child, ast.Import):
                yield from ((alias.name, top) for alias in child.names)
            elif isinstance(child, ast.ImportFrom):
                start = package[: len(package) - child.level + 1] if child.level else []
                base = ".".join([*start, *([child.module] if child.module else [])])
                yield base, top
                yield from ((f"{base}.{alias.name}", top) for alias in child.names)
            inside = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
            yield from walk(child, top and not inside)

    yield from walk(ast.parse(source), True)


def layer(name: str) -> int | None:
    """The layer of a dotted name of the core; the bare package is above them all; None for foreign names."""
    parts = name.split(".")
    if parts[0] != "recipes_core":
        return None
    return LAYER.get(parts[1], TOP) if len(parts) > 1 else None


def wrong_in_core(source: str, module: str, is_package: bool = False) -> list[str]:
    """What a module of the core imports although it may not."""
    own = layer(module)
    isolated = module.split(".")[1:2] == ["physics"]
    wrong = []
    for name, _ in imports(source, module, is_package):
        height = layer(name)
        higher = own is not None and height is not None and height > own
        ours = height is not None and not name.startswith("recipes_core.physics")
        if higher or (isolated and ours) or name.split(".")[0] == "recipes_plugins":
            wrong.append(name)
    return wrong


def wrong_in_plugin(source: str, module: str, is_package: bool = False) -> list[str]:
    """What a plugin imports although it may not: of the core only plugin_api, and physics where it computes.

    Packages are imported to list what there is, rules to explain them: neither may load physics and so numpy.
    """
    listed = is_package or module.endswith(".rules")
    wrong = []
    for name, top in imports(source, module, is_package):
        allowed = name == "recipes_core" or name.startswith("recipes_core.plugin_api")
        physics = name.startswith("recipes_core.physics") and not (top and listed)
        if name.split(".")[0] == "recipes_core" and not allowed and not physics:
            wrong.append(name)
    return wrong


def modules(folder: Path, base: Path) -> Iterator[tuple[str, Path]]:
    """Dotted name and file of every module below a folder."""
    for file in sorted(folder.rglob("*.py")):
        parts = file.relative_to(base).with_suffix("").parts
        yield ".".join(parts[:-1] if parts[-1] == "__init__" else parts), file


CORE = dict(modules(ROOT / "recipes_core", ROOT))
PLUGINS = dict(modules(ROOT / "plugins" / "recipes_plugins", ROOT / "plugins"))


@pytest.mark.parametrize("module", CORE)
def test_core_imports_downwards(module: str) -> None:
    """No module of the core imports a higher layer or a shipped plugin, inside functions neither."""
    file = CORE[module]
    assert wrong_in_core(file.read_text("utf-8"), module, file.name == "__init__.py") == []


@pytest.mark.parametrize("module", PLUGINS)
def test_plugins_import_only_their_interface(module: str) -> None:
    """A shipped plugin takes no way that a third party's could not take."""
    file = PLUGINS[module]
    assert wrong_in_plugin(file.read_text("utf-8"), module, file.name == "__init__.py") == []


def test_every_module_has_a_layer() -> None:
    """A new module of the core must be given its place in the table above."""
    placeless = {name.split(".")[1] for name in CORE if "." in name} - set(LAYER) - {"_build_hook"}
    assert placeless == set()


@pytest.mark.parametrize(
    "source",
    [
        "import recipes_core.rules",
        "import recipes_core.rules.engine as e",
        "from recipes_core.rules import engine",
        "from recipes_core import rules",
        "from recipes_core import findings, cli",
        "from .. import rules",
        "from ..rules.rule import Rule",
        "def f():\n    from recipes_core.rules import rule",
        "class A:\n    def f(self):\n        import recipes_core.app",
        "try:\n    import recipes_core.report\nexcept ImportError:\n    pass",
        "if TYPE_CHECKING:\n    pass\nelse:\n    import recipes_core.cli",
        "import recipes_plugins.resins",
        "from recipes_plugins import resins",
        "from recipes_core import lint",
        "from recipes_core.brand_new import thing",
    ],
)
def test_the_walk_catches_an_import_upwards(source: str) -> None:
    """Each of these, planted in a module of layer 3, is caught."""
    assert wrong_in_core(source, "recipes_core.schema.check")


@pytest.mark.parametrize(
    "source",
    [
        "from recipes_core.findings import Finding",
        "from recipes_core import facts, __version__",
        "from . import fields",
        "from ..document import read",
        "import numpy as np",
        "if TYPE_CHECKING:\n    from recipes_core.rules.rule import Rule",
        "if typing.TYPE_CHECKING:\n    import recipes_core.app",
    ],
)
def test_the_walk_allows_what_is_allowed(source: str) -> None:
    """Downwards, sideways, foreign, or for type checkers only."""
    assert wrong_in_core(source, "recipes_core.schema.check") == []


def test_relative_imports_of_a_package_start_at_itself() -> None:
    """One dot in ``schema/__init__.py`` is schema, in ``schema/check.py`` too; two dots are the core."""
    assert dict(imports("from ..rules import x", "recipes_core.schema", True)).keys() >= {"recipes_core.rules.x"}
    assert dict(imports("from .fields import x", "recipes_core.schema", True)).keys() >= {"recipes_core.schema.fields"}


@pytest.mark.parametrize("source", ["from recipes_core.findings import Finding", "from .. import errors"])
def test_physics_knows_nothing_of_ours(source: str) -> None:
    """Not even the lowest layer: it takes and returns SI numbers."""
    assert wrong_in_core(source, "recipes_core.physics.slab")


@pytest.mark.parametrize(
    ("source", "module"),
    [
        ("from recipes_core.findings import Finding", "recipes_plugins.resins"),
        ("import recipes_core.rules.rule", "recipes_plugins.processes.weigh.rules"),
        ("def f():\n    from recipes_core import facts", "recipes_plugins.resins"),
        ("from recipes_core import physics", "recipes_plugins.processes.weigh.rules"),
        ("from recipes_core.physics import slab", "recipes_plugins.resins"),
    ],
)
def test_the_walk_catches_what_a_plugin_may_not_import(source: str, module: str) -> None:
    """The core beyond its interface, and physics while a plugin is only being listed."""
    assert wrong_in_plugin(source, module, module.endswith(".resins"))


@pytest.mark.parametrize(
    ("source", "module"),
    [
        ("from recipes_core.plugin_api import Rule, hookimpl", "recipes_plugins.resins"),
        ("from recipes_core.physics import slab", "recipes_plugins.processes.weigh.forecast"),
        (
            "def f():\n    from recipes_core.physics.slab import solve",
            "recipes_plugins.processes.weigh.rules",
        ),
    ],
)
def test_the_walk_lets_a_plugin_use_its_interface(source: str, module: str) -> None:
    """What plugins are meant to import is not reported."""
    assert wrong_in_plugin(source, module) == []
