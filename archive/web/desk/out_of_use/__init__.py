"""What is out of use: closed doors, lifts at rest, rooms and stations that cannot be shown."""
