# costrel: build, test, run. Needs Go, Node.js, make and git; see README.md.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DELETE_ON_ERROR:
.DEFAULT_GOAL := help

GOLANGCI := v2.15.0
GOFUMPT := v0.12.0
PORT ?= 8717

UI := web/ui
PAGE := $(UI)/bundle/index.html
PAGE_FROM := $(shell find $(UI)/src $(UI)/public -type f 2>/dev/null) $(UI)/index.html $(UI)/vite.config.ts \
	$(UI)/svelte.config.js $(UI)/tsconfig.json $(UI)/package-lock.json
MODULES := $(UI)/node_modules/.installed
BIN := bin/costrel

# Where goroutines meet. The tests of web/api run a design in full, so that the
# detector sees project/run there; its own tests, and those of web/answers, which
# read many full runs, would take minutes under it.
RACE := ./store/... ./web/api ./web/ui ./num/sample/... ./cite ./unit

.PHONY: help
help: ## this list
	@grep -hE '^[a-z-]+:.*## ' $(MAKEFILE_LIST) | awk -F ':.*## ' '{printf "  make %-14s %s\n", $$1, $$2}'

.PHONY: demo
demo: needs build ## run the demo designs and serve the workbench
	@mkdir -p demo-run && cp -n examples/*.yaml demo-run/ 2>/dev/null || true
	@echo; echo "The demo designs on the board (a limit that fails is part of the story):"; echo
	@$(BIN) check examples/*.yaml || [ $$? -eq 1 ]
	@echo; echo "The workbench works on copies in demo-run/. Ctrl+C stops it."
	@exec $(BIN) serve --dir demo-run --port $(PORT)

.PHONY: test
test: needs lint page-test go-test browser-test ## every gate and test
	@echo "All gates and tests passed."

.PHONY: lint
lint: needs bin/golangci-lint bin/gofumpt $(MODULES) $(PAGE) ## formats, vet, linters, page types
	@scripts/format.sh
	go vet ./...
	bin/golangci-lint run ./...
	cd $(UI) && npm run --silent format:check
	cd $(UI) && npm run --silent check

.PHONY: fmt
fmt: bin/gofumpt $(MODULES) ## format Go and page
	bin/gofumpt -w $$(go list -f '{{.Dir}}' ./...)
	cd $(UI) && npm run --silent format

.PHONY: page-test
page-test: $(MODULES) ## unit tests of the page
	cd $(UI) && npm run --silent test

.PHONY: go-test
go-test: $(PAGE) ## Go tests, with the race detector where it can find something
	@scripts/go-test.sh $(RACE)

.PHONY: browser-test
browser-test: build ## drive the page in headless Chromium
	@scripts/browser-test.sh

.PHONY: bench
bench: build ## Go benchmarks, then the page's times
	go test -run '^$$' -bench . -benchmem ./...
	@COSTREL_BENCH=1 scripts/browser-test.sh tests/speed.test.ts

.PHONY: load
load: $(PAGE) ## 50 readers and 5 running blows for 60 s
	COSTREL_LOAD=60s go test ./web/api -run '^TestLoad$$' -count=1 -v

.PHONY: build
build: $(PAGE) ## page and program
	go build -o $(BIN) ./cmd/costrel

.PHONY: clean
clean: ## take away what was built; designs in demo-run/ stay
	rm -rf bin artifacts $(UI)/node_modules
	find $(UI)/bundle -mindepth 1 ! -name .keep -delete

.PHONY: needs
needs:
	@scripts/needs.sh

$(MODULES): $(UI)/package-lock.json $(UI)/package.json
	cd $(UI) && npm ci --no-audit --no-fund
	@touch $@

$(PAGE): $(MODULES) $(PAGE_FROM)
	cd $(UI) && npm run --silent build

bin/golangci-lint: Makefile
	@mkdir -p bin
	@[ -x $@ ] && $@ version 2>/dev/null | grep -qF '$(GOLANGCI:v%=%)' && touch $@ || \
		{ echo "Installing golangci-lint $(GOLANGCI) from source; this takes a minute or two."; \
		GOBIN=$(CURDIR)/bin go install github.com/golangci/golangci-lint/v2/cmd/golangci-lint@$(GOLANGCI); }

bin/gofumpt: Makefile
	@mkdir -p bin
	@[ -x $@ ] && $@ --version 2>/dev/null | grep -qF '$(GOFUMPT)' && touch $@ || \
		GOBIN=$(CURDIR)/bin go install mvdan.cc/gofumpt@$(GOFUMPT)
