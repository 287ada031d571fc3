"""The planner: which stations and tellings, in which order, make the best tour for a group and an hour.

problem.py (what is chosen from; pure), worth.py (what a tour is worth), building.py (the problem out of records, by
rights), model.py (the problem for the solver), solving.py (the best tour and its proof), explaining.py (what was left
out, and why), relaxing.py (when nothing fits), planning.py (all of it in one go).
"""
