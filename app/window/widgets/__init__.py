"""Fields, icons, marks and colours that all desks share."""
