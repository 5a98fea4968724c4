#!/usr/bin/env bash
# Our own benchmarks, in-process, native and as WebAssembly under Node, side by
# side: nanoseconds an operation and the ratio. Only ratios within one run count.
#   testdata/bench/own.sh [-benchtime=...]
set -euo pipefail
cd "$(dirname "$0")/../.."
GO=${GO:-go}
if [ ! -d ../shared/charts ]; then
  echo "bench: shared/charts is missing: the real charts are wanted in a folder \`shared\` beside the repository" >&2
  exit 1
fi
exec_wasm=$($GO env GOROOT)/lib/wasm/go_js_wasm_exec
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT

# bench PACKAGE PATTERN [flags]: runs it twice and keeps the results.
bench() {
  local package=$1 pattern=$2
  shift 2
  CI=true $GO test -run '^$' -bench "$pattern" "$@" "$package" >"$out/log" || { cat "$out/log" >&2; exit 1; }
  grep '^Benchmark' "$out/log" >>"$out/native" || true
  CI=true GOOS=js GOARCH=wasm $GO test -exec="$exec_wasm" -run '^$' -bench "$pattern" "$@" "$package" >"$out/log" || { cat "$out/log" >&2; exit 1; }
  grep '^Benchmark' "$out/log" >>"$out/wasm" || true
}

bench ./hazards 'Recheck40Legs|DepartureSweep' "$@"
bench ./app/engine 'Move' -benchmem "$@"
bench ./geo/chart . "$@"
bench ./geo/layer 'DecodeUS5MA12M' "$@"
bench ./geo/enc 'Decode' "$@"
bench ./hazards/tide 'Height37|YearOfExtremes' "$@"

# The names end in -N, the processors, on some machines.
awk 'function name(s) { sub(/^Benchmark/, "", s); sub(/-[0-9]+$/, "", s); return s }
     BEGIN { printf "%-28s %14s %14s %12s\n", "benchmark", "native ns/op", "wasm ns/op", "wasm/native" }
     NR == FNR { native[name($1)] = $3; next }
     { n = name($1); if (n in native) printf "%-28s %14d %14d %12.2f\n", n, native[n], $3, $3 / native[n] }' \
  "$out/native" "$out/wasm"
awk '/^BenchmarkMove/ { for (i = 2; i < NF; i++) if ($(i + 1) == "allocs/op") printf "allocations of a move, 40 legs: %d (budget 2000)\n", $i }' "$out/native"
