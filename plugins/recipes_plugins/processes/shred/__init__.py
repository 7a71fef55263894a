"""The process shred."""
