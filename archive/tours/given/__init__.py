"""Tours as they were given: logs handed in from the floor, real times, better estimates, questions that recur."""
