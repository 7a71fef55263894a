"""What the suites share with the tests of the rules."""

from __future__ import annotations

from tests.rules.conftest import bench

__all__ = ["bench"]
