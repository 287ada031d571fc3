"""How loud it is on a floor: machines, rooms and doors in, levels and contours out. Pure, in metres and dB(A).

sound.py (the closed forms), rooms.py (what goes in), outlines.py (plane geometry), field.py (the rooms worked out
together), contours.py (bands and lines as SVG paths), about.py (the model, its limits and its sources, in words).
"""
