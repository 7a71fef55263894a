"""The process sort."""
