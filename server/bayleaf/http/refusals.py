"""The one table of refusals to statuses, and the one shape of every error."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from http import HTTPStatus as S

from flask import Flask, Response, jsonify
from werkzeug.exceptions import HTTPException, MethodNotAllowed

from bayleaf.usecases.refusal import Refusal

STATUS_OF: Mapping[str, S] = {
    # the request itself
    "unreadable_json": S.BAD_REQUEST,
    "unsafe_number": S.BAD_REQUEST,
    "nul_character": S.BAD_REQUEST,
    "broken_request": S.BAD_REQUEST,
    "not_json_type": S.UNSUPPORTED_MEDIA_TYPE,
    "too_large": S.REQUEST_ENTITY_TOO_LARGE,
    "wrong_host": S.MISDIRECTED_REQUEST,
    "wrong_origin": S.FORBIDDEN,
    # the doors
    "no_login": S.UNAUTHORIZED,
    "wrong_door": S.FORBIDDEN,
    "not_paired": S.FORBIDDEN,
    "revoked_device": S.FORBIDDEN,
    "wrong_password": S.UNAUTHORIZED,
    "too_many_tries": S.TOO_MANY_REQUESTS,
    "short_password": S.BAD_REQUEST,
    "wrong_code": S.FORBIDDEN,
    "used_code": S.FORBIDDEN,
    "expired_code": S.FORBIDDEN,
    "known_key": S.CONFLICT,
    "broken_key": S.BAD_REQUEST,
    "broken_card": S.BAD_REQUEST,
    "wrong_nonce": S.FORBIDDEN,
    "wrong_signature": S.FORBIDDEN,
    "unknown_device": S.NOT_FOUND,
    "not_waiting": S.CONFLICT,
    "already_revoked": S.CONFLICT,
    # loggers
    "unknown_run": S.NOT_FOUND,
    "not_a_table": S.UNPROCESSABLE_ENTITY,
    "wrong_mapping": S.BAD_REQUEST,
    "wrong_time": S.BAD_REQUEST,
    "too_soon": S.TOO_MANY_REQUESTS,
    # calls
    "broken_contact": S.BAD_REQUEST,
    # the shop's settings
    "unknown_time_zone": S.BAD_REQUEST,
    "broken_endpoint": S.BAD_REQUEST,
    "not_subscribed": S.CONFLICT,
    # people
    "unknown_person": S.NOT_FOUND,
    "known_name": S.CONFLICT,
    "broken_pin": S.BAD_REQUEST,
    # the shop's registers
    "unknown_instrument": S.NOT_FOUND,
    "unknown_lot": S.NOT_FOUND,
    "known_number": S.CONFLICT,
    "known_sheet": S.CONFLICT,
    "unknown_sheet": S.NOT_FOUND,
    "withdrawn_sheet": S.CONFLICT,
    "sheet_faults": S.UNPROCESSABLE_ENTITY,
    # methods, jobs, dossiers
    "unknown_kind": S.BAD_REQUEST,
    "broken_body": S.BAD_REQUEST,
    "too_long": S.BAD_REQUEST,
    "foreign_job": S.FORBIDDEN,
    "broken_handin": S.BAD_REQUEST,
    "incomplete": S.CONFLICT,
    "already_filed": S.CONFLICT,
    "not_filed": S.CONFLICT,
    "nothing_late": S.CONFLICT,
    "being_filed": S.CONFLICT,
    "use_file_route": S.BAD_REQUEST,
    "not_sealed": S.CONFLICT,
    "not_set": S.CONFLICT,
    "method_faults": S.UNPROCESSABLE_ENTITY,
    "unknown_method": S.NOT_FOUND,
    "unknown_job": S.NOT_FOUND,
    "unknown_dossier": S.NOT_FOUND,
    "not_found": S.NOT_FOUND,
    # heat
    "zone_faults": S.UNPROCESSABLE_ENTITY,
    "unknown_zone": S.NOT_FOUND,
    "zone_in_use": S.CONFLICT,
    "unknown_plan": S.NOT_FOUND,
    "not_planned": S.CONFLICT,
    # bytes
    "wrong_type": S.UNSUPPORTED_MEDIA_TYPE,
    "wrong_encoding": S.UNSUPPORTED_MEDIA_TYPE,
    "not_a_photo": S.UNPROCESSABLE_ENTITY,
    "not_a_pdf": S.UNPROCESSABLE_ENTITY,
    "too_many_pixels": S.UNPROCESSABLE_ENTITY,
    "wrong_digest": S.UNPROCESSABLE_ENTITY,
    "wrong_offset": S.CONFLICT,
    "busy_upload": S.LOCKED,
    "unknown_upload": S.NOT_FOUND,
    "wrong_tus_version": S.PRECONDITION_FAILED,
}

CODE_OF_STATUS: Mapping[int, str] = {
    S.BAD_REQUEST: "broken_request",
    S.NOT_FOUND: "not_found",
    S.METHOD_NOT_ALLOWED: "wrong_method",
    S.REQUEST_ENTITY_TOO_LARGE: "too_large",
    S.INTERNAL_SERVER_ERROR: "fault",
}
LOG = logging.getLogger("bayleaf")


def register(app: Flask) -> None:
    """Give every refusal and every HTTP error its JSON answer."""
    app.register_error_handler(Refusal, answer_refusal)
    app.register_error_handler(HTTPException, answer_http_error)
    app.register_error_handler(Exception, answer_fault)


def answer_refusal(refusal: Refusal) -> Response:
    """The status from the table; a code that the table forgot is still the caller's, not a fault."""
    response = _error(refusal.code, refusal.message, refusal.field, refusal.named)
    response.status_code = STATUS_OF.get(refusal.code, S.BAD_REQUEST)
    retry_s = refusal.named.get("retry_s")
    if retry_s is not None:
        response.headers["Retry-After"] = str(retry_s)
    return response


def answer_http_error(error: HTTPException) -> Response:
    """What Flask refuses by itself: no such path, another method, a body over the limit."""
    status = error.code or S.INTERNAL_SERVER_ERROR
    code = CODE_OF_STATUS.get(status, "fault" if status >= S.INTERNAL_SERVER_ERROR else "broken_request")
    response = _error(code, error.description or error.name, "", {})
    response.status_code = status
    if isinstance(error, MethodNotAllowed) and error.valid_methods:
        response.headers["Allow"] = ", ".join(sorted(error.valid_methods))
    return response


def answer_fault(error: Exception) -> Response:
    """A bug: the log has it whole, the caller is told that it is not theirs."""
    LOG.error("a view failed", exc_info=error)
    response = _error("fault", "The server has a fault; its log says more. Nothing was stored half.", "", {})
    response.status_code = S.INTERNAL_SERVER_ERROR
    return response


def _error(code: str, message: str, field: str, named: Mapping[str, object]) -> Response:
    return jsonify({**named, "code": code, "message": message, "field": field})
