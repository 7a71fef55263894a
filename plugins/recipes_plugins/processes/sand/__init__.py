"""The process sand."""
