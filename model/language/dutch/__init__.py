"""Dutch; its modules are those of English, one by one."""
