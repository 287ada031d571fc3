"""Statements a guide may make, the evidence for and against, and the standing that follows."""
