"""The preview: a site as it is being worked on, held in memory and shown to this computer alone. Nothing is written."""
