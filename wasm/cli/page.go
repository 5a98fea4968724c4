//go:build !js

package cli

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
func (b *bundle) page(inMeta bool) ([]byte, error) {
	var meta string
	if inMeta {
		meta = fmt.Sprintf("\n<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">", html.EscapeString(policy))
	}
	scriptTags, err := b.scriptTags()
	if err != nil {
		return nil, err
	}
	var styleTags strings.Builder
	for _, name := range styles {
		fmt.Fprintf(&styleTags, "<link rel=\"stylesheet\" %s>\n", b.partAt("href", name))
	}
	return []byte(strings.NewReplacer(
		"{home}", b.home(), "{policy}", meta, "{summary}", html.EscapeString(summary), "{paper}", paper,
		"{version}", html.EscapeString(b.version), "{first}", b.partAt("src", "web/first.js"),
		"{scripts}", scriptTags, "{styles}", styleTags.String(),
	).Replace(pageTemplate)), nil
}

// partAt names a part in a tag of the page, with its hash: the browser runs and
// uses it only as this version has it, on a first visit too.
func (b *bundle) partAt(attribute, name string) string {
	return fmt.Sprintf("%s=\"%s%s\" integrity=\"%s\"", attribute, b.home(), name, b.parts[name].integrity())
}

// classicScripts run after web/first.js and before the modules, in this order.
var classicScripts = []string{"wasm_exec.js", "web/vendor/ol/ol.js"}

// scriptTags are the tags of all scripts but web/first.js. Modules that others
// import are fetched with the page, not when the one that imports them has come.
func (b *bundle) scriptTags() (string, error) {
	modules, err := b.modules()
	if err != nil {
		return "", err
	}
	var tags strings.Builder
	for _, name := range modules[:len(modules)-1] {
		fmt.Fprintf(&tags, "<link rel=\"modulepreload\" %s>\n", b.partAt("href", name))
	}
	for _, name := range classicScripts {
		fmt.Fprintf(&tags, "<script defer %s></script>\n", b.partAt("src", name))
	}
	fmt.Fprintf(&tags, "<script type=\"module\" %s></script>\n", b.partAt("src", entryModule))
	return tags.String(), nil
}

// styles are those of the page, then of the views.
var styles = []string{"web/style.css", "web/chart/chart.css", "web/strip/strip.css"}

const pageTemplate = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">{policy}
<title>Keelroom</title>
<meta name="description" content="{summary}">
<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">
<meta name="theme-color" content="{paper}">
<link rel="icon" href="{home}web/icon.svg" type="image/svg+xml">
<link rel="apple-touch-icon" href="{home}web/icon-192.png">
<link rel="manifest" href="{home}manifest.webmanifest">
<script {first}></script>
{styles}{scripts}</head>
<body>
<div class="before">
<h1>Keelroom</h1>
<p><strong>A planning aid, not a chart.</strong> The program that checks is on its way; nothing is checked yet.</p>
<p>Build {version}</p>
</div>
<aside id="app-wasm-loader" class="loading">
<img id="app-wasm-loader-icon" alt="" src="{home}web/icon.svg">
<p id="app-wasm-loader-label">Loading Keelroom. It needs JavaScript and WebAssembly.</p>
</aside>
</body>
</html>
`

// wasmExec is Go's own script that runs a program, as go-app gives it.
func wasmExec() ([]byte, error) {
	w := &recorder{header: http.Header{}, status: http.StatusOK}
	h := &ui.Handler{Name: "Keelroom", Version: noVersion}
	h.ServeHTTP(w, &http.Request{Method: http.MethodGet, URL: &url.URL{Path: "/wasm_exec.js"}, Header: http.Header{}})
	if w.status != http.StatusOK || len(w.body) == 0 {
		return nil, fmt.Errorf("go-app gives no wasm_exec.js: status %d", w.status)
	}
	return w.body, nil
}

// recorder keeps a response.
type recorder struct {
	header http.Header
	status int
	body   []byte
}

func (m *recorder) Header() http.Header         { return m.header }
func (m *recorder) WriteHeader(status int)      { m.status = status }
func (m *recorder) Write(b []byte) (int, error) { m.body = append(m.body, b...); return len(b), nil }

// sharePath is where another app's share sheet sends files: the service worker
// takes them, no server ever does.
const sharePath = "share"

// manifest describes the app for installing it.
func manifest(base, home string) []byte {
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
			{home + "web/icon.svg", "image/svg+xml", "any", "any"},
			{home + "web/icon-192.png", "image/png", "192x192", "any"},
			{home + "web/icon-512.png", "image/png", "512x512", "any maskable"},
		},
		Files: []opens{{base, map[string][]string{"application/geo+json": {".geojson"}}}},
		Share: shared{base + sharePath, "POST", "multipart/form-data", map[string][]part{
			"files": {{"files", []string{"application/geo+json", "application/json", "application/zip", "application/octet-stream", ".geojson", ".json", ".zip", ".000", ".001"}}},
		}},
	}, "", " ")
	return b
}
