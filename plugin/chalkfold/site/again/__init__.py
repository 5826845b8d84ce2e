"""What a build before has made and this one need not make again: page records, and the pages themselves."""
