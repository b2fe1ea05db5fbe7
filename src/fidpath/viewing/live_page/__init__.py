"""The live page: a job's parameters as fields in the browser, its plan and its settled splice beside them."""
