package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"sort"
)

func main() {
	web := flag.String("web", filepath.Join("web", "demo"), "folder for the demo plan; the layers go to chart in it")
	plans := flag.String("plans", filepath.Join("testdata", "plans"), "folder for the plan of the late day")
	flag.Parse()
	if err := run(*web, *plans); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(web, plans string) error {
	files, err := layerFiles()
	if err != nil {
		return err
	}
	day, err := demoPlan().bytes()
	if err != nil {
		return err
	}
	late, err := latePlan().bytes()
	if err != nil {
		return err
	}
	if err := writeAll(filepath.Join(web, "chart"), files); err != nil {
		return err
	}
	if err := writeAll(web, map[string][]byte{"plan.geojson": day}); err != nil {
		return err
	}
	return writeAll(plans, map[string][]byte{"demo-late.geojson": late})
}

func writeAll(folder string, files map[string][]byte) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, name := range sortedKeys(files) {
		if err := os.WriteFile(filepath.Join(folder, name), files[name], 0o644); err != nil {
			return err
		}
	}
	return nil
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
