"""The roof, its trim and what is wrong with it: one module a stage, each a function of the one before."""
