"""Time of a card, as whole commands: the page against importing what it is made with, and the PDF.

``python -m tests.benchmarks.bench_card``; with ``--check`` the exit status is 1 if a bound is missed.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from pathlib import Path

from tests.benchmarks.bench_lint import MELTBOOK, RECIPE, seconds

IMPORTS = [sys.executable, "-c", "import jinja2, numpy"]
RUNS = 3


def main() -> int:
    """Print both figures; 1 if a bound is missed and ``--check`` was given."""
    with tempfile.TemporaryDirectory() as folder:
        page, paper = (
            [*MELTBOOK, "card", str(RECIPE), "-o", str(Path(folder, f"card.{form}"))] for form in ("html", "pdf")
        )
        seconds(page), seconds(IMPORTS), seconds(paper)
        pairs = [(seconds(page), seconds(IMPORTS)) for _ in range(RUNS)]
        ratio = statistics.median(a / b for a, b in pairs)
        made = statistics.median(seconds(paper) for _ in range(RUNS))
    took = 1e3 * statistics.median(a for a, _ in pairs)
    print(f"card as a page          {took:7.0f} ms   {ratio:5.2f} × importing jinja2, numpy   bound 3")
    print(f"card as PDF             {1e3 * made:7.0f} ms   bound 3000 ms")
    return int((ratio > 3.0 or made > 3.0) and "--check" in sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
