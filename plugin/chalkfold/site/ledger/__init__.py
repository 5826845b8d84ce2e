"""What the site has told its readers: every number as last released, what differs now, and the corrections."""
