"""Reports: findings and facts in, text out. Nothing here knows a rule or a process."""
