"""The typeface of everything that is printed: two faces that tell 1, l and I apart, and 0 from O.

Atkinson Hyperlegible Next, its Latin and Latin Extended glyphs joined into one file a face, under the SIL Open
Font License in LICENSE.txt.
"""

from __future__ import annotations

from pathlib import Path

FAMILY = "Atkinson Hyperlegible Next"
_HERE = Path(__file__).parent
REGULAR, BOLD = _HERE / "regular.ttf", _HERE / "bold.ttf"
