"""Answers as people read them: spreadsheet, structured data, panel, sentences, drawings, terminal."""
