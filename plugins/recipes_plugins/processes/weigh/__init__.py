"""The process weigh."""
