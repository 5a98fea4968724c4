//go:build !js

package main

import (
	"encoding/json"
	"fmt"
	"html"
	"net/http"
	"net/url"
	"strings"

	ui "github.com/maxence-charriere/go-app/v10/pkg/app"
)

// policy is what a page of the app may load: what came with it, and nothing
// else. The program itself needs wasm-unsafe-eval, which allows WebAssembly
// and no other evaluation.
const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; img-src 'self' data: blob:; " +
	"object-src 'none'; base-uri 'self'; form-action 'none'"

// framePolicy is valid in a header only.
const framePolicy = policy + "; frame-ancestors 'none'"

const (
	paper   = "#f6f1e4"
	summary = "Plan a day afloat in a small fast motor boat: depths at that hour's tide, limits, dangers, sea. A planning aid, not a chart."
)

// page is the HTML page. What it shows is replaced by the running screen. It is
// not written by go-app, which orders attributes by chance: every start of the
// server would be another version.
func page(base, version string, inMeta bool) []byte {
	var meta string
	if inMeta {
		meta = fmt.Sprintf("\n<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">", html.EscapeString(policy))
	}
	return []byte(strings.NewReplacer(
		"{base}", base, "{policy}", meta, "{summary}", html.EscapeString(summary), "{paper}", paper,
		"{version}", html.EscapeString(version), "{scripts}", scriptTags(base), "{styles}", styleTags(base),
	).Replace(pageTemplate))
}

// scripts are what the page runs before the program, in this order.
var scripts = []string{
	"store.js", "device.js",
	"vendor/ol/ol.js",
	"chart/space.js", "chart/trace.js", "chart/palette.js", "chart/classes.js", "chart/reader.js", "chart/water.js", "chart/labels.js",
	"chart/ground.js", "chart/lines.js", "chart/marks.js", "chart/points.js", "chart/ink.js", "chart/painter.js", "chart/plan.js",
	"chart/overlay.js", "chart/found.js", "chart/graticule.js", "chart/sketch.js", "chart/picture.js", "chart/scene.js", "chart/gestures.js",
	"chart/keys.js", "chart/legend.js", "chart/board.js", "chart/chart.js",
	"strip/scale.js", "strip/picture.js", "strip/cursor.js", "strip/blocks.js", "strip/ribbon.js", "strip/strip.js",
}

// styles come after the page's own.
var styles = []string{"chart/chart.css", "strip/strip.css"}

func scriptTags(base string) string {
	var b strings.Builder
	for _, name := range scripts {
		fmt.Fprintf(&b, "<script defer src=\"%sweb/%s\"></script>\n", base, name)
	}
	return b.String()
}

func styleTags(base string) string {
	var b strings.Builder
	for _, name := range styles {
		fmt.Fprintf(&b, "<link rel=\"stylesheet\" href=\"%sweb/%s\">\n", base, name)
	}
	return b.String()
}

// The loader's ids are those that go-app's script looks for.
const pageTemplate = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">{policy}
<title>Keelroom</title>
<meta name="description" content="{summary}">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<meta name="theme-color" content="{paper}">
<link rel="icon" href="{base}web/icon.svg" type="image/svg+xml">
<link rel="apple-touch-icon" href="{base}web/icon-192.png">
<link rel="manifest" href="{base}manifest.webmanifest">
<link rel="stylesheet" href="{base}web/style.css">
{styles}<script defer src="{base}wasm_exec.js"></script>
{scripts}<script defer src="{base}web/start.js"></script>
<script defer src="{base}app.js"></script>
</head>
<body>
<div class="before">
<h1>Keelroom</h1>
<p><strong>A planning aid, not a chart.</strong> The program that checks is on its way; nothing is checked yet.</p>
<p>Build {version}</p>
</div>
<aside id="app-wasm-loader" class="loading">
<img id="app-wasm-loader-icon" alt="" src="{base}web/icon.svg">
<p id="app-wasm-loader-label">Loading Keelroom. It needs JavaScript and WebAssembly.</p>
</aside>
</body>
</html>
`

// goAppScripts are the scripts that start a go-app program.
func goAppScripts(base, version, wasmLength string) (map[string][]byte, error) {
	h := &ui.Handler{
		Name: "Keelroom", Version: version, WasmContentLength: wasmLength,
		LoadingLabel: "Loading Keelroom: {progress} %", Resources: below(base),
		Icon: ui.Icon{Default: base + "web/icon-192.png", SVG: base + "web/icon.svg"},
	}
	scripts := map[string][]byte{}
	for _, name := range []string{"app.js", "wasm_exec.js"} {
		w := &memory{header: http.Header{}, status: http.StatusOK}
		h.ServeHTTP(w, &http.Request{Method: http.MethodGet, URL: &url.URL{Path: "/" + name}, Header: http.Header{}})
		if w.status != http.StatusOK || len(w.body) == 0 {
			return nil, fmt.Errorf("go-app gives no %s: status %d", name, w.status)
		}
		scripts[name] = w.body
	}
	return scripts, nil
}

// below resolves every path below a base.
type below string

// Resolve is the path that the browser asks for.
func (b below) Resolve(location string) string {
	if strings.HasPrefix(location, string(b)) && b != "/" {
		return location
	}
	return string(b) + strings.TrimPrefix(location, "/")
}

// memory keeps a response.
type memory struct {
	header http.Header
	status int
	body   []byte
}

func (m *memory) Header() http.Header         { return m.header }
func (m *memory) WriteHeader(status int)      { m.status = status }
func (m *memory) Write(b []byte) (int, error) { m.body = append(m.body, b...); return len(b), nil }

// sharePath is where another app's share sheet sends files: the service worker
// takes them, no server ever does.
const sharePath = "share"

// manifest describes the app for installing it.
func manifest(base string) []byte {
	type (
		opens struct {
			Action string              `json:"action"`
			Accept map[string][]string `json:"accept"`
		}
		part struct {
			Name   string   `json:"name"`
			Accept []string `json:"accept"`
		}
		shared struct {
			Action  string            `json:"action"`
			Method  string            `json:"method"`
			Enctype string            `json:"enctype"`
			Params  map[string][]part `json:"params"`
		}
	)
	type icon struct {
		Src     string `json:"src"`
		Type    string `json:"type"`
		Sizes   string `json:"sizes"`
		Purpose string `json:"purpose"`
	}
	b, _ := json.MarshalIndent(struct { // texts only: does not fail
		Name        string  `json:"name"`
		ShortName   string  `json:"short_name"`
		Description string  `json:"description"`
		ID          string  `json:"id"`
		StartURL    string  `json:"start_url"`
		Scope       string  `json:"scope"`
		Display     string  `json:"display"`
		Background  string  `json:"background_color"`
		Theme       string  `json:"theme_color"`
		Icons       []icon  `json:"icons"`
		Files       []opens `json:"file_handlers"`
		Share       shared  `json:"share_target"`
	}{
		Name: "Keelroom", ShortName: "Keelroom", Description: summary, ID: base, StartURL: base, Scope: base,
		Display: "standalone", Background: paper, Theme: paper,
		Icons: []icon{
			{base + "web/icon.svg", "image/svg+xml", "any", "any"},
			{base + "web/icon-192.png", "image/png", "192x192", "any"},
			{base + "web/icon-512.png", "image/png", "512x512", "any maskable"},
		},
		Files: []opens{{base, map[string][]string{"application/geo+json": {".geojson"}}}},
		Share: shared{base + sharePath, "POST", "multipart/form-data", map[string][]part{
			"files": {{"files", []string{"application/geo+json", "application/json", "application/zip", "application/octet-stream", ".geojson", ".json", ".zip", ".000", ".001"}}},
		}},
	}, "", " ")
	return b
}
