# Every target installs what it is missing, says what it does, and is a script in scripts/.

.DEFAULT_GOAL := help
.PHONY: help setup serve dev build test check bench clean

help: ## list the targets
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "make %-8s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

setup: ## install what building and testing need
	@scripts/setup test

serve: ## build the release site and serve it on this machine (PORT=8080)
	@scripts/serve

dev: ## serve a debug build that follows the sources
	@scripts/dev

build: ## build the release site into dist/
	@scripts/build

test: ## run every check and every test
	@scripts/test

check: ## format, lints and native tests only
	@scripts/test check

bench: ## run the benchmarks of the core
	@cargo bench --locked

clean: ## remove what was built; installed tools stay
	@cargo clean
	@rm -rf dist
