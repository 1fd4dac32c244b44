"""The frame of the window: menus, rail of desks, start page, tour, list of keys."""
