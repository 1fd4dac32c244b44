"""The page of the run plan: an order is planned beside the window, its lays are drawn and kept."""
