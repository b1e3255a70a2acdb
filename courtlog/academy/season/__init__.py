"""The season of an academy: rows of counts from an engine, judged by courtlog's own measures."""
