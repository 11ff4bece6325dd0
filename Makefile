# Every command a developer needs. CI calls the same ones (.ci/run).
.DEFAULT_GOAL := help
.PHONY: help run build bundle test test-go test-wasm test-js test-browser check format audit bench fuzz dev release screenshots chromium clean

GO       ?= go
ADDR     ?= :8080
DATA     ?= tautspan-data
FUZZTIME ?= 60s
MODULES  := assets/node_modules/.package-lock.json
GOFILES  := $(GO) list -f '{{range .GoFiles}}{{$$.Dir}}/{{.}} {{end}}{{range .TestGoFiles}}{{$$.Dir}}/{{.}} {{end}}{{range .XTestGoFiles}}{{$$.Dir}}/{{.}} {{end}}' ./...
WASMTEST := GOOS=js GOARCH=wasm $(GO) test -exec "$$($(GO) env GOROOT)/lib/wasm/go_js_wasm_exec"

help: ## list the commands
	@awk -F ':.*## ' '/^[a-z-]+:.*## / { printf "  make %-12s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

run: build ## build, serve on port 8080 and print the addresses (ADDR=, DATA=)
	./tautspan serve --addr $(ADDR) --data $(DATA)

build: bundle ## ./tautspan with the page, the worker and the engine inside
	$(GO) build -trimpath -o tautspan .

bundle: $(MODULES)
	$(GO) run ./internal/tools/bundle

$(MODULES): assets/package.json assets/package-lock.json
	@command -v npm >/dev/null || { echo "The page needs Node 20 or newer with npm to be built; npm was not found."; exit 1; }
	cd assets && npm ci --ignore-scripts --no-audit --no-fund
	@touch $@

test: build test-go test-wasm test-js test-browser ## everything: Go with -race, engine under WebAssembly, scripts, real Chromium
	@echo "make test: all passed"

test-go:
	@unformatted=$$(gofmt -l $$($(GOFILES))); test -z "$$unformatted" || { echo "not gofmt-ed: $$unformatted"; exit 1; }
	$(GO) vet ./...
	$(GO) test ./server/store -run '^TestSimulation$$' -seeds 5000
	$(GO) test -race ./...
	$(GO) test ./internal/photo # all drawn pictures: the race detector takes only a few

test-wasm: bundle
	$(WASMTEST) ./internal/engine
	cd assets && node --test --test-reporter=spec test/engine/*.test.js

test-js: bundle
	cd assets && node --test --test-reporter=spec $$(find src test/size -name '*.test.js' | sort)

test-browser: build chromium
	cd assets && node test/browser/run.js

chromium:
	@sh assets/test/browser/chromium.sh

check: $(MODULES) ## vet, staticcheck, govulncheck, types and formatting
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm/...
	$(GO) tool staticcheck ./...
	GOOS=js GOARCH=wasm $$($(GO) tool -n staticcheck) ./wasm/...
	@said=$$($(GO) tool govulncheck ./... 2>&1); status=$$?; \
	if [ $$status -eq 0 ]; then echo "govulncheck: no known vulnerability is called"; \
	elif echo "$$said" | grep -q 'fetching vulnerabilities: .*dial tcp'; then echo "govulncheck skipped: vulnerability database not reachable"; \
	else echo "$$said"; exit $$status; fi
	$(GO) mod verify
	cd assets && for config in tsconfig.json tsconfig.worker.json tsconfig.test.json; do npx tsc -p $$config || exit 1; done
	@unformatted=$$(gofmt -l $$($(GOFILES))); test -z "$$unformatted" || { echo "not gofmt-ed: $$unformatted"; exit 1; }
	cd assets && npx prettier --check --log-level warn .
	@echo "make check: all passed"

format: $(MODULES) ## write Go and scripts in the one format
	gofmt -w $$($(GOFILES))
	cd assets && npx prettier --write --log-level warn .

bench: build chromium ## speeds and sizes, as tables
	$(GO) test -run '^$$' -bench . -benchmem ./internal/... | grep -E '^(Benchmark|pkg)'
	$(GO) test ./server -run '^$$' -bench 'Sync|Lone' -benchtime 4000x | grep '^Benchmark'
	$(GO) test ./server -run '^$$' -bench 'FirstPull|Streams|Capacity' -benchtime 1x | grep '^Benchmark'
	cd assets && node test/bench/bench.js

fuzz: ## 100,000 simulated worlds, then every fuzz target for FUZZTIME (60s) each
	$(GO) test ./server/store -run '^TestSimulation$$' -seeds 100000 -timeout 60m
	@for file in $$(grep -rl --include='*_test.go' '^func Fuzz' internal server); do \
	  for name in $$(sed -n 's/^func \(Fuzz[A-Za-z0-9_]*\).*/\1/p' $$file); do \
	    echo "$$name in $$(dirname $$file)"; \
	    $(GO) test -run '^$$' -fuzz "^$$name\$$" -fuzztime $(FUZZTIME) -fuzzminimizetime 20x ./$$(dirname $$file) || exit 1; \
	  done; done

dev: ## build and serve again whenever a source changes
	@since=$$(mktemp); pid=; \
	trap 'test -z "$$pid" || kill $$pid; rm -f $$since; exit 0' INT TERM; \
	while :; do \
	  touch $$since; \
	  if $(MAKE) --no-print-directory build; then ./tautspan serve --addr $(ADDR) --data $(DATA) & pid=$$!; fi; \
	  while [ -z "$$(find assets/src internal wasm server main.go -newer $$since -type f | head -1)" ]; do sleep 0.5; done; \
	  test -z "$$pid" || { kill $$pid; wait $$pid; pid=; }; \
	done

release: bundle ## static programs for Linux with checksums and lists of contents, in dist; see server/docs/operating.md
	GO="$(GO)" sh server/release/release.sh

audit: build chromium ## what a first visit asks of a phone, and what Lighthouse says, each point lost by name
	cd assets && node test/audit/work.js && node test/audit/audit.js

screenshots: build chromium ## every screen at two sizes in both themes, into testdata/screenshots
	cd assets && node test/browser/screenshots.js ../testdata/screenshots

clean: ## remove what was built
	rm -rf tautspan dist assets/node_modules
	find assets/dist -type f ! -name placeholder.txt -delete
