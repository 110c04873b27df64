# What is wrong with a module, and where. One message per kind of problem, `problems-…`.
