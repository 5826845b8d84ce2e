"""Measures typed by hand in a text: found, and traced to the numbers of the post that they repeat.

``words/`` holds how a language writes measures, ``measures`` reads them in a text, ``passages`` says what of a post is
text, ``tracing`` holds a measure against every number of the post, ``finder`` tells. Nothing here changes a post.
"""
