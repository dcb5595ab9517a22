"""The report of a job before it is filed; that of a filed one stands in its dossier."""

from __future__ import annotations

from flask import Response

from bayleaf.http.callers import Callers
from bayleaf.http.parts import parts
from bayleaf.http.routes import Routes

routes = Routes("reports")
PDF = "application/pdf"


@routes.on("GET", "/api/jobs/<job>/report.pdf", Callers.OFFICE, media=PDF)
def preview(job: str) -> Response:
    """The report as it would be filed now; it says on every page that it is a preview."""
    response = Response(parts().previews.pdf(parts().office, job), content_type=PDF)
    response.headers["Cache-Control"] = "private, no-store"
    response.headers["X-Content-Type-Options"] = "nosniff"
    response.headers["Content-Disposition"] = f'inline; filename="bayleaf-preview-{job}.pdf"'
    return response
