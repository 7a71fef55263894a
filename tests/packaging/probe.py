"""Probes an installed wheel: ``python -P probe.py CHECKOUT``, run from a folder that is not the checkout."""

from __future__ import annotations

import subprocess
import sys
import sysconfig
from importlib.metadata import version
from importlib.util import find_spec
from pathlib import Path

import recipes_plugins

import recipes_core
from recipes_core.plugin_host import State, load
from recipes_core.resources import data_root

SCRIPT = Path(sysconfig.get_path("scripts")) / "meltbook"


def data_files(folder: Path) -> dict[str, bytes]:
    """Relative name and bytes of everything in a folder that is no Python."""
    files = (file for file in folder.rglob("*") if file.is_file())
    return {
        file.relative_to(folder).as_posix(): file.read_bytes() for file in files if file.suffix not in {".py", ".pyc"}
    }


def same(installed: Path, checkout: Path) -> None:
    """Every data file of the checkout was installed, unchanged, and no other."""
    wanted, found = data_files(checkout), data_files(installed)
    assert wanted, f"nothing in {checkout}"
    assert found.keys() == wanted.keys(), found.keys() ^ wanted.keys()
    assert found == wanted, f"files in {installed} differ from {checkout}"
    print(f"{len(found):4} data files of {checkout.name}/")


def succeeds(*words: str) -> str:
    """What the installed command prints; it must end with status 0."""
    done = subprocess.run([SCRIPT, *words], capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"meltbook {' '.join(words)}: {done.returncode}\n{done.stdout}{done.stderr}"
    return done.stdout


def main(checkout: Path) -> None:
    """Every check; the first that fails stops the probe."""
    site = Path(sysconfig.get_path("purelib"))
    assert Path(str(recipes_core.__file__)).is_relative_to(site), recipes_core.__file__
    assert version("meltbook") == recipes_core.__version__
    same(data_root("schemas"), checkout / "schemas")
    same(data_root("recipes"), checkout / "recipes")
    same(Path(str(recipes_plugins.__file__)).parent, checkout / "plugins" / "recipes_plugins")
    for absent in ("recipes_core._build_hook", "tests", "schemas", "recipes"):
        assert find_spec(absent) is None, f"{absent} is in the wheel"

    plugins = load()
    assert plugins.problems == (), plugins.problems
    assert [plugin.entry.name for plugin in plugins.described] == [
        "liners",
        "materials",
        "processes",
        "resins",
    ]
    assert all(plugin.state is State.ON and plugin.uses for plugin in plugins.described)
    print(f"{len(plugins.owners):4} declarations of {len(plugins.described)} plugins")

    assert "resin-hdpe" in succeeds("plugins")
    print(succeeds("lint", str(data_root("recipes"))).strip().splitlines()[-1])


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve())
