"""The process flake-melt."""
