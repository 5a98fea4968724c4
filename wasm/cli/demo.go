//go:build !js

package cli

// demoFolder is where the demo is, beside the app, and demoIndexName what lists it.
const (
	demoFolder    = "demo/"
	demoIndexName = demoFolder + "index.json"
)

// demoIndex lists the files of the demo, by their paths within its folder.
type demoIndex struct {
	Plan  string   `json:"plan"`
	Chart []string `json:"chart"`
}
