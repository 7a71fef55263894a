"""The process mould-press."""
