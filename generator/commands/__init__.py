"""The command `eight` and its parts."""
