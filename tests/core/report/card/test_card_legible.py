"""What matters most on the paper can still be read after two photocopies, and by a screen reader in a browser.

Read by programs that know nothing of cards: an OCR engine, a browser, and a published accessibility checker.
"""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageFilter

from recipes_core.report.card.page import LARGE, NORMAL, Sizes, render
from recipes_core.report.card.paper import pdf
from tests.core.report.card.conftest import NOT_YET, REFUSED, Make
from tests.tools import file_of, output, printer, tool

DPI = 150
WANTED = {
    "charge": ["78g"],
    "dial": ["177°C", "351°F", "163°C", "325°F"],
    "plastic": ["136°C", "277°F", "135°C", "275°F"],
    "times": ["+16min", "+22min", "+25min", "+44min", "+52min", "+1h"],
    "force": ["1.9t", "4190lbf"],
}
"""The critical numbers of the coat hook, spaces left out."""


def photocopied(image: Image.Image, seed: int) -> Image.Image:
    """A copy that is a little blurred, tilted, greyed and specked: what a worn office copier does."""
    rng = np.random.default_rng(seed)
    blurred = image.filter(ImageFilter.GaussianBlur(0.6)).rotate(0.3, fillcolor=255, resample=Image.Resampling.BICUBIC)
    grey = np.asarray(blurred, float) * 0.85 + 25.0 + rng.normal(0.0, 8.0, (blurred.height, blurred.width))
    grey[rng.random(grey.shape) < 0.0005] = 0.0
    return Image.fromarray(np.clip((grey - 128.0) * 1.6 + 128.0, 0, 255).astype("uint8"))


def read_back(folder: Path, page: bytes) -> str:
    """The text that OCR finds on all pages, after two photocopies, spaces left out."""
    (folder / "card.pdf").write_bytes(page)
    output(tool("pdftoppm"), "-r", str(DPI), "-gray", "-png", folder / "card.pdf", folder / "page")
    told = []
    for file in sorted(folder.glob("page-*.png")):
        photocopied(photocopied(Image.open(file).convert("L"), 1), 2).save(file)
        told.append(output(tool("tesseract"), file, "-", "--psm", "11", "--dpi", str(DPI)))
    return re.sub(r"\s+", "", "".join(told))


@pytest.fixture(scope="module")
def copied(make: Make, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The coat hook's card as OCR reads it."""
    tool("tesseract"), tool("pdftoppm"), printer()
    return read_back(tmp_path_factory.mktemp("copies"), pdf(render(make())))


@pytest.mark.parametrize("what", WANTED)
def test_the_critical_numbers_are_read_back(copied: str, what: str) -> None:
    """None of them is misread: zero is tolerated."""
    assert [number for number in WANTED[what] if number not in copied] == []


BROWSER = (
    "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip

CHECK = """
<script>{engine}</script>
<script>
axe.run(document, {{resultTypes: ["violations"]}}).then(found => {{
  const told = found.violations.map(v => v.id + ": " + v.nodes.map(n => n.html).join(" | "));
  const box = document.createElement("pre");
  box.id = "told";
  box.textContent = JSON.stringify({{violations: told, passes: found.passes.length}});
  document.body.replaceChildren(box);
}});
</script>
"""


def checked(folder: Path, page: str) -> dict[str, Any]:
    """What the accessibility checker says of a page that a browser opened from a file."""
    engine = file_of("MELTBOOK_AXE").read_text("utf-8").replace("</script", "<\\/script")
    file = folder / "card.html"
    file.write_text(page.replace("</body>", CHECK.format(engine=engine) + "</body>"), encoding="utf-8")
    profile = f"--user-data-dir={folder / 'profile'}"
    told = output(tool("chromium"), *BROWSER, profile, "--virtual-time-budget=20000", "--dump-dom", file.as_uri())
    found = re.search(r'<pre id="told">(.*?)</pre>', told, re.S)
    assert found, told[-500:]
    result: dict[str, Any] = json.loads(found[1].replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&"))
    return result


@pytest.mark.parametrize(
    ("changes", "sizes"),
    [((), NORMAL), ((), LARGE), ((REFUSED,), NORMAL), ((NOT_YET,), NORMAL)],
    ids=["sound", "large print", "refused", "not yet"],
)
def test_an_accessibility_checker_finds_nothing(make: Make, tmp_path: Path, changes: Any, sizes: Sizes) -> None:
    """In a browser, from a file, with no network."""
    found = checked(tmp_path, render(make("hdpe/coat-hook", *changes), "a4", sizes))
    assert found["violations"] == []
    assert found["passes"] > 5


def test_the_checker_does_find_things(make: Make, tmp_path: Path) -> None:
    """Grey on white, and a page without a language."""
    page = render(make()).replace("color: #000", "color: #bbb").replace('<html lang="en">', "<html>")
    told = " ".join(checked(tmp_path, page)["violations"])
    assert "color-contrast" in told
    assert "html-has-lang" in told


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_browser_prints_the_same_two_pages(make: Make, tmp_path: Path, paper: str) -> None:
    """The way out for those who have no PDF extra."""
    (tmp_path / "card.html").write_text(render(make(), paper), encoding="utf-8")
    words = [tool("chromium"), *BROWSER, f"--user-data-dir={tmp_path / 'profile'}", "--no-pdf-header-footer"]
    target = tmp_path / "card.pdf"
    subprocess.run(
        [*words, f"--print-to-pdf={target}", (tmp_path / "card.html").as_uri()], check=True, capture_output=True
    )
    told = output(tool("pdfinfo"), target)
    assert re.search(r"^Pages: +2$", told, re.M), told


NARROW = 500
"""Pixels: as narrow as a window of this browser can be."""
WIDTH = """<script>
document.body.dataset.beyond = [...document.querySelectorAll("main *")]
  .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map(e => e.className || e.tagName).join(" ") || "nothing";
</script>"""


@pytest.mark.parametrize("sizes", [NORMAL, LARGE], ids=["normal", "large"])
@pytest.mark.parametrize("name", ["hdpe/coat-hook", "hips/label-sheet", "pmma/leaflet-stand"])
def test_nothing_runs_off_a_narrow_screen(make: Make, tmp_path: Path, name: str, sizes: Sizes) -> None:
    """One, two, three and four numbers in a row, beside clocks or not."""
    file = tmp_path / "card.html"
    file.write_text(render(make(name), "a4", sizes).replace("</body>", f"{WIDTH}</body>"), encoding="utf-8")
    profile = f"--user-data-dir={tmp_path / 'profile'}"
    told = output(tool("chromium"), *BROWSER, profile, f"--window-size={NARROW},900", "--dump-dom", file.as_uri())
    found = re.search(r'data-beyond="([^"]*)"', told)
    assert found, told[-500:]
    assert found[1] == "nothing"
