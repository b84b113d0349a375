"""Plain acts on any food, crossed with what stands before and behind: python -m tests.method.any_food.

A family of families.yaml has foods (their lines by the name that a method calls them), lines that stand in
every list, and parts: a text takes one entry of each part, in order. {food} stands for the food, {time} for a
time or nothing, " / " parts paragraphs. steps are those of plain_acts, {food} for the food. not_for: words of
a text that make no sense with a food. Texts are drawn by chance, the same for the same seed; the tests draw
some of each family, this command any number (--each).
"""
