"""The kiosk: the plan and everything on it, for visitors."""
