"""Making a tour at the Desk: wishes asked, the planner's work shown, and the tour changed by hand."""
