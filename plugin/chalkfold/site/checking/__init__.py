"""What misleads in a page that builds: each module looks for one sort of it and adds to the faults it is given."""
