"""A studio that leaves its folder: backups, bags, exports, and the way back."""
