// Program memory prints what the chart US5MA12M takes: time to decode and to
// index it, and the heap that it holds afterwards, its files let go. It runs
// native and, compiled to WebAssembly, under Node.
//
//	go -C testdata/bench run ./memory
//
// With a folder of layers as its argument it measures that in its own process.
package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"time"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/testdata/bench/contest"
)

func main() {
	run := compare
	if len(os.Args) > 1 {
		run = func() error { return measure(os.Args[1]) }
	}
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "memory:", err)
		os.Exit(1)
	}
}

// compare measures in two processes of their own.
func compare() error {
	folder, err := contest.Shared("charts", "US5MA12M", "geojson")
	if err != nil {
		return err
	}
	temporary, err := os.MkdirTemp("", "memory")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temporary)
	native, wasm, err := contest.Build(temporary, "./memory")
	if err != nil {
		return err
	}
	for _, v := range []struct {
		name    string
		command []string
	}{{"native", native}, {"wasm in Node", wasm}} {
		fmt.Printf("%-13s ", v.name)
		cmd := exec.Command(v.command[0], append(v.command[1:], folder)...)
		cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
		if err := cmd.Run(); err != nil {
			return fmt.Errorf("%s: %w", v.name, err)
		}
	}
	return nil
}

func measure(folder string) error {
	before := heap()
	begun := time.Now()
	files, size, err := read(folder)
	if err != nil {
		return err
	}
	readIn := time.Now()
	set, messages := layer.Decode(files)
	if set == nil {
		return fmt.Errorf("%s: %v", folder, messages)
	}
	decoded := time.Now()
	c := chart.New(set)
	indexed := time.Now()
	files = nil
	after := heap()
	const mb = 1e6
	fmt.Printf("files %.2f MB, read %d ms, decoded %d ms, indexed %d ms; holds %.2f MB of heap (%.2f of the files), %.1f MB taken from the system\n",
		float64(size)/mb, readIn.Sub(begun).Milliseconds(), decoded.Sub(readIn).Milliseconds(), indexed.Sub(decoded).Milliseconds(),
		float64(after.HeapAlloc-before.HeapAlloc)/mb, float64(after.HeapAlloc-before.HeapAlloc)/float64(size), float64(after.Sys)/mb)
	runtime.KeepAlive(c)
	return nil
}

func read(folder string) (files []layer.File, size int, err error) {
	names, err := filepath.Glob(filepath.Join(folder, "*.geojson"))
	if err != nil || len(names) == 0 {
		return nil, 0, fmt.Errorf("no layers in %s", folder)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, 0, err
		}
		files, size = append(files, layer.File{Name: filepath.Base(name), Data: data}), size+len(data)
	}
	return files, size, nil
}

// heap is what is held after garbage was collected.
func heap() (m runtime.MemStats) {
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m
}
