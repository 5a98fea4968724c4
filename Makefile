# Keelroom. `make run` and `make test` do all the set-up they need.
GO      ?= go
WASMRUN := $(shell $(GO) env GOROOT)/lib/wasm/go_js_wasm_exec
PURE    := ./geo/... ./hazards/... ./app/engine ./app/edit ./app/entry ./app/gpx
LOG     := .build/test.log
TIDES   := testdata/npm/tide-stations
BENCH   := testdata/bench
PYTHON  ?= /usr/bin/python3

# Packages that run at the speed of a finger, not of a check: without inlining the
# client is a tenth of a megabyte smaller to fetch.
COLD    := keelroom/app/state keelroom/app/screen keelroom/app/edit keelroom/app/entry keelroom/app/gpx keelroom/wasm \
           keelroom/hazards/words keelroom/hazards/facts keelroom/hazards/plan keelroom/geo/library \
           github.com/maxence-charriere/... github.com/google/... archive/... compress/... encoding/json regexp/... net/... \
           math/big crypto/internal/... database/... html os path/... context fmt time syscall/... \
           reflect bufio io/fs encoding/xml encoding/base64 encoding/hex encoding/binary internal/fmtsort internal/poll internal/godebug

.PHONY: run build test test-native test-wasm fuzz bench watch-trial demo stations fmt

# Serves the app with the invented demo day open.
run: build
	.build/keelroom serve

# The app for the browser, packed, then the program that carries it.
build:
	@mkdir -p .build
	$(GO) run ./wasm/slim .build
	GOOS=js GOARCH=wasm $(GO) build -modfile=.build/browser.mod -trimpath -ldflags="-s -w" $(COLD:%=-gcflags=%=-l) -o .build/app.wasm ./wasm
	$(GO) run ./wasm/pack .build/app.wasm web/dist/app.wasm.br
	$(GO) run ./wasm/pack -into web/dist/packed hazards/tide/stationdata/stations.bin $$(find web -path web/dist -prune -o -type f -size +1k \( -name '*.js' -o -name '*.css' -o -name '*.geojson' \) -print)
	$(GO) run ./wasm/sources web > .build/sources.txt && mv .build/sources.txt web/dist/sources.txt
	$(GO) build -trimpath -o .build/keelroom ./wasm

test: test-native test-wasm

# The browser's tests act on the built program.
test-native: build
	$(GO) vet ./...
	@mkdir -p .build
	@.ci/gotest $(LOG) $(GO) test -v -timeout 60m ./...

# The pure packages must give the same answers in the browser's Go.
test-wasm:
	@mkdir -p .build
	@GOOS=js GOARCH=wasm .ci/gotest $(LOG).wasm $(GO) test -v -timeout 60m -exec="$(WASMRUN)" $(PURE)

# Every fuzz target, FUZZTIME each.
FUZZTIME ?= 60s
fuzz:
	@GO=$(GO) .ci/fuzz $(FUZZTIME)

# Ours native and in Node, then beside other libraries doing the same work, in
# one run and with their answers compared. Only ratios count.
bench: build
	@test -d ../shared/charts || { echo "make bench: the real charts are wanted in a folder \`shared\` beside the repository" >&2; exit 1; }
	@$(PYTHON) -c 'import shapely' 2>/dev/null || \
	  { [ -f /etc/debian_version ] && [ "$$(id -u)" = 0 ] && apt-get update -qq && apt-get install -y -qq python3-shapely; } || \
	  { echo "make bench: $(PYTHON) has no shapely; install python3-shapely" >&2; exit 1; }
	npm ci --silent --prefix $(BENCH)/tide
	npm ci --silent --prefix $(BENCH)/crossings
	$(BENCH)/own.sh
	$(GO) -C $(BENCH) run ./memory
	$(GO) -C $(BENCH) run ./tide
	$(GO) -C $(BENCH) run ./crossings -python $(PYTHON)
	$(GO) -C $(BENCH) run ./discs -python $(PYTHON)
	$(GO) -C $(BENCH) run ./growth
	@.ci/gdal
	$(GO) test -count=1 -tags budgets -run TestBudgets ./wasm/browser -v

# The anchor watch on simulated nights: false alarms, and metres dragged at the alarm.
watch-trial:
	$(GO) run ./hazards/watch/trialrun

# Invented demo waters, from the analytic sea bed.
demo:
	$(GO) run ./geo/chart/demogen

# The built-in tide stations, from the published database.
stations:
	npm ci --prefix $(TIDES)
	node $(TIDES)/dump.mjs | $(GO) run ./hazards/tide/stationgen -out hazards/tide/stationdata/stations.bin

fmt:
	gofmt -l -w app geo hazards wasm web
