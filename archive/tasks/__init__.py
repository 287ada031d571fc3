"""What is done in the background: one file a kind of job, and the queue that hands jobs to a process of its own."""
