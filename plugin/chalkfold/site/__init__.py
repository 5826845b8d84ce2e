"""From a folder of posts to a folder of pages: finding, linking, the theme, building and swapping in.

Nothing here knows sewing; ``post.py`` does that. A build replaces the whole site or leaves the last one.
"""
