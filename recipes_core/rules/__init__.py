"""Rules: one comparison, one message, one cure each; the engine runs every one of them in a guard."""
