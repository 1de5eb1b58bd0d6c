"""Languages: texts by permanent key, and one place where numbers, money, days and windows become words."""
