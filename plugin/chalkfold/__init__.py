"""chalkfold expands sewing blocks in Markdown posts into computed tables, lists and drawings."""
