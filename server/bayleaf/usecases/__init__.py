"""One verb a file: what the server does when it is asked."""
