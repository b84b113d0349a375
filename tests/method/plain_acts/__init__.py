"""Plain acts of a kitchen, each said in many ways: python -m tests.method.plain_acts [FILE…] [--act WORDS].

A file holds acts; an act its lines, the steps it comes to, and what may be said. A saying is a sentence
with slots, "{Boil|Cook} the peas{. Drain|, then drain}."; a slot's choices stand between braces, " / "
parts paragraphs. Each choice of each slot makes a way to say it: a cell of the grid. Printed are the
cells that come to other steps, by saying, and which choices they share. The tests draw the same few
cells of every saying each time; this command any number.

A step: its kind, with ~ behind it where its liquid is poured away or left behind, = where it is eaten,
% where partly, nothing where it has none (or a coating, of which some is left); alternatives parted by
"/"; then words of its food's lines; then its time, "11m" or "2h", which counts where the cell states
that number, or in every cell with "!" behind it. "? " before it: it may be missing.

An act may also hold `poured` and `eaten`, words of lines that are poured away and eaten whole, and `sodium`:
the share by which a serving's may differ from the median of all cells. Then the form must change nothing: one
paragraph or many, one a sentence, numbers, HTML, and, in a list without headings, the order of the lines.
Where `lines` is a list of lists, all of them say the same.
"""
