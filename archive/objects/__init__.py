"""Objects of the museum, their pictures, and the machines' demonstrations and clearances."""
