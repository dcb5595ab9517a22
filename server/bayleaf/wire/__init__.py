"""JSON and the domain: the only place that knows a name of the wire."""
