# Haulm: make run serves the demo garden, make test runs every test, make build
# leaves ./haulm. Needs Go, Node.js 20 or later with npm, and make.

DATA    ?= haulm-data
LISTEN  ?= localhost:8080
SOURCES := $(shell find garden almanac sync media server -name '*.go' -o -name '*.json' -o -name '*.csv' 2>/dev/null)
PHONE   := $(shell find pwa/src pwa/messages pwa/public pwa/index.html pwa/vite.config.ts pwa/package.json \
             -type f -not -path 'pwa/src/paraglide/*' -not -name almanac.wasm 2>/dev/null)

need = @command -v $(1) >/dev/null 2>&1 || { echo "haulm: $(1) is missing. $(2)" >&2; exit 1; }

.PHONY: build run test test-go test-phone test-browser test-arm64 browser strace bench bench-skill bench-speed shots clean prerequisites lint

build: haulm

prerequisites:
	$(call need,go,Install Go 1.26 or later and put its bin folder on PATH.)
	$(call need,node,Install Node.js 20 or later.)
	$(call need,npm,It comes with Node.js; install npm 11 or later.)

pwa/node_modules/.installed: pwa/package.json pwa/package-lock.json | prerequisites
	cd pwa && npm ci --no-audit --no-fund
	@touch $@

pwa/public/almanac.wasm: $(SOURCES) $(wildcard pwa/wasm/*.go) go.mod | prerequisites
	GOOS=js GOARCH=wasm go build -trimpath -ldflags='-s -w' -o $@ ./pwa/wasm

pwa/dist/index.html: pwa/node_modules/.installed pwa/public/almanac.wasm $(PHONE)
	cd pwa && npm run --silent build
	@touch $@

haulm: pwa/dist/index.html $(SOURCES) $(wildcard pwa/*.go) go.mod go.sum
	CGO_ENABLED=0 go build -trimpath -ldflags='-s -w' -o $@ ./server

run: haulm
	./haulm serve --demo --data $(DATA) --listen $(LISTEN)

# The browser tests drive Debian's Chromium; as root it is installed when missing.
browser:
	@command -v chromium >/dev/null 2>&1 || .ci/install chromium

# One test watches the system calls that put a change on the disk.
strace:
	@command -v strace >/dev/null 2>&1 || .ci/install strace

test: lint test-go test-phone test-browser
	@echo "haulm: all tests passed"

lint: pwa/dist/index.html
	@test -z "$$(gofmt -l garden almanac internal sync media server pwa/*.go pwa/wasm)" || { gofmt -l garden almanac internal sync media server pwa/*.go pwa/wasm; echo "haulm: run gofmt -w on these files" >&2; exit 1; }
	go vet ./...
	GOOS=js GOARCH=wasm go vet ./pwa/wasm

test-go: pwa/dist/index.html strace
	go test ./...

test-phone: pwa/dist/index.html
	cd pwa && npm run --silent check && npm test --silent

test-browser: haulm browser
	cd pwa && npm run --silent test:browser

# The almanac's golden answers on a third kind of machine, under emulation; not a
# part of make test.
test-arm64:
	@command -v qemu-aarch64 >/dev/null 2>&1 || .ci/install qemu-user
	GOARCH=arm64 CGO_ENABLED=0 go test -exec qemu-aarch64 ./almanac/...

# How fast, and how well the almanac judges; the second takes half an hour.
bench: haulm browser
	node .ci/bench.mjs

bench-skill:
	node .ci/bench.mjs skill

bench-speed: haulm browser
	node .ci/bench.mjs speed

shots: haulm browser
	cd pwa && npm run --silent shots

clean:
	rm -rf haulm pwa/dist/* pwa/public/almanac.wasm pwa/node_modules pwa/src/paraglide shots
