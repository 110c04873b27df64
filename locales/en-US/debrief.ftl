# What a learner reads after a run, `debrief-…`.
