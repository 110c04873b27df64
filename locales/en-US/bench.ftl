# What stations show and what can be done at them, `bench-…`.
