"""A record while it is made, beside the instrument: what to do next, what to read again, what it has come to."""
