"""`compose` turns results into views of finished texts, `engine` writes them through templates into Word."""
