"""Every borrowed number, with its source beside it."""
