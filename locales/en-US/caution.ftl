# What stands wherever something hazardous or something modelled is shown.

caution-others-come-first =
    Safety data sheet, maker's instructions, local law and licensed practice come first. This program explains and asks; it clears nothing for use.
    .short = Safety data sheet, maker's instructions and local law come first.
caution-teaching-model =
    Teaching model: figures show how things hang together and are no process limits.
