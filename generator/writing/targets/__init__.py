"""Where a site is published: folders, servers, stores, and the steps of a release."""
