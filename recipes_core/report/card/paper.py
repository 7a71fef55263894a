"""The card as PDF, tagged for screen readers; the same page gives the same bytes."""

from __future__ import annotations

from recipes_core.errors import UsageError

MISSING = (
    "for a PDF meltbook needs one more package: pip install 'meltbook[pdf]'. Or write the card as .html, open it in a "
    "browser and print it from there"
)


def prepare() -> None:
    """Import what a PDF is made with, which takes as long as judging. UsageError where the extra is not installed."""
    try:
        import weasyprint  # noqa: F401
    except (ImportError, OSError) as error:  # OSError: the package is there, and a library of the system is not
        raise UsageError(MISSING) from error


def pdf(page: str) -> bytes:
    """The PDF of a page, with nothing fetched from outside it. UsageError where the extra is not installed."""
    prepare()
    from weasyprint import HTML
    from weasyprint.urls import URLFetcher

    document = HTML(string=page, url_fetcher=URLFetcher(allowed_protocols=("data",)))
    written = document.write_pdf(pdf_variant="pdf/ua-1")
    assert written is not None
    return bytes(written)
