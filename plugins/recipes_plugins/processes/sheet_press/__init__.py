"""Pressing a sheet between heated platens."""
