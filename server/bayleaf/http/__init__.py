"""Flask blueprints: parse, use case, answer."""
