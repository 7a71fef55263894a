"""The process dry."""
