"""The card as PDF, tagged for screen readers; the same page gives the same bytes."""

from __future__ import annotations

from recipes_core.errors import UsageError

MISSING = (
    "for a PDF meltbook needs one more package: pip install 'meltbook[pdf]'. Or write the card as .html, open it in a "
    "browser and print it from there"
)


def pdf(page: str) -> bytes:
    """The PDF of a page, with nothing fetched from outside it. UsageError where the extra is not installed."""
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as error:  # OSError: the package is there, and a library of the system is not
        raise UsageError(MISSING) from error
    document = HTML(string=page, url_fetcher=URLFetcher(allowed_protocols=("data",)))
    written = document.write_pdf(pdf_variant="pdf/ua-1")
    assert written is not None
    return bytes(written)
