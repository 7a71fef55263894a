"""The process cool."""
