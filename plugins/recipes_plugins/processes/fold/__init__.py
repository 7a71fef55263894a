"""The process fold."""
