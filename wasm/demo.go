package main

import (
	"encoding/json"
	"fmt"

	"keelroom/geo/chart"
	"keelroom/geo/layer"
	"keelroom/hazards"
	"keelroom/hazards/plan"
)

// demoFolder is where the demo is, beside the app, and demoIndex what lists it.
const (
	demoFolder    = "demo/"
	demoIndexName = demoFolder + "index.json"
)

// demoIndex lists the files of the demo, by their paths within its folder.
type demoIndex struct {
	Plan  string   `json:"plan"`
	Chart []string `json:"chart"`
}

// fetcher gets a file that is beside the app.
type fetcher func(path string) ([]byte, error)

// checkDemo fetches and checks the demo day. It gives the plan file as fetched
// and the report as it is written to a file.
func checkDemo(fetch fetcher, progress func(string)) (planFile, report []byte, err error) {
	progress("Fetching the demo chart and plan.")
	files, planFile, err := fetchDemo(fetch)
	if err != nil {
		return nil, nil, err
	}
	progress("Reading the chart.")
	p, err := plan.Decode(planFile)
	if err != nil {
		return nil, nil, fmt.Errorf("the demo plan: %w", err)
	}
	set, messages := layer.Decode(files)
	if set == nil {
		return nil, nil, fmt.Errorf("the demo chart cannot be read: %v", messages)
	}
	progress("Checking the day.")
	r, err := hazards.Check(chart.New(set), p)
	if err != nil {
		return nil, nil, fmt.Errorf("the demo plan: %w", err)
	}
	return planFile, r.Encode(p.Zone), nil
}

// fetchDemo fetches the layers, all at once, and the plan.
func fetchDemo(fetch fetcher) (files []layer.File, planFile []byte, err error) {
	b, err := fetch(demoIndexName)
	if err != nil {
		return nil, nil, err
	}
	var index demoIndex
	if err := json.Unmarshal(b, &index); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", demoIndexName, err)
	}
	files = make([]layer.File, len(index.Chart))
	errs := make(chan error)
	for i, name := range index.Chart {
		go func() {
			data, err := fetch(demoFolder + name)
			files[i] = layer.File{Name: name, Data: data}
			errs <- err
		}()
	}
	planFile, err = fetch(demoFolder + index.Plan)
	for range index.Chart {
		if e := <-errs; err == nil {
			err = e
		}
	}
	return files, planFile, err
}
