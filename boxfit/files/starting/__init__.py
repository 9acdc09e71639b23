"""A car's folder to start from: what is asked, what was answered, and the files written from it."""
