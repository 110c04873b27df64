# What is asked and answered while a run is under way, `rehearsal-…`.
