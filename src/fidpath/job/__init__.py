"""A job file (TOML) -> `Job`: what a user asked for, checked, in mm, N and radians.

Text comes in; a frozen `Job` or one `JobError` goes out. Open `job` first, then `reader`.
"""
