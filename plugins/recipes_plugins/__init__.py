"""The resins, liners, materials and processes that ship with meltbook; each is a plugin like any other."""
