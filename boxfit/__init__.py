"""boxfit: battery modules into the bays of a classic car, and the boxes that hold them."""
