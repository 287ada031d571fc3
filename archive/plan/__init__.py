"""The floor plan: floors, rooms, doors, stations, and the stairs, lifts and ramps between them."""
