"""The process demould."""
