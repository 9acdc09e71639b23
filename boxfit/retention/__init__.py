"""Whether boxes, modules and their fixings stay put: the sums an inspector asks for, on plain figures."""
