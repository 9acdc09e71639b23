"""Workshop drawings: each one list of marks on sheets of paper, from which PDF and DXF are both written."""
