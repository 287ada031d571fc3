"""The Reading room: search and interviews, for readers."""
