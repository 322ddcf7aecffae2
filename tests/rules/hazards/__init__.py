"""The rules of chemical safety, held against published examples, the law's limits and its own sense."""
