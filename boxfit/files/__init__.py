"""Files a person writes, read whole and told about whole; results, written whole or not at all."""
