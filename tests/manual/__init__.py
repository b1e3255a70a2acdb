"""The program's manual: what is drawn in it by the program, and that its pages can be read."""
