"""Machines in the Workroom: their papers, and the faults that were noted of them."""
