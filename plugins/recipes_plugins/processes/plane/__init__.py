"""The process plane."""
