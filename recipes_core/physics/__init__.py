"""Physics of melting, pressing and cooling: numpy only, SI units and kelvin, nothing of recipes or sheets.

Closed forms live in modules named after them. A transient forecast is made of `matter` (what a layer is made of),
`slab` (layers, contacts, surroundings), `grid` (cells and steps), `solver` (with examples) and `history`.
"""
