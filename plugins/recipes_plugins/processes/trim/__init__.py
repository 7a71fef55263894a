"""The process trim."""
