"""A sheet of HDPE, 400 × 100 × 20 mm, that is only cut cold; shop and sheet are invented."""

from __future__ import annotations

from typing import Any

MACHINES: dict[str, Any] = {
    "planer": {
        "type": "thickness", "rpm": "6000", "knives": "2", "jointed": "no", "cutter_diameter": "50 mm",
        "feed": "6 m/min", "roller_gap": "200 mm",
    },
    "sander": {"speed": "8 m/s", "power": "600 W", "contact_area": "200 cm²", "contact_time": "0.5 s", "dust": "wet"},
}  # fmt: skip
TRIM = {"id": "trim", "process": "trim"}
PLANE = {"id": "plane", "process": "plane", "cut": "0.5 mm", "to": "18.2 mm", "faces": "one", "part_at": "20 °C"}
SAND = {"id": "sand", "process": "sand", "by": "machine", "off": "0.2 mm", "part_at": "20 °C"}


def sheet(*steps: dict[str, str], **more: Any) -> dict[str, Any]:
    """The changes that make the shared recipe into this one."""
    return {
        "part": {"shape": "plate", "length": "400 mm", "width": "100 mm", "thickness": "18 mm"},
        "formula": {
            "feedstock": [{"resin": "hdpe", "share": "100 %", "form": "sheet", "thickness": "20 mm"}],
            "flash_allowance": "5 %",
        },
        "equipment": MACHINES,
        "procedure": list(steps),
        **more,
    }
