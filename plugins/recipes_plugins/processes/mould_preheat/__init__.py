"""The process mould-preheat."""
