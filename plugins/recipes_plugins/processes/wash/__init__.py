"""The process wash."""
