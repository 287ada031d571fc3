"""The web layer: thin views that read a request, ask one room, and render."""
