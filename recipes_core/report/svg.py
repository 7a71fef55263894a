"""A drawn SVG made fit for a page: names of its own, a title for who cannot see it, and nothing from elsewhere."""

from __future__ import annotations

import re
from xml.etree import ElementTree as Xml

SVG, XLINK = "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"
_NAMED = re.compile(r"(url\(#|^#)")
_ROUND = {"stroke-linejoin": "round", "stroke-linecap": "butt"}
"""What the drawing says in a style sheet for everything; in a page that would reach beyond the drawing."""


def fit(drawn: str, name: str, title: str, words: str, size: tuple[float, float]) -> str:
    """The drawing as one element for a page or a file, ``size`` (mm) wide and high.

    Every id starts with ``name``, so that several drawings go into one page. Metadata, comments, style sheets and
    the document type are left out; ``title`` and ``words`` are what is read aloud.
    """
    root = Xml.fromstring(drawn)
    for parent in list(root.iter()):
        for child in list(parent):
            if child.tag in (f"{{{SVG}}}metadata", f"{{{SVG}}}style"):
                parent.remove(child)
    for element in root.iter():
        for key, value in element.attrib.items():
            own = f"{name}-{value}" if key == "id" else _NAMED.sub(rf"\g<1>{name}-", value)
            element.set(key, own)
    root.attrib.update(_ROUND)
    root.attrib.update({"role": "img", "aria-labelledby": f"{name}-title {name}-words"})
    root.attrib.update({"width": f"{size[0]:g}mm", "height": f"{size[1]:g}mm"})
    for place, (tag, text) in enumerate((("title", title), ("desc", words))):
        told = Xml.Element(f"{{{SVG}}}{tag}", {"id": f"{name}-{'title' if tag == 'title' else 'words'}"})
        told.text = text
        root.insert(place, told)
    Xml.register_namespace("", SVG)
    Xml.register_namespace("xlink", XLINK)
    return Xml.tostring(root, encoding="unicode") + "\n"
