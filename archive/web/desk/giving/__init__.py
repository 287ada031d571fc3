"""A tour on the floor: its sheet, giving it with or without the network, what is carried, and what came of it."""
