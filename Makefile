# Keelroom. `make run` and `make test` do all the set-up they need.
GO      ?= go
WASMRUN := $(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec
PURE    := ./geo/... ./hazards/...
LOG     := .build/test.log

.PHONY: run build test test-native test-wasm bench demo stations fmt

# Until the screen is built: the invented demo day, checked, as a report.
run: build
	@.build/keelroom check -chart web/demo web/demo/plan.geojson

build:
	@mkdir -p .build
	$(GO) build -o .build/keelroom ./wasm

test: test-native test-wasm

test-native:
	$(GO) vet ./...
	@mkdir -p .build
	@.ci/gotest $(LOG) $(GO) test -v ./...

# The pure packages must give the same answers in the browser's Go.
test-wasm:
	@mkdir -p .build
	@GOOS=js GOARCH=wasm .ci/gotest $(LOG).wasm $(GO) test -v -exec="$(WASMRUN)" $(PURE)

# Invented demo waters, from the analytic sea bed.
demo:
	$(GO) run ./geo/chart/demogen

fmt:
	gofmt -l -w app geo hazards wasm web
