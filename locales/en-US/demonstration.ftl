# The demonstration: an invented laboratory. Most of this stands in its entries, as if somebody there had typed it: one line, 200 characters at most.

demonstration-laboratory = DEMONSTRATION, invented
demonstration-accountability = DEMONSTRATION, invented. What is signed with my key binds me as my signature by hand does.

# What is attached.
demonstration-run = DEMONSTRATION, invented. No run was made: this stands in the place of one.
demonstration-document = DEMONSTRATION, invented. No document exists: this stands in the place of one that shows training outside the laboratory.
demonstration-revision = DEMONSTRATION, invented. No such revision was ever published: this text stands in its place.

# Reasons.
demonstration-identity = Identity card looked at
demonstration-policy = Agreed at the beginning of the year
demonstration-adopted = The first revision we work by
demonstration-revised = The order of washing and brushing is described more clearly
demonstration-left = Moved to another town
demonstration-key-lost = The key file was on a stick that is gone
demonstration-late = The sheet stayed on paper in the bench drawer and was found at the end of the month
demonstration-suspended = Base lit before it was dry, twice in one week
demonstration-withdrawn = Works in the office now
demonstration-called-in = A denture came back with a tooth that had come off
demonstration-corrected = The case number was misread on the ticket
demonstration-voided = Entered for the wrong person
