"""Times for typed words: what will be done, the work that does it, and what a person should look at afterwards."""
