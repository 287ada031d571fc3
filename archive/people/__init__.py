"""People and firms: narrators, interviewers, workers spoken of, makers, staff."""
