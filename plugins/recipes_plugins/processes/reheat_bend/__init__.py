"""The process reheat-bend."""
