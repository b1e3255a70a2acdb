"""The pictures of the README: what the running program shows on invented data, as SVG."""
