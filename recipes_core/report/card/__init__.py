"""The card at the bench: what it says, and its forms for paper, screen and plain text."""
