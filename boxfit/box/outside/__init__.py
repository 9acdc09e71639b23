"""What is fixed outside of a box: cable entries, breather, drain, disconnect, lifting lugs and feet."""
